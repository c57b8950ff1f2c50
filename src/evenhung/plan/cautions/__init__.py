"""Notes that are not about what was assumed: what is odd, what stops a sash, what may hurt."""
