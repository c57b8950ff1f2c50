"""The door of the reference values: what is found, what is refused, and what it costs."""

import ast
import csv
import subprocess
import sys
from pathlib import Path

import pytest

from evenhung import reference
from evenhung.errors import UnknownReference
from evenhung.reference import loader, row

HEADER = "key,property,value,unit,spread,source,locator,known,chosen,remark\n"
GOOD = "lead,density,11340,kg/m3,60,ours,p. 1,ours,yes,soft\n"


def read(tmp_path, text):
    path = tmp_path / "metals.csv"
    path.write_text(text, encoding="utf-8")
    return loader.read_rows(path, "metals")


def test_a_row_says_what_where_from_and_how_known():
    found = reference.look_up("metals", "lead", "density")
    assert (found.subject, found.key, found.property) == ("metals", "lead", "density")
    assert (found.value, found.number, found.unit) == ("11340", 11340.0, "kg/m3")
    assert (found.spread, found.source, found.known) == (60.0, "simetric", "confirmed")
    assert found.chosen
    assert reference.sources()[found.source].title == "Densities of metals"


def test_only_the_chosen_of_two_disagreeing_rows_is_looked_up():
    both = [
        entry
        for entry in reference.rows("joinery")
        if (entry.key, entry.property) == ("parting slip", "thickness")
    ]
    assert [(entry.value, entry.chosen) for entry in both] == [("3/8", True), ("6", False)]
    assert reference.look_up("joinery", "parting slip", "thickness").si == pytest.approx(9.525)


def test_a_row_cannot_be_changed():
    found = reference.look_up("metals", "lead", "density")
    with pytest.raises(AttributeError, match="can't set attribute"):
        found.number = 1.0


@pytest.mark.parametrize(
    ("names", "message"),
    [
        (("metal", "lead", "density"), "subject 'metal' is not there; the nearest is 'metals'"),
        (("metals", "leed", "density"), "metals: key 'leed' is not there; the nearest is 'lead'"),
        (
            ("metals", "lead", "densty"),
            "metals, lead: property 'densty' is not there; the nearest is 'density'",
        ),
    ],
    ids=["subject", "key", "property"],
)
def test_an_unknown_name_is_refused_with_the_nearest(names, message):
    with pytest.raises(UnknownReference, match=message):
        reference.look_up(*names)


@pytest.mark.parametrize("ask", [reference.rows, reference.keys])
def test_an_unknown_subject_is_refused_everywhere(ask):
    with pytest.raises(UnknownReference, match="the nearest is 'timber'"):
        ask("timbers")


def test_a_subject_cannot_reach_another_file():
    with pytest.raises(UnknownReference, match="subject"):
        reference.rows("sources")
    with pytest.raises(UnknownReference, match="subject"):
        reference.rows("../reference/metals")


def test_a_sentence_has_no_number():
    rule = reference.look_up("hazards", "height", "rule")
    assert rule.number is None
    assert rule.si_spread is None
    with pytest.raises(UnknownReference, match="hazards, height, rule: a sentence, not a number"):
        _ = rule.si


@pytest.mark.parametrize(
    ("value", "unit", "si", "si_unit"),
    [
        ("1 1/8", "in", 28.575, "mm"),
        ("2", "lb", 0.90718474, "kg"),
        ("6", "ft2", 0.55741824, "m2"),
        ("1100", "degF", 593.0 + 1 / 3, "degC"),
        ("0.64", "g/cm3", 640.0, "kg/m3"),
        ("7.5", "mm", 7.5, "mm"),
    ],
)
def test_a_printed_unit_becomes_the_programs(tmp_path, value, unit, si, si_unit):
    (found,) = read(tmp_path, HEADER + f"a,b,{value},{unit},,ours,,ours,yes,\n")
    assert (found.value, found.unit, found.si_unit) == (value, unit, si_unit)
    assert found.si == pytest.approx(si, rel=1e-12)


