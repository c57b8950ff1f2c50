"""What will be done to a window beside hanging it: each finding's treatment, and what is kept."""
