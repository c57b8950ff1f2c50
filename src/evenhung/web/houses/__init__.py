"""All the houses: the list, and the ways a new one begins."""
