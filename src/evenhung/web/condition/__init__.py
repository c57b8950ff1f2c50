"""What was found of the parts of a window, and how it behaves: taken down one thing at a time."""
