"""Quantities in the words of a plan: the house's own system first, the other in brackets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from evenhung.quantities import print_force, print_length, print_mass

if TYPE_CHECKING:
    from evenhung.quantities import System


@dataclass(frozen=True, slots=True)
class Words:
    """How quantities are written for one house."""

    system: System

    def length(self, mm: float) -> str:
        """Write a length given in mm."""
        return print_length(mm, self.system, both=True)

    def mass(self, kg: float) -> str:
        """Write a mass given in kg."""
        return print_mass(kg, self.system, both=True)

    def force(self, n: float) -> str:
        """Write a force given in N."""
        return print_force(n, self.system, both=True)
