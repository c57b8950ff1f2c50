"""The take-off: timber, glass, putty, paint, cord and weights that a house's overhaul takes."""
