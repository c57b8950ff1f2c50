"""Fabric: a whole window built as a solid, cut by planes, against members and splices by formula.

The solids are boxes, wedges and frusta joined and cut by manifold3d's exact set operations, each at
its own place. Where beads meet at corners, and where mouldings mitre, a solid counts once what the
formulas count twice: that is the whole of the difference.
"""

from __future__ import annotations

import numpy as np
import pytest
from manifold3d import CrossSection, Manifold

from evenhung.physics import scarf
from evenhung.plan import plan_house
from evenhung.plan.ledger import Ledger
from evenhung.plan.overhaul import overhaul_of
from evenhung.plan.parts import parts_of
from evenhung.plan.repair.piece import Piece
from evenhung.plan.repair.splice import Decay, splice_for
from evenhung.plan.words import Words
from evenhung.survey import survey_from

CUBIC_FOOT_MM3 = 304.8**3


def block(x, y, z):
    """A box from three pairs of ends."""
    low, high = np.array([x, y, z], dtype=float).T
    return Manifold.cube((high - low).tolist()).translate(low.tolist())


def prism(outline, width):
    """An outline in the plane of length and depth, as wide as it is told."""
    return Manifold.extrude(CrossSection([outline]), width)


def sash_solid(sash, place):
    """A sash lying on its inner face: x across, y up, z outwards."""
    solid = block((0, sash.width_mm), (0, sash.height_mm), (0, sash.thickness_mm))
    across, up = int(sash.panes_across), int(sash.panes_up)
    wide = (sash.width_mm - 2 * sash.stile_mm - (across - 1) * sash.bar_mm) / across
    rails = sash.top_rail_mm + sash.bottom_rail_mm
    high = (sash.height_mm - rails - (up - 1) * sash.bar_mm) / up
    chamfer = (2 * sash.moulding_area_mm2) ** 0.5
    for column in range(across):
        for row in range(up):
            x = sash.stile_mm + column * (wide + sash.bar_mm)
            y = sash.bottom_rail_mm + row * (high + sash.bar_mm)
            solid -= block((x, x + wide), (y, y + high), (0, sash.thickness_mm))
            r = sash.rebate_width_mm
            rebate = (sash.thickness_mm - sash.rebate_depth_mm, sash.thickness_mm)
            solid -= block((x - r, x + wide + r), (y - r, y + high + r), rebate)
            corners = [
                (x + sx * wide + (2 * sx - 1) * out, y + sy * high + (2 * sy - 1) * out, z)
                for out, z in ((chamfer, 0.0), (0.0, chamfer))
                for sx in (0, 1)
                for sy in (0, 1)
            ]
            solid -= Manifold.hull_points(corners)
    edges = (0, sash.groove_depth_mm), (sash.width_mm - sash.groove_depth_mm, sash.width_mm)
    middle = sash.thickness_mm - sash.rebate_depth_mm - sash.groove_width_mm - 1
    deep = (middle, middle + sash.groove_width_mm)
    for edge in edges:
        solid -= block(edge, (sash.height_mm - sash.groove_length_mm, sash.height_mm), deep)
    rail = sash.meeting_rail_mm
    foot = 0 if place == "upper" else sash.height_mm - rail
    extra = (sash.thickness_mm, sash.thickness_mm + sash.meeting_extra_mm)
    return solid + block((0, sash.width_mm), (foot, foot + rail), extra)


def frame_solid(pieces, wide, high):
    """Every part of a frame at its own place: x across, y up from the sill, z outwards."""
    stile, head = pieces["left pulley stile"], pieces["head"]
    boxes = (head.length_mm - wide) / 2
    solid = Manifold()
    lining = pieces["left inner lining"].thick_mm
    outer = lining + stile.face_mm
    for side in ("left", "right"):
        solid += _side(pieces, side, wide, high, lining=lining, outer=outer)
    over = (-boxes, wide + boxes)
    solid += block(over, (high, high + head.thick_mm), (lining, outer))
    for name, z in (("inner", (0, lining)), ("outer", (outer, outer + lining))):
        face = pieces[f"head {name} lining"].face_mm
        solid += block(over, (high, high + face), z)
    sill = pieces["sill"]
    whole = block(over, (-sill.thick_mm, 0), (0, sill.face_mm))
    fall = 80 / 6
    wedge = prism([(sill.face_mm - 80, 0), (sill.face_mm, -fall), (sill.face_mm, 0)], 1.0)
    wedge = wedge.scale((1, 1, sill.length_mm)).rotate((0, -90, 0)).translate((over[1], 0, 0))
    solid += whole - wedge
    bead = pieces["head parting bead"]
    middle = lining + stile.face_mm / 2
    solid += block((0, wide), (high - bead.face_mm, high), (middle, middle + bead.thick_mm))
    staff = pieces["head staff bead"]
    for y in ((high - staff.face_mm, high), (0, staff.face_mm)):
        solid += block((0, wide), y, (lining, lining + staff.thick_mm))
    return solid


