"""What takes too long for a request: sent to a process of its own, watched, stopped, found lost."""
