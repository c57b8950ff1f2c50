"""Start Evenhung from the command line: ``python -m evenhung``."""

from __future__ import annotations

import gc
import sys


def main() -> int:
    """Run one command and give its exit code."""
    gc.disable()  # a command ends before it pays to collect; saves 5 % of its start
    from evenhung.cli.app import run  # after the line above, or nothing is saved

    return run(sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
