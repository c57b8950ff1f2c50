"""The sheets of a house, made in a process of their own and downloaded."""
