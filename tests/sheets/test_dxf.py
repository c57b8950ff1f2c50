"""The drawing exchange file, read back by the library that reads such files."""

import io

import ezdxf
import pytest
from ezdxf import bbox

from evenhung.plan.positions import positions_of
from evenhung.sheets.dxf import DASHED, dxf_of, layer_name
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.scene import Arc, Drawing, Group, Line
from evenhung.sheets.section import section_of


def read(drawing):
    return ezdxf.read(io.StringIO(dxf_of(drawing)))


def of_layer(document, kind, layer):
    return document.modelspace().query(f'{kind}[layer=="{layer_name(layer)}"]')


def heights(document, layer):
    """Give the lowest and the highest point of the outlines on a layer."""
    (box,) = (bbox.extents([line]) for line in of_layer(document, "LWPOLYLINE", layer))
    return box.extmin.y, box.extmax.y


@pytest.mark.slow
def test_every_drawing_of_the_demo_house_is_audited_clean(house):
    drawings = [elevation_of(window) for window in house.windows]
    drawings += [
        section_of(sash, side=side) for sash in house.sashes() for side in ("left", "right")
    ]
    for drawing in filter(None, drawings):
        audit = read(drawing).audit()
        assert not audit.errors
        assert not audit.fixes


def test_the_file_is_in_millimetres_and_layers_have_their_names(house):
    document = read(section_of(house.windows[1].lower))
    assert document.units == ezdxf.units.MM
    names = {layer.dxf.name for layer in document.layers}
    assert {"SASH", "CORD", "WEIGHT", "MAKE_WEIGHT", "DIMENSION"} <= names
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert used <= names


def test_sash_and_weight_stand_where_the_plan_has_them(house):
    plan = house.windows[0].lower
    at = positions_of(plan).hung.right
    for travel_mm in (0.0, 300.0):
        document = read(section_of(plan, opened_mm=travel_mm))
        weight = (at.weight_foot.at_mm(travel_mm), at.weight_top.at_mm(travel_mm))
        assert heights(document, "weight") == pytest.approx(weight)
        cords = of_layer(document, "LWPOLYLINE", "cord")
        assert {cord.dxf.const_width for cord in cords} == {6.0}
        ends = [min(point[1] for point in cord.get_points()) for cord in cords]
        assert min(ends) == pytest.approx(positions_of(plan).cord_end.at_mm(travel_mm))


def test_what_nobody_measured_is_dashed(house):
    bare, measured = (read(elevation_of(house.windows[number])) for number in (0, 4))
    assert {line.dxf.linetype for line in of_layer(bare, "LWPOLYLINE", "sash")} == {DASHED}
    assert {line.dxf.linetype for line in of_layer(measured, "LWPOLYLINE", "sash")} == {"BYLAYER"}


def test_words_stand_as_they_are_written(house):
    texts = {text.dxf.text: text for text in read(elevation_of(house.windows[0])).query("TEXT")}
    assert "18 lb (8.16 kg)" in texts
    assert texts["5 ft 4 15/16 in (1650 mm)"].dxf.rotation == 90.0


def test_an_alarm_is_drawn_only_where_something_strikes(house):
    plan = house.windows[3].lower
    for travel_mm, signs in ((0.0, 0), (800.0, 1)):
        document = read(section_of(plan, as_found=True, opened_mm=travel_mm))
        assert len(of_layer(document, "HATCH", "alarm")) == signs


def test_a_thick_arc_is_a_bulge_and_a_thin_one_an_arc():
    shapes = (Arc((0.0, 10.0), 25.0, 0.0, 180.0, 6.0), Arc((0.0, 10.0), 25.0, 0.0, 90.0))
    document = read(Drawing("section", "", "", (Group("cord", shapes),), margin_mm=0.0))
    (thick,) = of_layer(document, "LWPOLYLINE", "cord")
    points = thick.get_points("xyb")
    assert points[0] == pytest.approx((25.0, 10.0, 1.0))
    assert points[1][:2] == pytest.approx((-25.0, 10.0))
    (thin,) = of_layer(document, "ARC", "cord")
    assert (thin.dxf.radius, thin.dxf.start_angle, thin.dxf.end_angle) == (25.0, 0.0, 90.0)


def test_what_is_no_shape_is_refused():
    drawing = Drawing("section", "", "", (Group("cord", (3.5,)),), margin_mm=0.0)
    with pytest.raises(TypeError, match="float is no shape to put on layer cord"):
        dxf_of(drawing)


def test_a_thin_line_is_a_line():
    group = Group("hatch", (Line((0.0, 1.0), (2.0, 3.0)),))
    (line,) = read(Drawing("section", "", "", (group,), margin_mm=0.0)).query("LINE")
    assert (line.dxf.start, line.dxf.end) == ((0.0, 1.0, 0.0), (2.0, 3.0, 0.0))
