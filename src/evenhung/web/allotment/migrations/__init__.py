"""How its table came to be."""
