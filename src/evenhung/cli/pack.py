"""``evenhung pack``: the sheets of a house, for the bench, the van and the owner."""

from __future__ import annotations

import json
import sys
from datetime import date
from typing import TYPE_CHECKING, Annotated, Optional
from urllib.parse import quote

import typer

from evenhung.cli.files import survey_in
from evenhung.cli.folder import write_folder
from evenhung.cli.options import Allotted, AsJson, Folder, Paper, Replace, SurveyFile, Units
from evenhung.cli.refusal import day_of, refused
from evenhung.errors import DrawingDomainError, InvalidQuantity
from evenhung.plan import plan_house

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from evenhung.sheets.pack.files import PackFile
    from evenhung.survey.window import Window

EXAMPLES = """\b
Examples:
  evenhung pack house.toml -o sheets
  evenhung pack house.toml -o sheets --allot --replace
  evenhung pack house.toml -o sheets --paper letter --labels 102x51
"""

PLACE = "{window}"
LEAST_HANK_MM, MOST_HANK_MM = 1_000.0, 1_000_000.0


def pack(
    survey: SurveyFile,
    output: Folder,
    with_drawings: Annotated[
        bool,
        typer.Option("--drawings", help="Add every window and hang to scale: as PDF, SVG, DXF."),
    ] = False,
    labels: Annotated[
        Optional[str],  # noqa: UP045 - typer reads it at run time
        typer.Option(
            metavar="SIZE",
            help="Size of adhesive labels in mm: 70x37, 105x57; letter: 67x25, 102x51.",
        ),
    ] = None,
    hank: Annotated[
        Optional[str],  # noqa: UP045 - typer reads it at run time
        typer.Option(metavar="LENGTH", help="Length of a hank of cord, such as '12 m'."),
    ] = None,
    link: Annotated[
        Optional[str],  # noqa: UP045 - typer reads it at run time
        typer.Option(
            metavar="ADDRESS",
            help="What the codes on tags open; {window} stands for the window's id or tag.",
        ),
    ] = None,
    on: Annotated[
        Optional[str],  # noqa: UP045 - typer reads it at run time
        typer.Option(metavar="DAY", help="The day that stands on the sheets; unset, today."),
    ] = None,
    replace: Replace = False,
    paper: Paper = "a4",
    with_allotment: Allotted = False,
    units: Units = None,
    as_json: AsJson = False,
) -> None:
    """Write the sheets of a house into a folder.

    Bench cards, lists, tags, strips and records. Files are written aside and put in place at once.
    What is there already is left alone unless it may be replaced. Progress goes to standard error.
    """
    from evenhung.cli.allot import allotted  # the solver is dear to load
    from evenhung.sheets.pack.beside import pack_in_making
    from evenhung.sheets.pack.files import Wish
    from evenhung.sheets.pack.house import Edition, pack_house, revision_of

    found = survey_in(survey)
    edition = Edition(revision_of(found), _day(on), paper, _address(link))
    wish = Wish(_labels(labels, paper), _hank_mm(hank), with_drawings)
    plan = plan_house(found, shown_in=units)
    house = pack_house(plan, edition, allotted(plan, None) if with_allotment else None)
    with pack_in_making(house, wish) as files:
        _write(output, files, replace=replace)
    names = [one.name for one in files]
    if as_json:
        document = {"form": 1, "folder": str(output), "revision": edition.revision, "files": names}
        print(json.dumps(document, ensure_ascii=False))
    else:
        tops = dict.fromkeys(name.partition("/")[0] for name in names)
        print("\n".join(str(output / top) for top in tops))


def _write(output: Path, files: Sequence[PackFile], *, replace: bool) -> None:
    """Write the files of a pack, and tell which of them is being made."""

    def tell(number: int) -> None:
        says = files[number].says
        if number == 0 or says != files[number - 1].says:
            print(f"{number + 1:2} of {len(files)}: {says}", file=sys.stderr)

    write_folder(output, [(one.name, one.make) for one in files], replace=replace, tell=tell)


def _day(text: str | None) -> date:
    return day_of("--on", text) if text else date.today()  # noqa: DTZ011 - the user's own


def _labels(size: str | None, paper: str) -> str | None:
    """Refuse a size of label that there is not, before anything is solved."""
    from evenhung.sheets.pack.labels import labels_of, sizes_on

    try:
        labels_of(size, paper)
    except DrawingDomainError:
        raise refused("--labels", str(size), sizes_on(paper)) from None
    return size


def _hank_mm(text: str | None) -> float | None:
    from evenhung.quantities import Length

    if text is None:
        return None
    try:
        mm = Length.parse(text).mm
    except InvalidQuantity as refusal:
        raise refused("--hank", text, refusal.allowed) from None
    if not LEAST_HANK_MM <= mm <= MOST_HANK_MM:
        raise refused("--hank", text, "a length from 1 m to 1000 m")
    return mm


def _address(link: str | None) -> Callable[[Window], str] | None:
    if link is None:
        return None
    if PLACE not in link:
        raise refused("--link", link, f"an address with {PLACE} where the window goes")
    return lambda window: link.replace(PLACE, quote(window.id or window.tag, safe=""))
