"""Build the wheel and do the main job with it: no development tools, no checkout.

Run by ``./check`` with the Python of the environment.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WHEELS = ROOT / "build" / "wheel"


def main() -> None:
    """Build, install and use the wheel; exit with a message at the first fault."""
    shutil.rmtree(WHEELS, ignore_errors=True)
    done(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", WHEELS, ROOT)
    (wheel,) = WHEELS.glob("*.whl")
    compare_with_sources(wheel)
    with tempfile.TemporaryDirectory(prefix="evenhung-wheel-") as scratch:
        python = install(wheel, Path(scratch) / "environment")
        windows = plan_the_demo(python, Path(scratch))
    print(f"   {wheel.name}, installed alone, planned the demo house of {windows} windows")


def done(*command: str | Path, cwd: Path = ROOT, stdin: str = "") -> str:
    """Give what a command prints; if it fails, exit with all that it said."""
    process = subprocess.run(
        [str(word) for word in command],
        cwd=cwd,
        input=stdin,
        capture_output=True,
        text=True,
        check=False,
    )
    if process.returncode:
        called = " ".join(map(str, command))
        sys.exit(f"{process.stdout}{process.stderr}\n`{called}` ended with {process.returncode}")
    return process.stdout


def compare_with_sources(wheel: Path) -> None:
    """Refuse a wheel that lacks a file of the package, or has one more."""
    sources = ROOT / "src"
    expected = {
        str(file.relative_to(sources))
        for file in (sources / "evenhung").rglob("*")
        if file.is_file() and "__pycache__" not in file.parts
    }
    with zipfile.ZipFile(wheel) as archive:
        packed = {name for name in archive.namelist() if ".dist-info/" not in name}
    if lacking := sorted(expected - packed):
        sys.exit(f"in src/ but not in the wheel: {', '.join(lacking)}")
    if foreign := sorted(packed - expected):
        sys.exit(f"in the wheel but not in src/: {', '.join(foreign)}")
    if "evenhung/py.typed" not in packed:
        sys.exit(
            "src/evenhung/py.typed is missing: nobody's type checker would read our annotations"
        )


def install(wheel: Path, folder: Path) -> Path:
    """Install the run-time lock and the wheel in a new environment; give its Python."""
    done(sys.executable, "-m", "venv", "--without-pip", folder)
    python = folder / "bin" / "python"
    pip = (sys.executable, "-m", "pip", "--python", python, "install", "--quiet", "--no-deps")
    done(*pip, "--require-hashes", "--requirement", ROOT / "requirements" / "run.txt")
    done(*pip, wheel)
    return python


def plan_the_demo(python: Path, scratch: Path) -> int:
    """Run the demo, plan its survey from standard input; give the number of windows planned."""
    where = done(python, "-I", "-c", "import evenhung; print(evenhung.__path__[0])").strip()
    if not Path(where).is_relative_to(scratch):
        sys.exit(f"not the wheel was used: evenhung came from {where}")
    desk = scratch / "desk"
    desk.mkdir()
    evenhung = python.with_name("evenhung")
    done(evenhung, "demo", cwd=desk)
    survey = done(evenhung, "demo", "--survey", cwd=desk)
    plan = json.loads(done(evenhung, "plan", "-", "--json", cwd=desk, stdin=survey))
    return len(plan["windows"]) or sys.exit("the plan of the demo survey has no windows")


if __name__ == "__main__":
    main()
