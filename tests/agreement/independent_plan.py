"""A second plan: the formulas of the hang, read from the design and written again as plain scalars.

It shares no line, no unit parser and no table with the program, and was written before the program
was read. What the design leaves to the reference comes in as `rows`; what the design leaves open
follows docs/decisions/0006.
Lengths in mm, masses in kg, forces in N; heights are up from the sill.
It is long because it is one plan from survey to verdict, to be read from the top.
"""

import math

POUND_KG = 0.45359237  # international pound, exact (1959 agreement)
G_N_KG = 9.80665  # standard gravity, exact (3rd CGPM, 1901)
UNITS = {"mm": 1.0, "in": 25.4, "kg": 1.0, "lb": POUND_KG, "N": 1.0, "g/m": 1e-6}
SIDES = ("left", "right")
OPENING = ("compartment_depth", "stile_thickness", "pocket_height", "pocket_width")
UNLIKE = "adjust, if left and right are left unlike"
NO_CORD = dict.fromkeys(("least_mm", "most_mm", "working_mm", "cut_mm"))
NO_CLEARANCES = dict.fromkeys(("top_clear_mm", "bottom_clear_mm"))
NO_PAIR = dict.fromkeys(("least", "best", "most"))
NO_FORCES = dict.fromkeys(("raise_n", "lower_n", "rests_shut", "stays_put"))


def value(text):
    """``"838 mm"`` as 838.0; the only forms are a plain number, a space and one of `UNITS`."""
    number, unit = text.split()
    return float(number) * UNITS[unit]


def within(least, found, most):
    """Inclusive, and compared after rounding to 0.1 g."""
    return round(least, 4) <= round(found, 4) <= round(most, 4)


def sash_plan(place, sash, window, house, rows):
    """Give the plan of one sash, the weights as found."""
    mass = value(sash["weighed"]) if "weighed" in sash else None
    if sash.get("runs") == "no":
        return fixed_plan(mass)
    stand = standing(place, sash, window, house, rows)
    found = pair_as_found(sash)
    pair = NO_PAIR if mass is None else pair_band(place, mass, house.get("policy", {}))
    cord, clear = cord_and_clearances(stand, lengths_as_found(found["weights"]))
    force = dict(NO_FORCES)
    if mass is not None and found["pair_kg"] is not None:
        force = operation(place, mass, found["pulling"], stand)
    pocket = pocket_of(found["weights"], stand)
    plan = {
        "mass_kg": mass,
        "pair_kg": pair,
        "found": {
            "pair_kg": found["pair_kg"],
            "excess_kg": None if None in (mass, found["pair_kg"]) else mass - found["pair_kg"],
        },
        "cord": cord,
        "weights": clear,
        "operation": force,
        "pocket": pocket,
    }
    plan["found"]["verdict"] = verdict(stand, plan, found, house, rows)
    return plan


def fixed_plan(mass):
    """Give the plan of a sash that does not run: its mass, and no figure of its hang."""
    return {
        "mass_kg": mass,
        "pair_kg": NO_PAIR,
        "found": {"pair_kg": None, "excess_kg": None, "verdict": "fixed"},
        "cord": {"diameter_mm": None, **NO_CORD},
        "weights": NO_CLEARANCES,
        "operation": NO_FORCES,
        "pocket": {"needed_mm": None, "passes": None},
        "hung": None,
    }


# the pair


def pair_band(place, mass, policy):
    """Least, best and most that the pair may weigh."""
    stated = policy.get("lower_excess" if place == "lower" else "upper_deficit")
    if stated:
        band = {word: value(stated[word]) for word in ("least", "best", "most")}
    elif round(mass, 4) < round(10 * POUND_KG, 4):
        band = {"least": 0.5 * POUND_KG, "best": 0.75 * POUND_KG, "most": 1.0 * POUND_KG}
    elif round(mass, 4) > round(30 * POUND_KG, 4):
        parts = {"least": 0.03, "best": 0.04, "most": 0.05}
        band = {word: min(part * mass, 3 * POUND_KG) for word, part in parts.items()}
    else:
        pounds = (1, 1.25, 1.5) if place == "lower" else (1, 1.5, 2)
        words = ("least", "best", "most")
        band = {word: pound * POUND_KG for word, pound in zip(words, pounds, strict=True)}
    if place == "upper":
        return {word: mass + band[word] for word in band}
    return {"least": mass - band["most"], "best": mass - band["best"], "most": mass - band["least"]}


