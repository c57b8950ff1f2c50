"""Random surveys, to hold one plan against another: light and heavy, whole and full of gaps.

Every quantity is a plain number with a unit. Most windows could run; some of all faults are there:
cords and nails too high, weights too long or too thick, missing, loose, unweighed, on a chain.
"""

import math
import random

POUND_KG = 0.45359237  # international pound, exact (1959 agreement)
SIDES = ("left", "right")


class Draw:
    """Random parts of a survey, every quantity a text with its unit."""

    def __init__(self, seed):
        self.random = random.Random(seed)

    def chance(self, part):
        return self.random.random() < part

    def between(self, least, most):
        return self.random.uniform(least, most)

    def length(self, least, most):
        mm = self.between(least, most)
        return f"{mm / 25.4:.3f} in" if self.chance(0.2) else f"{mm:.1f} mm"

    def mass(self, kg):
        return f"{kg:.3f} kg" if self.chance(0.5) else f"{kg / POUND_KG:.3f} lb"

    def some(self, part, **fields):
        """Keep each field with a chance of `part`."""
        return {name: made for name, made in fields.items() if self.chance(part)}

    def survey(self, windows):
        house = {"name": "Drawn", "shown_in": self.random.choice(["imperial", "metric"])}
        house["policy"] = self.policy()
        house["cord"] = self.some(
            0.5,
            diameter=self.length(4, 12),
            mass_per_length=f"{self.between(10, 60):.1f} g/m",
            knot=self.length(10, 80),
            tail=self.length(50, 250),
            stretch_pct=round(self.between(0, 4), 2),
        )
        return {
            "form": 1,
            "house": house,
            "window": [self.window(f"W{number}") for number in range(windows)],
        }

    def policy(self):
        policy = self.some(
            0.4,
            pair_difference=self.random.choice(["0.25 lb", "0.1 kg", "0 kg", "0.5 lb"]),
            stretch_allowance=self.length(20, 90),
            pulley_clearance=self.length(0, 90),
            bottom_clearance=self.length(0, 90),
            nail_margin=self.length(0, 20),
        )
        for name in ("lower_excess", "upper_deficit"):
            if self.chance(0.25):
                widest = 10 if self.chance(0.1) else 3  # wider than a light sash is heavy
                least, best, most = sorted(round(self.between(0.1, widest), 2) for _ in range(3))
                policy[name] = {
                    "least": f"{least} lb",
                    "best": f"{best} lb",
                    "most": f"{most} lb",
                }
        return policy

    def window(self, tag):
        high = round(self.between(900, 2900))
        drop = round(self.between(60, 130))
        space = round(high - drop - self.between(-120, 200))
        window = {
            "tag": tag,
            "box": {
                "clear_width": f"{self.between(700, 1400):.0f} mm",
                "clear_height": f"{high} mm",
                "weight_space": f"{space} mm",
                "pulley_drop": f"{drop} mm",
                **self.openings(0.85),
            },
            "pulley": {"wheel": self.length(30, 70), **self.pulley_extras(0.6)},
        }
        for side in SIDES:
            if self.chance(0.15):
                window["box"][side] = self.box_side(drop, space)
            if self.chance(0.15):
                window["pulley"][side] = self.pulley_side()
        for place in ("upper", "lower"):
            if self.chance(0.93):
                window[place] = self.sash(place, high, drop, space)
        return window

    def openings(self, part):
        return self.some(
            part,
            compartment_width=self.length(45, 80),
            compartment_depth=self.length(54, 90),
            stile_thickness=self.length(18, 35),
            pocket_height=self.length(300, 1300),
            **({"pocket_width": self.length(45, 80)} if self.chance(0.3) else {}),
        )

    def box_side(self, drop, space):
        return {
            **self.some(
                0.5,
                weight_space=f"{space + self.between(-60, 60):.0f} mm",
                pulley_drop=f"{drop + self.between(-15, 15):.0f} mm",
            ),
            **self.openings(0.3),
        }

    def pulley_extras(self, part):
        return self.some(
            part,
            axle=self.length(4, 14),
            friction=round(self.between(0.02, 0.4), 3),
            cord_bend_pct=round(self.between(0, 8), 2),
            case_below_axle=self.length(25, 70),
        )

    def pulley_side(self):
        return {**self.some(0.6, wheel=self.length(30, 70)), **self.pulley_extras(0.4)}

    def sash(self, place, high, drop, space):
        tall = round(high * self.between(0.35, 0.62))
        end = min(tall, round(drop + self.between(-5, 250)))
        kg = self.sash_kg()
        sash = {
            "height": f"{tall} mm",
            "width": f"{self.between(500, 690):.0f} mm",
            "cord_end": f"{end} mm",
            "slide_friction": self.slide(),
            "weighed": kg,
            **self.weights(place, _kg(kg), space),
            **self.some(
                0.15,
                horn=self.length(0, 70),
                travel=f"{(high - tall) * self.between(0.3, 0.99):.0f} mm",
                anchorage=self.random.choice(["nailed", "knotted"]),
                pulley=self.pulley_side(),
                box=self.box_side(drop, space),
            ),
        }
        if self.chance(0.85):
            sash["top_nail"] = f"{min(end, drop + self.between(0, 90)):.0f} mm"
        for table, side in ((sash.get("box"), "left"), (sash.get("pulley"), "right")):
            if table is not None and self.chance(0.5):
                table[side] = self.pulley_side() if side == "right" else self.box_side(drop, space)
        if sash["slide_friction"] is None:
            del sash["slide_friction"]
        if self.chance(0.03):
            sash["runs"] = "no"
            if self.chance(0.5):
                del sash["cord_end"]
                sash.pop("top_nail", None)
        if self.chance(0.02):
            del sash["weighed"]
            sash["head"] = "round"
        return sash

    def sash_kg(self):
        special = ["10 lb", "30 lb", "9.999 lb", "30.001 lb", "4.5359 kg", "13.60777 kg", "60 lb"]
        if self.chance(0.15):
            return self.random.choice(special)
        return self.mass(math.exp(self.between(math.log(1.5), math.log(60))))

    def slide(self):
        least, likely, most = sorted(round(self.between(0, 40), 1) for _ in range(3))
        return self.random.choice(
            [
                None,
                f"{likely} N",
                {"least": f"{least} N", "likely": f"{likely} N", "most": f"{most} N"},
            ]
        )

    def weights(self, place, kg, space):
        """Draw two weights about what the sash asks, some of them missing or not known."""
        shift = self.between(-0.15, 0.05) if place == "lower" else self.between(-0.05, 0.15)
        half = max(0.3, kg * (1 + shift * self.random.choice([0.1, 0.4, 1])) / 2)
        across = self.between(25, 58)
        apart = self.random.choice([0, 0, 0, 0.05, 0.1133, 0.3, 1.0])
        weights = {}
        for side, sign in (("left", 1), ("right", -1)):
            mass = max(0.25, half + sign * apart / 2)
            long = mass / (7.2e-6 * math.pi / 4 * across**2) * self.between(0.97, 1.06)
            weight = {
                "weighed": f"{min(59, half * 2):.3f} kg" if self.chance(0.02) else f"{mass:.4f} kg",
                "length": f"{min(1400, space - 70, max(60, long)):.0f} mm",
                "diameter": f"{across:.1f} mm",
            }
            weight = self.some(0.96, **weight)
            if self.chance(0.1):
                weight["section"] = self.random.choice(["round", "square"])
            if self.chance(0.06):
                weight["hung"] = self.random.choice(["none", "chain", "tape", "cord"])
            if self.chance(0.06):
                weight["state"] = self.random.choice(["broken", "frayed", "painted in"])
            if weight.get("hung") == "none":
                weight = {"hung": "none"}
            if self.chance(0.97):
                weights[side] = weight
        return weights


def surveys(count, *, windows=1, seed=20):
    """Give so many surveys, each of so many windows, the same ones every time."""
    for number in range(count):
        yield Draw(f"{seed}/{number}").survey(windows)


def _kg(mass):
    number, unit = mass.split()
    return float(number) * (POUND_KG if unit == "lb" else 1.0)
