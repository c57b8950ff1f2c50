"""In what order a house is worked on, what may hurt where, and who must be asked first."""

from evenhung.plan.method.house import Method, method_of

__all__ = ["Method", "method_of"]