def pair_as_found(sash):
    """Give what is there, what pulls, and the mass of what pulls (None where it is not known)."""
    weights = {side: sash.get(side) for side in SIDES}
    there = [one for one in weights.values() if one is not None and one.get("hung") != "none"]
    pulling = {}
    for side, one in weights.items():
        if one is not None and one.get("hung") != "none" and one.get("state") != "broken":
            pulling[side] = value(one["weighed"]) if "weighed" in one else None
    total = None
    if None not in weights.values() and None not in pulling.values():
        total = sum(pulling.values())
    return {"weights": weights, "there": there, "pulling": pulling, "pair_kg": total}


def lengths_as_found(weights):
    """Give the length in each box, None where one that counts is not known or none is there.

    An empty box will take a weight like the other.
    """
    if None in weights.values():
        return None
    there = [length_of(w) for w in weights.values() if w.get("hung") != "none"]
    if not there or None in there:
        return None
    return {
        side: max(there) if weight.get("hung") == "none" else length_of(weight)
        for side, weight in weights.items()
    }


def length_of(weight):
    """Give a weight's overall length, None where it is not stated."""
    return value(weight["length"]) if "length" in weight else None


# where things are


def standing(place, sash, window, house, rows):
    """Give the heights, the pulleys and the cord that one sash runs by."""
    cord, policy = house.get("cord", {}), house.get("policy", {})
    upper = place == "upper"
    high, tall = value(window["box"]["clear_height"]), value(sash["height"])
    horn = value(sash["horn"]) if "horn" in sash else 0.0
    travel = value(sash["travel"]) if "travel" in sash else high - tall - horn
    end, nail = (value(sash[name]) if name in sash else None for name in ("cord_end", "top_nail"))
    end_up = high - end if upper else tall - end + travel
    diameter = stated_or(cord.get("diameter"), rows["cord diameter"])
    lines = {sash.get(side, {}).get("hung", "cord") for side in SIDES if side in sash} - {"none"}
    off_the_reel = bool(lines) and "cord" not in lines  # beside a cord, the cord is what is cut
    knotted = sash.get("anchorage") == "knotted"
    below = "stretch_allowance" if upper else "bottom_clearance"
    return {
        "upper": upper,
        "sides": {side: side_of(sash, window, side, diameter, rows) for side in SIDES},
        "end_up": end_up,
        "end_down": end_up - travel,
        "gap": 0.0 if upper else high - tall - travel,
        "nail": nail,
        "nailed": 0.0 if knotted or nail is None else end - nail,
        "margin": stated_or(policy.get("nail_margin"), rows["nail margin"]),
        "diameter": diameter,
        "knot": stated_or(cord.get("knot"), rows["knot"]),
        # no tail is spent on a chain or a tape, and neither stretches
        "tail": 0.0 if off_the_reel else stated_or(cord.get("tail"), rows["tail"]),
        "stretch": 0.0
        if off_the_reel
        else stated_or(cord.get("stretch_pct"), rows["stretch"]) / 100,
        "above": stated_or(policy.get("pulley_clearance"), rows["pulley_clearance"]),
        "below": stated_or(policy.get(below), rows[below]),
        "friction": friction_of(sash, rows),
    }


