"""One window: what was found, part by part."""
