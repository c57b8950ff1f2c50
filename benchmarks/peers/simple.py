"""Two procedures without prices or proof: what a joiner does by hand, and a greedy one.

Both are as good as we could make them without looking further than one sash at a time, for a weak
one would flatter ours.
"""

from __future__ import annotations

import heapq

import numpy as np

from peers.ground import NEVER, Choice, Found, Ground, Instance, Options

NEAR = 30
"""Weights just above half a sash, and as many just below, that a joiner tries for it."""

CONTENT = (2, 10, 20, 80)
"""Moves whose cost a joiner bears to leave a pair at home; each is tried on the whole house."""


def by_hand(instance: Instance, _seconds: float) -> Found:
    """Sort and match: what hangs well enough at home stays; then heavy weights to heavy sashes.

    The rest are served from the heaviest down, each by the cheapest of what its own weights and
    those nearest to half its mass can do, with pieces, trimmed or beside a new one. The house is
    gone through with several notions of well enough, and the best is kept.
    """
    ground = Ground(instance)
    return min((_matched(ground, content) for content in CONTENT), key=lambda found: found[0])[1]


def _matched(ground: Ground, content: int) -> tuple[int, Found]:
    instance, hand = ground.instance, _Hand(ground.instance)
    sashes = sorted(
        range(len(instance["sashes"])), key=lambda sash: (-instance["sashes"][sash]["W"], sash)
    )
    own = _own_weights(instance)
    for sash in sashes:
        hand.serve(sash, _best(ground, sash, own[sash]), most=content * instance["rules"]["move"])
    mass = np.array([weight["m"] for weight in instance["weights"]])
    for sash in sashes:
        if hand.answer[sash] is None:
            free = np.flatnonzero(hand.is_free[:-1])
            free = free[np.argsort(mass[free], kind="stable")]
            middle = int(np.searchsorted(mass[free], instance["sashes"][sash]["W"] / 2))
            near = free[max(0, middle - NEAR) : middle + NEAR].tolist()
            mine = [weight for weight in own[sash] if hand.is_free[weight]]
            hand.serve(sash, _best(ground, sash, sorted({*near, *mine})))
    unserved = ground.rules["unserved"] * hand.answer.count(None)
    return hand.total + unserved, Found(hand.answer, None, "feasible")


def greedy(instance: Instance, _seconds: float) -> Found:
    """Let each sash ask for the cheapest pair of all that is free; serve by the better order.

    Once the sash with the cheapest pair goes first, once the one with the dearest.
    """
    ground = Ground(instance)
    answers = [_in_order(ground, sign) for sign in (1, -1)]
    return min(answers, key=lambda found: found[0])[1]


def _in_order(ground: Ground, sign: int) -> tuple[int, Found]:
    hand = _Hand(ground.instance)
    asks = [_best(ground, sash, hand.is_free) for sash in range(len(ground.instance["sashes"]))]
    queue = [(sign * ask[0], sash) for sash, ask in enumerate(asks)]
    heapq.heapify(queue)
    while queue:
        _, sash = heapq.heappop(queue)
        if not hand.can_have(asks[sash]):
            asks[sash] = _best(ground, sash, hand.is_free)
            heapq.heappush(queue, (sign * asks[sash][0], sash))
            continue
        hand.serve(sash, asks[sash])
    unserved = ground.rules["unserved"] * hand.answer.count(None)
    return hand.total + unserved, Found(hand.answer, None, "feasible")


Ask = tuple[int, list[Choice] | None]
"""What a pair costs, and the pair; `None` for leaving the sash unserved."""


class _Hand:
    """An answer in the making."""

    def __init__(self, instance: Instance) -> None:
        self.answer: list[list[Choice] | None] = [None] * len(instance["sashes"])
        # A new weight, numbered -1, is always free: that is the last entry.
        self.is_free = np.ones(len(instance["weights"]) + 1, dtype=bool)
        self.total = 0

    def can_have(self, ask: Ask) -> bool:
        return all(self.is_free[choice["w"]] for choice in ask[1] or [] if "w" in choice)

    def serve(self, sash: int, ask: Ask, most: int = NEVER) -> None:
        if ask[1] and ask[0] <= most:
            self.answer[sash], self.total = ask[1], self.total + ask[0]
            for choice in ask[1]:
                if "w" in choice:
                    self.is_free[choice["w"]] = False


def _own_weights(instance: Instance) -> list[list[int]]:
    own: list[list[int]] = [[] for _ in instance["sashes"]]
    for number, weight in enumerate(instance["weights"]):
        if weight["home"]:
            own[weight["home"][0]].append(number)
    return own


def _best(ground: Ground, sash: int, allowed: np.ndarray | list[int]) -> Ask:
    """Give the cheapest pair of a sash from the weights allowed, by number or by flag."""
    if isinstance(allowed, list):
        flags = np.zeros(len(ground.instance["weights"]) + 1, dtype=bool)
        flags[[*allowed, -1]] = True
        allowed = flags
    left, right = (_two_cheapest(ground, sash, side, allowed) for side in (0, 1))
    best: Ask = (ground.rules["unserved"], None)
    for one in left:
        for other in right:
            total = one.cost[:, None] + other.cost[None, :]
            total = total + ground.penalties(sash, one.mass, other.mass)
            is_one = (one.weight[:, None] == other.weight[None, :]) & (one.weight[:, None] >= 0)
            total[is_one] = NEVER
            if total.size and total.min() < best[0]:
                i, j = np.unravel_index(total.argmin(), total.shape)
                pair = [ground.choice(int(one.choice[i])), ground.choice(int(other.choice[j]))]
                best = (int(total[i, j]), pair)
    return best


def _two_cheapest(ground: Ground, sash: int, side: int, allowed: np.ndarray) -> list[Options]:
    """Give the cheapest way to each mass, and the cheapest by another weight."""
    options = ground.at(sash, side)
    options = options.only(allowed[options.weight])
    options = options.only(np.lexsort((options.cost, options.mass)))
    _, first, place = np.unique(options.mass, return_index=True, return_inverse=True)
    others = options.only(options.weight != options.weight[first][place])
    _, second = np.unique(others.mass, return_index=True)
    return [options.only(first), others.only(second)]
