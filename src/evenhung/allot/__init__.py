"""Combinatorics over plain items: weights to sashes, bars to lengths; answers with proofs."""
