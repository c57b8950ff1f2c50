"""Pulleys against handbooks of rigging and engineering."""

import math

import pytest

from evenhung.physics import operation

POUND_FORCE_N = 4.4482216152605  # exact, from the pound and standard gravity


def hauled(load, *, sheave):
    """Pull on one side of a single fixed sheave that lifts a load on the other; same unit."""
    standard = operation.STANDARD_GRAVITY_M_S2
    return operation.lower_n(mass_kg=0.0, pair_kg=load, efficiency=sheave, slide_n=0.0) / standard


def advantage(*, sheave, parts):
    """Load over pull of a tackle of so many parts: each sheave hands on its share of the pull."""
    pull, load = 1.0, 0.0
    for _ in range(parts):
        pull = pull / hauled(1.0, sheave=sheave)
        load += pull
    return load


def test_ten_per_cent_of_the_load_for_each_sheave(agrees):
    """US Navy, Steelworker volume 2: 1000 lb on four sheaves is (1000 + 4 x 100) / 4 = 350 lb.

    The rule charges every sheave with the whole load. One sheave agrees with ours by definition; on
    four, where each in truth carries its part only, ours must come out below the rule, not far.
    """
    sheave = 1.0 / 1.1
    agrees(hauled(1000.0, sheave=sheave), "1100")
    by_rule = (1000 + 4 * 100) / 4
    agrees(by_rule, "350")
    assert 0.85 * by_rule < 1000.0 / advantage(sheave=sheave, parts=4) < by_rule


def test_advantage_of_four_plain_sheaves(agrees):
    """Pipeline Rules of Thumb: plain bearings, 91.7 %: E (1 - E^n) / (1 - E) is 3.25 for n = 4.

    So 3250 lb are lifted by 1000 lb. Our advantage is summed part by part, not from that formula.
    """
    rounded = "the book rounds 3.236 to a quarter"
    agrees(advantage(sheave=0.917, parts=4), "3.25", within=0.02, because=rounded)
    formula = 0.917 * (1 - 0.917**4) / (1 - 0.917)
    assert advantage(sheave=0.917, parts=4) == pytest.approx(formula)
    agrees(1000 * advantage(sheave=0.917, parts=4), "3250", within=20.0, because=rounded)


@pytest.mark.parametrize(
    ("printed", "friction", "axle_over_wheel", "bend_pct"),
    [
        ("91.7", (0.10, 0.20), (0.15, 0.25), (2.0, 4.0)),
        ("96.2", (0.005, 0.02), (0.15, 0.25), (2.0, 4.0)),
    ],
    ids=["plain bearing", "roller bearing"],
)
def test_efficiency_of_one_sheave(printed, friction, axle_over_wheel, bend_pct):
    """Pipeline Rules of Thumb: plain bearings 91.7 %, roller bearings 96.2 %.

    The book states neither friction nor size. With ordinary frictions of such bearings, axles of a
    sixth to a quarter of the wheel, and two to four per cent for bending (all from memory), the
    printed figure must lie between our least and our best.
    """
    best, least = (
        100.0
        * operation.pulley_efficiency(
            axle_friction=friction[i],
            axle_mm=44.0 * axle_over_wheel[i],
            wheel_mm=44.0,
            cord_mm=6.0,
            cord_bend_pct=bend_pct[i],
        )
        for i in (0, 1)
    )
    assert least < float(printed) < best


@pytest.mark.parametrize(("sheaves", "printed"), [(1, "90"), (2, "81")])
def test_pull_handed_on_by_sheaves_in_a_row(agrees, sheaves, printed):
    """Workshop Receipts, fifth series, on tackle: single 90 %, two to one 81 %.

    Its further figures (75, 68, 61.5, 59 for three to six) fall more slowly than 0.9 to the nth,
    which is 72.9, 65.6, 59.0, 53.1: they are of another rule and are not claimed here.
    """
    pull = 100.0
    for _ in range(sheaves):
        pull /= hauled(1.0, sheave=0.9)
    agrees(pull, printed)


def test_cord_sliding_over_a_seized_wheel(agrees):
    """Euler and Eytelwein, tabulated: friction 0.3 over half a turn multiplies a pull by 2.6."""
    multiplied = 1.0 / operation.seized_efficiency(cord_friction=0.3)
    agrees(multiplied, "2.6")
    assert multiplied == pytest.approx(math.exp(0.3 * math.pi))


def test_standard_gravity_makes_a_pound_mass_weigh_a_pound_force():
    """NIST SP 811, appendix B.8: one pound-force is 4.448 222 N."""
    one_pound = operation.raise_n(mass_kg=0.45359237, pair_kg=0.0, efficiency=1.0, slide_n=0.0)
    assert one_pound == pytest.approx(POUND_FORCE_N, rel=1e-12)