def test_a_spread_is_scaled_and_never_shifted(tmp_path):
    (found,) = read(tmp_path, HEADER + "a,b,1100,degF,9,ours,,ours,yes,\n")
    assert found.si_spread == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "line 1: the columns must be key, property, value"),
        ("key,value\n", "line 1: the columns must be key, property, value"),
        (HEADER + "lead,density\n", "line 2: 2 fields, not 10"),
        (HEADER + GOOD + '"lead\n', "line 3: unexpected end of data"),
        (HEADER + GOOD + GOOD, "line 3: lead, density: line 2 is chosen already"),
        (HEADER + GOOD.replace(",yes,", ",no,"), "line 2: lead, density: no row of it is chosen"),
        (HEADER + GOOD.replace(",yes,", ",maybe,"), "line 2: chosen 'maybe' is none of no, yes"),
        (HEADER + GOOD.replace("kg/m3", "stone"), "line 2: unit 'stone' is none of 1, N, d"),
        (HEADER + GOOD.replace(",ours,yes", ",sure,yes"), "line 2: known 'sure' is none of comm"),
        (HEADER + GOOD.replace("60,ours", "60,a book"), "line 2: source 'a book' is none of"),
        (HEADER + GOOD.replace("lead,", ",", 1), "line 2: key, property and value are needed"),
        (HEADER + GOOD.replace("kg/m3", "text"), "line 2: a sentence has no spread"),
        (HEADER + GOOD.replace("11340", "11 340"), "line 2: '11 340' is not a number"),
        (HEADER + GOOD.replace("11340", "1.1e4"), "line 2: '1.1e4' is not a number"),
        (HEADER + GOOD.replace("11340", "-5"), "line 2: '-5' is not a number"),
        (HEADER + GOOD.replace("11340", "nan"), "line 2: 'nan' is not a number"),
        (HEADER + GOOD.replace("11340", "1/0"), "line 2: float division by zero|division by zero"),
        (HEADER + GOOD.replace(",60,", ",wide,"), "line 2: 'wide' is not a number"),
    ],
)
def test_a_malformed_file_is_named_with_its_line(tmp_path, text, message):
    with pytest.raises(loader.MalformedReference, match=f"metals.csv, {message}"):
        read(tmp_path, text)


@pytest.mark.parametrize(
    "body",
    ["ours,Twice,,,\nours,Twice,,,\n", "no-title,,,,\n", ",No key,,,\n"],
    ids=["twice", "title", "key"],
)
def test_a_malformed_source_is_refused(tmp_path, body):
    path = tmp_path / "sources.csv"
    path.write_text("key,title,year,publisher,note\n" + body, encoding="utf-8")
    with pytest.raises(loader.MalformedReference, match=r"sources.csv, line .: .*a key of its own"):
        loader.read_sources(path)


def test_a_quoted_line_break_does_not_lose_the_count(tmp_path):
    text = HEADER + GOOD.replace("soft", '"soft,\nheavy"') + "lead,price,x,kg,,ours,,ours,yes,\n"
    with pytest.raises(loader.MalformedReference, match=r"metals\.csv, line 4: 'x'"):
        read(tmp_path, text)


def test_a_file_is_read_once():
    assert reference.rows("metals") is reference.rows("metals")
    assert reference.sources() is reference.sources()


def test_nothing_is_read_until_asked_for_and_then_only_what_is_needed():
    program = (
        "import sys\n"
        "opened = []\n"
        "sys.addaudithook(lambda event, args: opened.append(str(args[0]))"
        " if event == 'open' and str(args[0]).endswith('.csv') else None)\n"
        "from evenhung.reference import look_up\n"
        "assert opened == [], opened\n"
        "look_up('glass', 'soda-lime', 'density')\n"
        "names = sorted(path.replace(chr(92), '/').rsplit('/', 1)[1] for path in opened)\n"
        "assert names == ['glass.csv', 'sources.csv'], names\n"
        "assert 'difflib' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True)


@pytest.mark.parametrize("module", [loader, row, reference])
def test_the_loader_imports_only_what_is_cheap(module):
    tree = ast.parse(Path(module.__file__).read_text(encoding="utf-8"))
    at_the_top = set()
    for node in tree.body:
        if isinstance(node, ast.Import):
            at_the_top.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            at_the_top.add(node.module)
    ours = {name for name in at_the_top if name.startswith("evenhung.")}
    assert at_the_top - ours <= {
        "builtins",
        "collections.abc",
        "csv",
        "functools",
        "pathlib",
        "typing",
    }


def test_every_subject_has_its_file_and_every_file_its_subject():
    folder = Path(loader.__file__).parent
    assert {path.stem for path in folder.glob("*.csv")} == {*reference.SUBJECTS, "sources"}


def test_the_files_are_written_as_csv_writes_them():
    """One way to write a row, so that a change of one value is a change of one line."""
    for path in Path(loader.__file__).parent.glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            text = file.read()
        records = list(csv.reader(text.splitlines()))
        for line, record in zip(text.splitlines(), records, strict=True):
            assert line.count('"') == 2 * sum("," in field for field in record), (path.name, line)
