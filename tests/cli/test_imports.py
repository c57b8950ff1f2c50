"""What a command loads: a small house is planned without anything that is slow to load."""

from __future__ import annotations

import subprocess
import sys

import pytest

PROGRAM = """
import sys
from evenhung.__main__ import main
sys.argv[1:] = {arguments!r}
code = main()
print(*sorted({{name.partition(".")[0] for name in sys.modules}}), file=sys.stderr)
sys.exit(code)
"""

NEVER = {"scipy", "highspy", "ortools", "typst", "django", "pint", "pandas", "rich", "ezdxf"}


def loaded(*arguments):
    """Give the packages a command has loaded by its end."""
    program = PROGRAM.format(arguments=list(arguments))
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return set(done.stderr.split())


@pytest.mark.slow
def test_a_small_house_is_planned_without_numpy(demo):
    packages = loaded("plan", demo, "--json")
    assert {"evenhung", "pydantic_core", "typer"} <= packages
    assert not packages & (NEVER | {"numpy", "pydantic"})  # pydantic: its engine alone


@pytest.mark.slow
@pytest.mark.parametrize("command", ["plan", "inspect"])
def test_lines_load_no_tables_either(demo, command):
    assert not loaded(command, demo) & (NEVER | {"numpy"})


@pytest.mark.slow
def test_a_large_house_loads_numpy_and_nothing_else_that_is_slow(tollgate, tmp_path):
    import tomli_w

    tollgate["window"] = [
        {**tollgate["window"][number % 6], "tag": f"W{number}"} for number in range(80)
    ]
    survey = tmp_path / "house.toml"
    survey.write_text(tomli_w.dumps(tollgate))
    packages = loaded("plan", str(survey), "--json")
    assert "numpy" in packages
    assert not packages & NEVER
