"""Photos of a window and of its parts."""
