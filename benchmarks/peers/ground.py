"""The ground on which every peer stands: an instance of the formal problem, laid open.

``tests/allot/formal/make_instance.py`` documents the instance. A *choice* is one way to hang
something at a side, as the solution file has it.
"""

from __future__ import annotations

from itertools import combinations_with_replacement
from typing import Any, NamedTuple

import numpy as np

Instance = dict[str, Any]
Choice = dict[str, Any]

NEVER = 1 << 40
"""What stands for a cost that nobody pays [cent]."""


class Found(NamedTuple):
    """What a peer gives back."""

    sashes: list[list[Choice] | None]
    """As in the solution file."""
    bound: float | None
    """What it proved itself [cent]; None for nothing."""
    status: str
    prices: list[int] | None = None
    """Shadow prices of the weights, if it has any [cent]."""


class Options(NamedTuple):
    """Ways to fill one side, by mass and then cost; a weight of -1 is a new one."""

    weight: np.ndarray
    mass: np.ndarray
    length: np.ndarray
    cost: np.ndarray
    """With the move, unless the weight is at home here [cent]."""
    choice: np.ndarray
    """Numbers of the choices, for `Ground.choice`."""

    def only(self, which: np.ndarray) -> Options:
        """Give some of them."""
        return Options(*(column[which] for column in self))


class Ground:
    """All ways of all weights and all new ones, sorted once."""

    def __init__(self, instance: Instance) -> None:
        self.instance, self.rules = instance, instance["rules"]
        self._choices: list[Choice] = []
        rows = [*self._old_ones(), *self._new_ones()]
        rows.sort(key=lambda row: (row[1], row[3], row[0]))
        self._all = Options(*np.array(rows, dtype=np.int64).reshape(-1, 5).T)

    def choice(self, number: int) -> Choice:
        """Give a choice as the solution file has it."""
        return self._choices[number]

    def at(self, sash: int, side: int) -> Options:
        """Give what fits at a side and could be half of an accepted pair."""
        wanted, apart = self.instance["sashes"][sash], self.rules["max_diff"]
        low, high = self.rules["window"][wanted["kind"]]["accept"]
        ends = ((wanted["W"] + low - apart) // 2, (wanted["W"] + high + apart) // 2 + 1)
        found = self._all.only(slice(*np.searchsorted(self._all.mass, ends)))
        found = found.only(found.length <= wanted["Lmax"])
        is_home = self._home[found.weight] == 2 * sash + side
        moved = self.rules["move"] * ((found.weight >= 0) & ~is_home)
        return found._replace(cost=found.cost + moved)

    def penalties(self, sash: int, left: np.ndarray, right: np.ndarray) -> np.ndarray:
        """Give what each left mass with each right mass costs besides; `NEVER` if not accepted."""
        wanted = self.instance["sashes"][sash]
        window = self.rules["window"][wanted["kind"]]
        excess = left[:, None] + right[None, :] - wanted["W"]
        off = np.maximum(window["ideal"][0] - excess, excess - window["ideal"][1])
        cost = np.where(off > 0, self.rules["off_fixed"] + self.rules["off_per_tick"] * off, 0)
        accepted = (window["accept"][0] <= excess) & (excess <= window["accept"][1])
        accepted &= np.abs(left[:, None] - right[None, :]) <= self.rules["max_diff"]
        return np.where(accepted, cost, NEVER)

    def _old_ones(self) -> list[tuple[int, ...]]:
        """List every way of every weight, cheapest or shortest for its mass."""
        pieces, trim, rows = self._pieces(), self.rules["trim"], []
        # A new weight, numbered -1, has no home: that is the last entry.
        self._home = np.full(len(self.instance["weights"]) + 1, -1)
        for number, weight in enumerate(self.instance["weights"]):
            if weight["home"]:
                self._home[number] = 2 * weight["home"][0] + weight["home"][1]
            for mass, length, cost, add in pieces:
                choice = self._note({"w": number, "add": list(add)} if cost else {"w": number})
                rows.append((number, weight["m"] + mass, weight["len"] + length, cost, choice))
            for off in range(1, weight["m"] * trim["max_num"] // trim["max_den"] + 1):
                left = weight["m"] - off
                length = -(-weight["len"] * left // weight["m"])
                cost = trim["fixed"] + trim["per_tick"] * off
                choice = self._note({"w": number, "trim": off})
                rows.append((number, left, length, cost, choice))
        return rows

    def _pieces(self) -> list[tuple[int, int, int, tuple[int, ...]]]:
        """List totals of pieces, nothing among them, that no other beats in length and cost."""
        sizes, best = range(len(self.rules["pieces"])), {}
        for count in range(self.rules["max_pieces"] + 1):
            for chosen in combinations_with_replacement(sizes, count):
                totals = (
                    sum(self.rules["pieces"][size][part] for size in chosen) for part in range(3)
                )
                best.setdefault(tuple(totals), tuple(chosen.count(size) for size in sizes))
        return [
            (mass, length, cost, add)
            for (mass, length, cost), add in sorted(best.items())
            if not any(
                other[0] == mass and other[1] <= length and other[2] <= cost
                for other in best
                if other != (mass, length, cost)
            )
        ]

    def _new_ones(self) -> list[tuple[int, ...]]:
        apart, rows = self.rules["max_diff"], []
        heaviest = max(sash["W"] for sash in self.instance["sashes"])
        most = heaviest + max(window["accept"][1] for window in self.rules["window"].values())
        for metal, new in self.rules["new"].items():
            for mass in range(1, (most + apart) // 2 + 1):
                length = -(-mass * new["len_num"] // new["len_den"]) + new["len_add"]
                choice = self._note({"new": metal, "mass": mass})
                rows.append((-1, mass, length, new["fixed"] + new["per_tick"] * mass, choice))
        return rows

    def _note(self, choice: Choice) -> int:
        self._choices.append(choice)
        return len(self._choices) - 1