def side_of(sash, window, side, diameter, rows):
    """Give the box and the pulley on one side: its own for this sash, else the sash's, and on."""

    def own(table, name):
        of_sash, of_window = sash.get(table, {}), window[table]
        for one in (of_sash.get(side, {}), of_sash, of_window.get(side, {}), of_window):
            if name in one:
                return one[name]
        return None

    high, wheel = value(window["box"]["clear_height"]), value(own("pulley", "wheel"))
    drop = value(own("box", "pulley_drop"))
    axle = stated_or(own("pulley", "axle"), rows["axle"])
    loss = stated_or(own("pulley", "friction"), rows["friction"]) * axle / (wheel + diameter)
    bend = stated_or(own("pulley", "cord_bend_pct"), rows["cord bend"]) / 100
    return {
        "axle_up": high - drop,
        "drop": drop,
        "bottom_up": high - drop - value(own("box", "weight_space")),
        "radius": (wheel + diameter) / 2,
        "case": stated_or(own("pulley", "case_below_axle"), wheel / 2 + rows["below wheel"]),
        "eta": (1 - loss) / (1 + loss) * (1 - bend),
        **{name: stated_or(own("box", name), None) for name in OPENING},
    }


def friction_of(sash, rows):
    """Give least, likely and most friction of a sash in its runs."""
    stated = sash.get("slide_friction")
    words = ("least", "likely", "most")
    if isinstance(stated, dict):
        return {word: value(stated[word]) for word in words}
    if stated is not None:
        return dict.fromkeys(words, value(stated))
    return {word: rows[f"slide {word}"] for word in words}


def stated_or(stated, else_this):
    """Give what a survey states, a quantity or a plain number; else something in its stead."""
    if stated is None:
        return else_this
    return value(stated) if isinstance(stated, str) else stated


# the cord


def top_of_weight(side, end_up, working):
    """Z = 2Y + pi r - E - l: the top of the weight with the cord's end at a height."""
    return 2 * side["axle_up"] + math.pi * side["radius"] - end_up - working


def cord_and_clearances(stand, lengths):
    """Give the band of working lengths, the chosen one, the cut, and both clearances.

    Both cords of a sash are the same and both boxes have to suit them, each with its own weight:
    where the boxes are alike that is the longer of the two weights.
    """
    clear = dict(NO_CLEARANCES)
    if cord_end_too_high(stand):
        return {"diameter_mm": stand["diameter"], **NO_CORD}, clear
    sides = stand["sides"].values()
    # shortest: at the sash's lowest the knot is just clear below the pulley case
    least = max(
        top_of_weight(s, stand["end_down"], 0)
        - (s["axle_up"] - s["case"] - stand["above"] - stand["knot"])
        for s in sides
    )
    most = working = cut = None
    if lengths is not None:
        # longest: at the sash's highest the weight is just clear above the box bottom
        most = min(
            top_of_weight(s, stand["end_up"], 0) - lengths[side] - s["bottom_up"] - stand["below"]
            for side, s in stand["sides"].items()
        )
    if most is None:
        working = None if stand["upper"] else least
    elif least <= most:
        working = most if stand["upper"] else least
    if working is not None:
        nailed = stand["nailed"]
        cut = (working - nailed) / (1 + stand["stretch"]) + nailed + stand["tail"]
        clear["top_clear_mm"] = min(
            s["axle_up"]
            - s["case"]
            - (top_of_weight(s, stand["end_down"], working) + stand["knot"])
            for s in sides
        )
        if lengths is not None:
            clear["bottom_clear_mm"] = min(
                top_of_weight(s, stand["end_up"], working) - lengths[side] - s["bottom_up"]
                for side, s in stand["sides"].items()
            )
    return {
        "diameter_mm": stand["diameter"],
        "least_mm": least,
        "most_mm": most,
        "working_mm": working,
        "cut_mm": cut,
    }, clear


def cord_end_too_high(stand):
    """True where the cord's end rises above an axle: the formulas no longer hold."""
    return any(stand["end_up"] > side["axle_up"] for side in stand["sides"].values())


def nail_too_high(stand):
    """True where the top nail comes too near the pulley: it cannot close, or be fully raised."""
    if stand["nail"] is None:
        return False
    lowest = max(max(0.0, side["drop"] - stand["gap"]) for side in stand["sides"].values())
    return stand["nail"] < lowest + stand["margin"]


# the hands


