"""The commands together, and what every one of them does when something is wrong."""

from __future__ import annotations

import errno
import os
import sys
from typing import TYPE_CHECKING, Annotated

import typer

from evenhung.cli import (
    allot,
    backup,
    blank,
    demo,
    inspect,
    pack,
    plan,
    price,
    programme,
    read,
    schema,
    serve,
    takeoff,
)
from evenhung.cli.version import VERSION
from evenhung.errors import EvenhungError

if TYPE_CHECKING:
    from collections.abc import Sequence

OUR_FAULT, REFUSED = 1, 2

NO_ROOM = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}
"""What the system says where an answer cannot be written for want of room."""

BEGINNING = """\b
Examples:
  evenhung demo
  evenhung inspect house.toml
  evenhung plan house.toml
  evenhung price house.toml
  evenhung pack house.toml -o sheets
"""

app = typer.Typer(
    name="evenhung",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="Hang sliding sash windows true: weigh, balance, cord and check a house of them.",
    epilog=BEGINNING,
)
app.command(epilog=plan.EXAMPLES)(plan.plan)
app.command(epilog=allot.EXAMPLES)(allot.allot)
app.command(epilog=takeoff.EXAMPLES)(takeoff.takeoff)
app.command(epilog=price.EXAMPLES)(price.price)
app.command(epilog=programme.EXAMPLES)(programme.programme)
app.command(epilog=pack.EXAMPLES)(pack.pack)
app.command(epilog=blank.EXAMPLES)(blank.blank)
app.command(epilog=read.EXAMPLES)(read.read)
app.command(epilog=inspect.EXAMPLES)(inspect.inspect)
app.command(epilog=demo.EXAMPLES)(demo.demo)
app.command(epilog=schema.EXAMPLES)(schema.schema)
app.command(epilog=serve.EXAMPLES)(serve.serve)
app.command(epilog=backup.EXAMPLES)(backup.backup)


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
        code = _obey(arguments)
        if sys.stdout is not None:
            sys.stdout.flush()
    except EvenhungError as refusal:
        print(refusal, file=sys.stderr)
        return REFUSED
    except BrokenPipeError:  # whoever read our answer has read enough of it
        _leave_unsaid()
        return 0
    except Exception as fault:
        if os.environ.get("EVENHUNG_TRACEBACK"):
            raise
        return _own_up(fault)
    return code


def _obey(arguments: Sequence[str]) -> int:
    """Run one command and give the exit code it asks for."""
    try:
        app(args=list(arguments), prog_name="evenhung")
    except SystemExit as leaving:
        if isinstance(leaving.__context__, BrokenPipeError):  # typer makes a fault of it
            raise BrokenPipeError from None
        return leaving.code if isinstance(leaving.code, int) else OUR_FAULT
    return 0


def _own_up(fault: Exception) -> int:
    """Say what went wrong that no survey is to blame for; give the exit code."""
    if isinstance(fault, OSError) and fault.errno in NO_ROOM:
        _leave_unsaid()
        print(f"output: {fault.strerror}: a place with room for the answer", file=sys.stderr)
        return REFUSED
    print(
        f"evenhung: a fault of ours, not of your survey: {type(fault).__name__}: {fault}\n"
        "evenhung: set EVENHUNG_TRACEBACK=1 and run it again for what to send us",
        file=sys.stderr,
    )
    return OUR_FAULT


def _leave_unsaid() -> None:
    """Let what is still to be printed go nowhere, or Python complains of it as it ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)
