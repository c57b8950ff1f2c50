"""All the weights of a house: those found at its sashes, and those that lie loose."""
