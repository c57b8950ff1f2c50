"""Every public function of physics: floats and arrays agree; what is not known stays unknown."""

import importlib
import inspect
import math
import subprocess
import sys

import numpy as np
import pytest

from evenhung.physics import hang, mass

SUBJECTS = (
    "box",
    "coating",
    "fabric",
    "glazing",
    "hang",
    "mass",
    "operation",
    "pocket",
    "scarf",
    "timber",
    "travel",
)
MANY = 7


def public_functions():
    for subject in SUBJECTS:
        module = importlib.import_module(f"evenhung.physics.{subject}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield pytest.param(function, id=f"{subject}.{name}")


EVERY_FUNCTION = list(public_functions())

RANGES = {
    "ratio": (-1, 1),
    "area_ratio": (1, 20),
    "slope": (2, 20),
    "fall": (0.05, 0.2),
    "ends": (1, 2),
    "coats": (1, 4),
    "coverage_m2_l": (4, 15),
    "angle_rad": (0.1, 1.4),
    "axle_friction": (0.05, 0.4),
    "cord_friction": (0.1, 0.6),
    "efficiency": (0.7, 0.99),
    "coefficient": (0.001, 0.004),
    "green": (0.3, 0.7),
    "specific_gravity": (0.3, 0.8),
    "moisture_pct": (0, 35),
    "moisture_from_pct": (6, 14),
    "moisture_to_pct": (6, 14),
    "humidity_pct": (5, 95),
    "temperature_c": (-1, 40),
    "cord_bend_pct": (0, 5),
    "stretch_pct": (0, 3),
    "density_kg_m3": (400, 800),
    "mass_per_length_kg_m": (0.01, 0.3),
    "axle_mm": (6, 12),
    "across_mm": (25, 45),
    "depth_mm": (46, 90),
    "wall_mm": (15, 35),
    "length_mm": (30, 700),
    "light_below_kg": (4, 5),
    "heavy_above_kg": (13, 14),
    "heavy_cap_kg": (1.2, 1.4),
    "left_kg": (3, 7),
    "right_kg": (3, 7),
    "difference_kg": (0.05, 0.3),
    "mass_kg": (3, 25),
}
BANDS = {
    "pair": hang.Band(9.0, 9.5, 10.0),
    "excess": hang.Band(0.45, 0.57, 0.68),
    "light": hang.Band(0.2, 0.3, 0.4),
    "middle": hang.Band(0.5, 0.6, 0.7),
    "heavy_pct": hang.Band(3.0, 4.0, 5.0),
}


def arrays_for(function, draws):
    """Valid arguments: arrays of one length, bands and sashes of arrays."""
    arguments = {}
    for name in inspect.signature(function).parameters:
        if name == "sash":
            arguments[name] = mass.Sash(
                *(value * draws.uniform(0.95, 1.05, MANY) for value in mass.EXAMPLE)
            )
        elif name == "deviations":
            arguments[name] = {
                "timber_kg_m3": draws.uniform(20, 60, MANY),
                "glass_mm": draws.uniform(0.1, 0.5, MANY),
            }
        elif name in BANDS:
            shift = draws.uniform(0.9, 1.1, MANY)
            arguments[name] = hang.Band(*(value * shift for value in BANDS[name]))
        elif name == "is_square":
            arguments[name] = draws.random(MANY) < 0.5
        else:
            arguments[name] = draws.uniform(*RANGES.get(name, (10, 900)), MANY)
    return arguments


def each(value, change):
    """The same structure with every array in it changed."""
    if isinstance(value, dict):
        return {key: each(part, change) for key, part in value.items()}
    if isinstance(value, tuple):
        parts = [each(part, change) for part in value]
        return type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)
    return change(value)


def call(function, arguments):
    by_place = [
        name
        for name, parameter in inspect.signature(function).parameters.items()
        if parameter.kind is parameter.POSITIONAL_OR_KEYWORD
    ]
    rest = {name: value for name, value in arguments.items() if name not in by_place}
    return function(*(arguments[name] for name in by_place), **rest)


def flat(result):
    return list(result) if isinstance(result, tuple) else [result]


@pytest.mark.parametrize("function", EVERY_FUNCTION)
def test_an_array_gives_what_its_floats_give_one_by_one(function):
    draws = np.random.default_rng(1)
    for _ in range(20):
        arguments = arrays_for(function, draws)
        together = flat(call(function, arguments))
        for i in range(MANY):
            alone = flat(call(function, each(arguments, lambda array, i=i: array[i].item())))
            for one, many in zip(alone, together, strict=True):
                assert type(one) in (float, bool), "floats in, a float out"
                assert many.shape == (MANY,)
                assert one == pytest.approx(many[i].item(), rel=1e-12, abs=1e-9)


@pytest.mark.parametrize("function", EVERY_FUNCTION)
def test_a_whole_estate_may_share_one_value(function):
    """Arrays and floats mix: each argument in turn is an array and all others floats."""
    draws = np.random.default_rng(2)
    arguments = arrays_for(function, draws)
    alone = each(arguments, lambda array: array[0].item())
    for name in arguments:
        mixed = {**alone, name: arguments[name]}
        for result in flat(call(function, mixed)):
            if isinstance(result, np.ndarray):
                assert result.shape in ((MANY,), ())


@pytest.mark.parametrize("function", EVERY_FUNCTION)
def test_what_is_not_known_stays_unknown(function):
    """Any one number made nan makes every part of the result nan; a truth it makes false."""
    draws = np.random.default_rng(3)
    arguments = each(arrays_for(function, draws), lambda array: array[0].item())
    policy = {"difference_kg", "light_below_kg", "heavy_above_kg", "heavy_cap_kg"}  # always known
    for name in set(arguments) - policy - {"is_square", "sash", "deviations", *BANDS}:
        for result in flat(call(function, {**arguments, name: math.nan})):
            assert result is False or math.isnan(result), name


@pytest.mark.parametrize("field", mass.Sash._fields)
def test_an_unknown_field_of_a_sash_makes_its_mass_unknown(field):
    sash = mass.EXAMPLE._replace(**{field: math.nan})
    assert math.isnan(mass.breakdown(sash).whole)
    assert math.isnan(mass.spread_kg(sash, {"glass_mm": 0.3}))


@pytest.mark.parametrize("which", hang.Band._fields)
def test_an_unknown_end_of_a_band_never_makes_a_pair_true(which):
    pair = BANDS["pair"]._replace(**{which: math.nan})
    truth = hang.is_true(left_kg=4.75, right_kg=4.75, pair=pair, difference_kg=0.2)
    assert truth is (which == "best")


def test_physics_in_floats_does_without_numpy():
    """A house is planned in floats; loading numpy would take longer than planning it."""
    modules = ", ".join(f"evenhung.physics.{subject}" for subject in SUBJECTS)
    code = (
        f"import sys, {modules}; "
        "from evenhung.physics import mass, pocket; mass.breakdown(mass.EXAMPLE); "
        "pocket.needed_opening_mm(length_mm=542.0, across_mm=38.0, wall_mm=25.0, depth_mm=60.0); "
        "sys.exit('numpy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