def operation(place, mass, pulling, stand):
    """Give the forces by hand at likely friction, and what the range of friction leaves open."""
    etas = {side: stand["sides"][side]["eta"] for side in pulling}
    raising = G_N_KG * (mass - sum(etas[side] * kg for side, kg in pulling.items()))
    lowering = G_N_KG * (sum(kg / etas[side] for side, kg in pulling.items()) - mass)
    frictions = [stand["friction"][word] for word in ("least", "likely", "most")]
    shut = raising if place == "lower" else lowering
    return {
        "raise_n": raising + stand["friction"]["likely"],
        "lower_n": lowering + stand["friction"]["likely"],
        "rests_shut": whichever([shut + f > 0 for f in frictions]),
        "stays_put": whichever([min(raising, lowering) + f > 0 for f in frictions]),
    }


def whichever(answers):
    """Give the answer, None where it depends on the friction."""
    return answers[0] if len(set(answers)) == 1 else None


# the pocket


def pocket_of(weights, stand):
    """Give the height of opening the larger weight needs, and whether both go through.

    A missing weight is taken to be like its fellow; no height serves a weight thicker than its box.
    """
    there = [one for one in weights.values() if one is not None and one.get("hung") != "none"]
    needs, passes = [None], [None]
    if there:
        both = [
            through_pocket(there[0] if one and one.get("hung") == "none" else one, side)
            for one, side in zip(weights.values(), stand["sides"].values(), strict=True)
        ]
        needs, passes = zip(*both, strict=True)
    known = [needed for needed in needs if needed is not None]
    return {
        "needed_mm": None if math.inf in known else max(known, default=None),
        "passes": False if False in passes else None if None in passes else True,
    }


def through_pocket(weight, side):
    """Give the height one weight needs and whether it goes through; None where not known."""
    if weight is None:
        return None, None
    across = value(weight["diameter"]) if "diameter" in weight else None
    length, depth, wall = length_of(weight), side["compartment_depth"], side["stile_thickness"]
    height, width = side["pocket_height"], side["pocket_width"]
    # d <= min(b, p) and d <= the width, whatever else is not known
    stuck = any(
        room is not None and across is not None and across > room for room in (depth, height, width)
    )
    if None in (across, length, depth, wall):
        return None, False if stuck else None
    needed = math.inf if across > depth else needed_opening(length, across, wall, depth)
    if stuck:
        return needed, False
    return needed, None if height is None else height >= needed


def needed_opening(length, across, wall, depth):
    """Least height of opening that every tilt on the way in allows, by search over the tilt."""

    def tail_outside(tilt):  # b sin + p cos - L sin cos >= d, for p
        sin, cos = math.sin(tilt), math.cos(tilt)
        return (across - depth * sin + length * sin * cos) / cos

    def tail_in_the_opening(tilt):  # L <= (b - d sin)/cos + p sin, for p
        sin, cos = math.sin(tilt), math.cos(tilt)
        return (length - (depth - across * sin) / cos) / sin

    first = math.acos(min(1.0, (depth + wall) / length))
    second = math.acos(min(1.0, depth / length))
    upright = math.pi / 2
    return max(
        across,
        highest(tail_outside, first, second) if second > first else 0.0,
        highest(tail_in_the_opening, max(second, 1e-9), upright - 1e-9),
    )


def highest(function, start, end, steps=100):
    """Give the largest value of a function between two ends: a grid, then thirds about its best."""
    width = (end - start) / steps
    best = max(range(steps + 1), key=lambda step: function(start + step * width))
    low, high = start + max(best - 1, 0) * width, start + min(best + 1, steps) * width
    for _ in range(40):
        left, right = low + (high - low) / 3, high - (high - low) / 3
        if function(left) < function(right):
            low = left
        else:
            high = right
    return max(function(start), function(end), function((low + high) / 2))


# the verdict


