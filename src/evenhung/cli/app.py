"""The commands together, and what every one of them does when something is wrong."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Annotated

import typer

from evenhung.cli import demo, inspect, plan, schema
from evenhung.cli.version import VERSION
from evenhung.errors import EvenhungError

if TYPE_CHECKING:
    from collections.abc import Sequence

OUR_FAULT, REFUSED = 1, 2

app = typer.Typer(
    name="evenhung",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="Hang sliding sash windows true: weigh, balance, cord and check a house of them.",
    epilog="Start with: evenhung demo",
)
app.command(epilog=plan.EXAMPLES)(plan.plan)
app.command(epilog=inspect.EXAMPLES)(inspect.inspect)
app.command(epilog=demo.EXAMPLES)(demo.demo)
app.command(epilog=schema.EXAMPLES)(schema.schema)


def _print_version(wanted: bool) -> None:
    if wanted:
        print(f"evenhung {VERSION}")
        raise typer.Exit


@app.callback()
def evenhung(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_print_version, is_eager=True, help="Print the version."
        ),
    ] = False,
) -> None:
    """Hang sliding sash windows true: weigh, balance, cord and check a house of them."""


def run(arguments: Sequence[str]) -> int:
    """Run one command.

    Parameters
    ----------
    arguments
        What stands after the program's name.

    Returns
    -------
    int
        0: an answer, whatever it says. 1: a fault of ours. 2: refused, each fault a line on stderr.
        130: interrupted.
    """
    try:
        app(args=list(arguments), prog_name="evenhung")
    except SystemExit as leaving:
        return leaving.code if isinstance(leaving.code, int) else OUR_FAULT
    except EvenhungError as refusal:
        print(refusal, file=sys.stderr)
        return REFUSED
    except Exception as fault:
        if os.environ.get("EVENHUNG_TRACEBACK"):
            raise
        print(
            f"evenhung: a fault of ours, not of your survey: {type(fault).__name__}: {fault}\n"
            "evenhung: set EVENHUNG_TRACEBACK=1 and run it again for what to send us",
            file=sys.stderr,
        )
        return OUR_FAULT
    return 0
