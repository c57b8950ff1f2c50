"""What is kept: every save is a new revision, and none is ever changed or deleted."""
