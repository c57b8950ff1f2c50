"""What every page has: its frame, its headers, its limits, its figures, its answer to trouble."""