def _side(pieces, side, wide, high, *, lining, outer):
    """One box, built on the left; the right one is turned round the middle."""
    stile, back = pieces[f"{side} pulley stile"], pieces[f"{side} back lining"]
    inner, beyond = pieces[f"{side} inner lining"], pieces[f"{side} outer lining"]
    up = (0, high)
    whole = inner.face_mm
    solid = block((-stile.thick_mm, 0), up, (lining, outer))  # its pocket stands in it
    solid += block((-whole, 0), up, (0, lining))
    solid += block((-whole, beyond.face_mm - whole), up, (outer, outer + lining))
    solid += block((-whole - back.thick_mm, -whole), up, (lining, lining + back.face_mm))
    slip, middle = pieces[f"{side} parting slip"], lining + stile.face_mm / 2
    inside = -stile.thick_mm - 2
    solid += block((inside - slip.face_mm, inside), up, (middle - slip.thick_mm, middle))
    bead, staff = pieces[f"{side} parting bead"], pieces[f"{side} staff bead"]
    solid += block((0, bead.face_mm), up, (middle, middle + bead.thick_mm))
    solid += block((0, staff.face_mm), up, (lining, lining + staff.thick_mm))
    return solid if side == "left" else solid.mirror((1, 0, 0)).translate((wide, 0, 0))


def window_of(width, height, thickness, panes):
    """Pieces of a window as they are settled, by its clear sizes."""
    sash = {
        "height": f"{(height + 40) / 2} mm",
        "width": f"{width - 3} mm",
        "thickness": f"{thickness} mm",
        "cord_end": "200 mm",
        "panes": {"across": panes[0], "up": panes[1]},
        "timber": "scots pine",
    }
    window = {
        "tag": "W1",
        "box": {
            "clear_width": f"{width} mm",
            "clear_height": f"{height} mm",
            "weight_space": "700 mm",
            "pulley_drop": "90 mm",
            "stile_thickness": "22 mm",
            "compartment_depth": "56 mm",
        },
        "pulley": {"wheel": "44 mm"},
        "upper": sash,
        "lower": sash,
        "finding": [{"part": "sill", "seen": "sound"}],
    }
    survey = survey_from({"form": 1, "house": {"name": "Alder Row"}, "window": [window]})
    repair = overhaul_of(plan_house(survey)).windows[0].repair
    return repair.sorts.pieces, survey.window[0]


@pytest.mark.parametrize("size", [(560, 1210, 34), (860, 1650, 44), (1000, 2100, 50)])
@pytest.mark.parametrize("panes", [(1, 1), (3, 2)])
def test_the_timber_of_a_whole_window(size, panes):
    width, height, thickness = size
    pieces, window = window_of(width, height, thickness, panes)
    sashes = 0.0
    for place, sash in window.sashes():
        centre = parts_of(place, sash, Ledger(Words("metric"), [])).centre
        solid = sash_solid(centre, place).volume()
        ours = sum(piece.volume_mm3 for piece in pieces.values() if piece.place == place)
        assert ours == pytest.approx(solid, rel=0.004), "mitred mouldings"
        sashes += solid
    frame = frame_solid(pieces, width, height).volume()
    ours = sum(piece.volume_mm3 for piece in pieces.values() if not piece.place)
    corners = 2 * 21**2 * 9 + 4 * 20**2 * 16
    assert ours - corners == pytest.approx(frame, rel=1e-6), "beads cross at two and four corners"
    whole = sum(piece.volume_mm3 for piece in pieces.values())
    assert whole == pytest.approx(frame + sashes, rel=0.002)


