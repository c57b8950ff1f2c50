"""The elevation: a window seen from inside, to scale, every part of it a group of its own."""

from evenhung.sheets.elevation.window import elevation_of

__all__ = ["elevation_of"]
