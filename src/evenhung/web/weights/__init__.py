"""All the weights of a house, and which of them should hang where."""
