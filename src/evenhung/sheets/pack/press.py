"""The typesetter: one job in, one document out, here or in a process of its own.

What a long document takes of the machine's memory, a process gives back only at its end; so long
ones are set by ``python -m evenhung.sheets.pack.press``, a job to a process. The same job gives
the same bytes either way.
"""

from __future__ import annotations

import json
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

import typst

HERE = Path(__file__).parent
TEMPLATES, FONTS = HERE / "templates", HERE / "fonts"
STANDARD: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): tagged, titled, every picture told in words."""

COMMAND = ("-I", "-m", "evenhung.sheets.pack.press")
"""What Python is started with; -I: no module of the folder we stand in is taken for ours."""

APART = 100_000
"""Letters of data from which a document is set in a process of its own: ours, by measuring."""


class Job(NamedTuple):
    """One document to set, or to ask."""

    template: str
    data: str
    """What the template asks for, as JSON."""
    moment: int
    """When it says that it was made, in seconds since 1970."""
    asked: str = ""
    """Label of what to read out of the document, instead of setting it."""


def done(job: Job) -> bytes:
    """Do a job, in a process of its own if it is long.

    Parameters
    ----------
    job
        What to do.

    Returns
    -------
    bytes
        A PDF; for a job that asks, a JSON list of what the label was found on.

    Raises
    ------
    RuntimeError
        If the process fails; what it said is in the message.
    """
    return apart(job) if len(job.data) >= APART else here(job)


def here(job: Job) -> bytes:
    """Do a job in this process."""
    source, inputs = TEMPLATES / f"{job.template}.typ", {"data": job.data}
    if job.asked:
        return typst.query(
            source,
            f"<{job.asked}>",
            field="value",
            root=TEMPLATES,
            font_paths=[FONTS],
            ignore_system_fonts=True,
            sys_inputs=inputs,
        ).encode()
    made = _compiler().compile(
        input=source,
        format="pdf",
        sys_inputs=inputs,
        pdf_standards=[STANDARD],
        timestamp=job.moment,
    )
    if not isinstance(made, bytes):
        raise TypeError(f"{job.template}: one document, not {type(made).__name__}")
    return made


def apart(job: Job) -> bytes:
    """Do a job in a process of its own."""
    ended = subprocess.run(  # noqa: S603 our own program, with arguments of ours
        [sys.executable, *COMMAND],
        input=json.dumps(job).encode(),
        capture_output=True,
        check=False,
    )
    if ended.returncode:
        said = ended.stderr.decode(errors="replace").strip().rpartition("\n")[2]
        raise RuntimeError(f"{job.template}: the typesetter ended with {ended.returncode}: {said}")
    return ended.stdout


@cache
def _compiler() -> typst.Compiler:
    return typst.Compiler(
        root=TEMPLATES, font_paths=[FONTS], ignore_system_fonts=True, sys_inputs={}
    )


def main() -> None:
    """Do the job that stands on the standard input; the document goes to the standard output."""
    sys.stdout.buffer.write(here(Job(*json.load(sys.stdin.buffer))))


if __name__ == "__main__":
    main()