def verdict(stand, plan, found, house, rows):
    """Give the first verdict that applies to a sash that runs."""
    cord = plan["cord"]
    empty = cord["most_mm"] is not None and cord["least_mm"] > cord["most_mm"]
    blocked = plan["pocket"]["passes"] is False
    if empty or blocked or nail_too_high(stand) or cord_end_too_high(stand):
        return "cannot run"
    masses = [value(w["weighed"]) if "weighed" in w else None for w in found["there"]]
    if plan["mass_kg"] is None or None in found["weights"].values() or None in masses:
        return "unknown"
    if len(found["pulling"]) < len(SIDES):
        return "rehang"
    alike = pair_difference(house, rows)
    true = within(plan["pair_kg"]["least"], found["pair_kg"], plan["pair_kg"]["most"])
    if true and within(0, max(masses) - min(masses), alike):
        return "adjust" if plan["operation"]["stays_put"] is False else "hangs true"
    if an_adjustment_exists(stand, plan, found, 0.0, rows):
        return "adjust"
    return UNLIKE if an_adjustment_exists(stand, plan, found, alike, rows) else "rehang"


def pair_difference(house, rows):
    """Give how much left and right may differ."""
    return stated_or(house.get("policy", {}).get("pair_difference"), rows["pair_difference"])


# after the change


def an_adjustment_exists(stand, plan, found, alike, rows):
    """True where some mass added to or taken off these two weights would make them hang true."""
    least, most = {}, {}
    for side, weight in found["weights"].items():
        mass = value(weight["weighed"])
        least[side] = mass * (1 - rows["take off"] / 100)
        most[side] = mass + room_to_add(stand, side, found["weights"], rows)
    lightest = {a: max(least[a], least[b] - alike) for a, b in (SIDES, SIDES[::-1])}
    heaviest = {a: min(most[a], most[b] + alike) for a, b in (SIDES, SIDES[::-1])}
    return (
        all(lightest[side] <= most[side] for side in SIDES)
        and sum(lightest.values()) <= plan["pair_kg"]["most"]
        and sum(heaviest.values()) >= plan["pair_kg"]["least"]
    )


def room_to_add(stand, side, both, rows):
    """Give the mass of make-weight that leaves the shortest cord long enough.

    Without every size that takes, the room is not checked.
    """
    weight, length = both[side], length_of(both[side])
    if any(size not in one for one in both.values() for size in ("length", "diameter")):
        return math.inf
    least = cord_and_clearances(stand, None)[0]["least_mm"]
    box = stand["sides"][side]
    spare = top_of_weight(box, stand["end_up"], least) - box["bottom_up"] - stand["below"] - length
    return max(0.0, spare) * area(weight) * rows["make-weight"] * 1e-9


def area(weight):
    """Give a weight's section, round unless it is stated square."""
    across = value(weight["diameter"])
    return across**2 if weight.get("section") == "square" else math.pi / 4 * across**2


def length_as_hung(weight, added, rows):
    """Give the length of a weight found and then added to, or cut."""
    length = length_of(weight)
    if length is None or added == 0:
        return length
    if added > 0 and "diameter" not in weight:
        return None
    if added > 0:
        return length + added / (area(weight) * rows["make-weight"] * 1e-9)
    return length * (1 + added / value(weight["weighed"]))


def as_hung(place, sash, window, house, hung, rows):
    """Compute anew what `hung` says of its own weights: pair, cord, clearances, forces."""
    stand = standing(place, sash, window, house, rows)
    lengths = {side: hung[side]["length_mm"] for side in SIDES}
    cord, clear = cord_and_clearances(stand, None if None in lengths.values() else lengths)
    masses = {side: hung[side]["mass_kg"] for side in SIDES}
    return {
        "pair_kg": sum(masses.values()),
        "cord": cord,
        "weights": clear,
        "operation": operation(place, value(sash["weighed"]), masses, stand),
    }


def new_weight_sizes(sash, side, one):
    """Give a new weight's length, and its thickness: as what it replaces, else as its fellow."""
    other = "right" if side == "left" else "left"
    there = [weight for weight in (sash.get(side), sash.get(other)) if weight]
    across = [weight["diameter"] for weight in there if "diameter" in weight][:1]
    sizes = {"length": one["length_mm"], "diameter": across[0] if across else None}
    return {
        name: f"{size} mm" if isinstance(size, float) else size
        for name, size in sizes.items()
        if size is not None
    }
