"""What there is to hang a house with besides its own weights, and what gives way to what."""
