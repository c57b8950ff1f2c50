"""Pure functions of a hanging sash: numbers in mm, kg and N in, numbers out.

Each module is one subject; subjects never import each other.
Every function takes floats or numpy arrays (they broadcast) and gives back the same kind.
"""
