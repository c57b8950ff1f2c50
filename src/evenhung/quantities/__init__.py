"""Quantities as tradespeople write them: read exactly, printed to what a rule or scale shows."""

from evenhung.quantities.kinds import Force, Length, LinearDensity, Mass, Quantity
from evenhung.quantities.printing import (
    System,
    print_force,
    print_length,
    print_linear_density,
    print_mass,
)

__all__ = [
    "Force",
    "Length",
    "LinearDensity",
    "Mass",
    "Quantity",
    "System",
    "print_force",
    "print_length",
    "print_linear_density",
    "print_mass",
]