def test_a_small_window_takes_a_little_over_one_and_a_quarter_cubic_feet():
    """Common practice, no source: a window of 720 x 1370 mm over its frame, 34 mm sashes."""
    pieces, window = window_of(560, 1280, 34, (1, 1))
    frame = frame_solid(pieces, 560, 1280).volume()
    for place, sash in window.sashes():
        frame += sash_solid(
            parts_of(place, sash, Ledger(Words("metric"), [])).centre, place
        ).volume()
    whole = sum(piece.volume_mm3 for piece in pieces.values())
    for found in (frame, whole):
        assert 1.25 < found / CUBIC_FOOT_MM3 < 1.5


def slanted_area(solid, slope):
    """Area of the faces that run with the grain at a slope."""
    mesh = solid.to_mesh()
    points = np.asarray(mesh.vert_properties)[:, :3].astype(float)
    a, b, c = (points[np.asarray(mesh.tri_verts)[:, corner]] for corner in range(3))
    normal = np.cross(b - a, c - a)
    area = np.linalg.norm(normal, axis=1) / 2
    along = np.abs(normal[:, 0]) / np.maximum(2 * area, 1e-12)
    sine = 1 / (1 + slope**2) ** 0.5
    return float(area[np.abs(along - sine) < 1e-4].sum())


STILE = Piece("lower left stile", "stile", "lower", 1000.0, 48.0, 44.0, 1000.0 * 48 * 44, 510.0)
SILL = Piece("sill", "sill", "", 1200.0, 120.0, 70.0, 1200.0 * 120 * 70, 510.0)


def spliced_out(piece, splice, decay, slope):
    """The old wood that is cut away, as a solid: x along the grain, y the way the slopes cross."""
    run, deep, width = (
        slope * splice.across_mm,
        splice.across_mm,
        splice.section_mm2 / splice.across_mm,
    )
    low, high = decay.low_mm - 50, decay.high_mm + 50
    if splice.ends == 1 and splice.starts_mm == 0.0:
        outline = [(0, 0), (high, 0), (high + run, deep), (0, deep)]
    elif splice.ends == 1:
        whole = piece.length_mm
        outline = [(low, 0), (whole, 0), (whole, deep), (low - run, deep)]
    else:
        outline = [(low, 0), (high, 0), (high + run, deep), (low - run, deep)]
    return prism(outline, width)


CASES = [
    (STILE, Decay(0.0, 120.0, 30.0), 10.0),
    (STILE, Decay(900.0, 1000.0, 40.0), 8.0),
    (STILE, Decay(480.0, 520.0, 12.0), 12.0),
    (SILL, Decay(550.0, 640.0, 20.0), 10.0),
    (SILL, Decay(0.0, 200.0, 60.0), 6.0),
]


def disagreement(module, monkeypatch=None):
    """Greatest share by which volume or joint of a splice misses the solid."""
    if monkeypatch is not None:
        monkeypatch.setattr("evenhung.plan.repair.splice.scarf", module)
    worst = 0.0
    for piece, decay, slope in CASES:
        splice = splice_for(piece, decay, slope)
        solid = spliced_out(piece, splice, decay, slope)
        floor = 0.0
        if splice.is_let_in:
            floor = splice.section_mm2 / splice.across_mm * (decay.high_mm - decay.low_mm + 100)
        joint = slanted_area(solid, slope) + floor
        worst = max(worst, abs(splice.replaced_mm3 / solid.volume() - 1))
        worst = max(worst, abs(splice.glue_mm2 / joint - 1))
    return worst


def test_a_splice_takes_what_is_cut_away_and_has_the_joint_of_the_cut():
    assert disagreement(scarf) < 1e-5


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("(1.0 + slope**2) ** 0.5", "slope"),
        ("beyond_mm + scarf_mm / 2.0", "beyond_mm + scarf_mm"),
        ("across_mm * slope", "across_mm * (1.0 + slope**2) ** 0.5"),
    ],
    ids=["joint as long as its run", "whole slope cut away", "length along the slope"],
)
def test_a_planted_error_is_noticed(planted, monkeypatch, true_text, false_text):
    assert disagreement(planted(scarf, true_text, false_text), monkeypatch) > 1e-3
