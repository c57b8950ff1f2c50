"""The pack: the sheets that people carry, cut by, sign and keep."""
