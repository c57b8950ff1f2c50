"""Published values, each as printed, with its unit, its source and how it is known.

A value that the program computes with is a row of a CSV file here, never a number in
the code.  Two sources that disagree are two rows, and one of them is chosen.
"""

from evenhung.reference.loader import SUBJECTS, keys, look_up, rows, sources
from evenhung.reference.row import Row, Source

__all__ = ["SUBJECTS", "Row", "Source", "keys", "look_up", "rows", "sources"]
