"""The launcher on machines that are bare, broken, shared, full or stopped in the middle.

Each test starts a copy of the real launcher, with a program of its own behind it and a lock that
names no packages: what is tried is the launcher, and it needs no network.
"""

from __future__ import annotations

import json
import os
import resource
import shutil
import signal
import stat
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LAUNCHER = ["evenhung", "check", "tools/environment.sh", "tools/make_environment.py"]

PROGRAM = """
import json, os, sys
json.dump({
    "arguments": sys.argv[1:], "folder": os.getcwd(), "python": sys.prefix, "base": sys.base_prefix,
    "path": sys.path, "cache": sys.pycache_prefix,
}, sys.stdout)
sys.exit(int(os.environ.get("LEAVE_WITH", "0")))
"""

ENSUREPIP = Path(os.__file__).parent / "ensurepip"

NOBODY = 65534
"""The user that owns nothing: root cannot be kept from writing, this one can."""


@dataclass(frozen=True)
class Checkout:
    """A copy of the launcher with a program that tells how it was started."""

    root: Path
    variables: dict[str, str] = field(default_factory=dict)

    @classmethod
    def at(cls, root: Path) -> Checkout:
        """Make a copy at `root`."""
        for name in LAUNCHER:
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, root / name)
        for name in ("requirements/run.txt", "requirements/dev.txt", "src/evenhung/__init__.py"):
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).touch()
        (root / "src/evenhung/__main__.py").write_text(PROGRAM)
        return cls(root)

    @property
    def environment(self) -> Path:
        """Where a writable checkout keeps its environment."""
        return self.root / ".venv"

    def begin(self, *arguments: str | Path, **options: object) -> subprocess.Popen[str]:
        """Start the launcher and do not wait."""
        variables = {key: value for key, value in os.environ.items() if key != "EVENHUNG_ENV"}
        variables.update(self.variables)
        variables.update(options.pop("variables", {}))
        return subprocess.Popen(
            [options.pop("by", self.root / "evenhung"), *arguments],
            env=variables,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            start_new_session=True,
            **options,
        )

    def start(self, *arguments: str, **options: object) -> Start:
        """Start the launcher and wait for its end."""
        return Start.of(self.begin(*arguments, **options))


@dataclass(frozen=True)
class Start:
    """How a start went."""

    code: int
    output: str
    said: list[str]

    @classmethod
    def of(cls, process: subprocess.Popen[str]) -> Start:
        """Wait for a process."""
        output, errors = process.communicate(timeout=120)
        return cls(process.returncode, output, errors.splitlines())

    @property
    def told(self) -> dict[str, object]:
        """What the program behind the launcher told; it must have run."""
        assert self.code == 0, self.said
        return json.loads(self.output)

    @property
    def only_line(self) -> str:
        """The line of a launcher that gave up."""
        assert (self.code, self.output, len(self.said)) == (1, "", 1), self
        return self.said[0]


@pytest.fixture
def checkout(tmp_path: Path) -> Checkout:
    """A fresh copy, with nothing set up."""
    return Checkout.at(tmp_path / "window tools")


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Checkout:
    """A copy that has been started once, under a path with spaces; tests must leave it as it is."""
    made = Checkout.at(tmp_path_factory.mktemp("ready") / "Häuser am See" / "window tools")
    assert made.start().code == 0
    return made


@pytest.fixture(scope="module")
def worn(tmp_path_factory: pytest.TempPathFactory) -> Checkout:
    """A copy that has been started once, for tests to break; each must have it whole again."""
    made = Checkout.at(tmp_path_factory.mktemp("worn") / "window tools")
    assert made.start().code == 0
    return made


def folder_of(where: Path, *programs: str) -> str:
    """Make a folder that holds these programs of the system and no others, to serve as PATH."""
    where.mkdir()
    for program in programs:
        (where / program).symlink_to(shutil.which(program))
    return str(where)


@pytest.fixture
def no_python(tmp_path: Path) -> str:
    """A PATH with the few programs that the launcher calls, and no Python."""
    return folder_of(tmp_path / "bin", "cmp", "readlink", "dirname", "cksum")


@pytest.fixture
def bare_python(tmp_path: Path) -> Path:
    """A Python without ensurepip and without packages, as Debian has it; the folder that it is in.

    The program is a copy, since Python looks for its library from where it really is.
    """
    library = Path(os.__file__).parent
    program = tmp_path / "bare" / "bin" / "python3"
    copied = tmp_path / "bare" / "lib" / library.name
    program.parent.mkdir(parents=True)
    copied.mkdir(parents=True)
    shutil.copy2(os.path.realpath(sys._base_executable), program)
    for entry in library.iterdir():
        if entry.name not in {"ensurepip", "site-packages", "dist-packages", "__pycache__"}:
            (copied / entry.name).symlink_to(entry)
    (copied / "site-packages").mkdir()
    return program.parent


# ------------------------------------------------------------------------------------- a warm start


def test_a_warm_start_says_nothing_and_needs_no_other_python(ready, no_python):
    start = ready.start(variables={"PATH": no_python})
    assert start.told["python"] == str(ready.environment)
    assert start.said == []


def test_arguments_folder_and_exit_code_are_passed_on(ready, tmp_path):
    arguments = ["plan", "a survey.toml", "", "--shown", "½ in"]
    start = ready.start(*arguments, cwd=tmp_path)
    assert start.told["arguments"] == arguments
    assert start.told["folder"] == str(tmp_path)
    assert ready.start(variables={"LEAVE_WITH": "2"}).code == 2


@pytest.mark.slow
def test_it_is_found_through_symbolic_links(ready, tmp_path):
    (tmp_path / "bin").mkdir()
    (tmp_path / "bin" / "evenhung").symlink_to(ready.root / "evenhung")
    (tmp_path / "eh").symlink_to("bin/evenhung")  # relative to where the link stands
    start = ready.start("demo", by=tmp_path / "eh", cwd="/")
    assert start.told["python"] == str(ready.environment)


@pytest.mark.parametrize("by", ["./evenhung", "../window tools/evenhung"])
def test_it_is_found_by_a_relative_path(ready, by):
    assert ready.start(by=by, cwd=ready.root).told["python"] == str(ready.environment)


def test_it_is_found_by_a_shell_that_is_given_the_bare_name(ready):
    start = Checkout(ready.root).start("evenhung", "x", by="sh", cwd=ready.root)
    assert start.told["arguments"] == ["x"]


@pytest.mark.parametrize(
    "variable", ["PYTHONPATH", "PYTHONHOME", "PYTHONSTARTUP", "PYTHONUSERBASE"]
)
def test_python_settings_of_the_caller_do_not_reach_the_program(ready, tmp_path, variable):
    (tmp_path / "json.py").write_text("raise SystemExit('the wrong json')")
    start = ready.start(variables={variable: str(tmp_path)})
    assert str(tmp_path) not in start.told["path"]


def test_modules_in_the_folder_we_stand_in_are_not_imported(ready, tmp_path):
    for name in ("json.py", "evenhung.py", "sitecustomize.py"):
        (tmp_path / name).write_text("raise SystemExit('the wrong module')")
    assert ready.start(cwd=tmp_path).told["folder"] == str(tmp_path)


# --------------------------------------------------------------------------- refused, in one line


def test_no_python_at_all(checkout, no_python):
    line = checkout.start(variables={"PATH": no_python}).only_line
    assert "Python 3.11 or newer is needed" in line
    assert "apt-get install python3" in line


def test_only_pythons_that_are_too_old(checkout, no_python):
    for name in ("python3", "python3.11"):
        old = Path(no_python) / name
        old.write_text("#!/bin/sh\nexit 1\n")  # to every question about itself it says no
        old.chmod(0o755)
    line = checkout.start(variables={"PATH": no_python}).only_line
    assert "Python 3.11 or newer is needed" in line


def test_a_python_that_cannot_make_environments(checkout, no_python, bare_python):
    line = checkout.start(variables={"PATH": f"{bare_python}:{no_python}"}).only_line
    assert "has no ensurepip and no usable pip" in line
    assert "apt-get install python3-venv" in line
    assert not checkout.environment.exists()
    assert not (checkout.root / ".venv.making").exists()


@pytest.mark.parametrize("name", ["", ".making", ".former"])
def test_a_folder_with_files_that_are_not_ours_is_refused_and_left_alone(checkout, tmp_path, name):
    home = tmp_path / "joinery"
    letter = home.with_name(home.name + name) / "letter.txt"
    letter.parent.mkdir()
    letter.write_text("keep me")
    line = checkout.start(variables={"EVENHUNG_ENV": str(home)}).only_line
    assert f"{letter.parent} has files that Evenhung did not put there" in line
    assert letter.read_text() == "keep me"
    assert list(letter.parent.iterdir()) == [letter]


def test_a_file_in_the_place_of_the_environment_is_refused_and_left_alone(checkout, tmp_path):
    letter = tmp_path / "letter.txt"
    letter.write_text("keep me")
    line = checkout.start(variables={"EVENHUNG_ENV": str(letter)}).only_line
    assert f"{letter} is not a folder" in line
    assert letter.read_text() == "keep me"


def test_a_line_break_in_the_path_is_refused(tmp_path):
    assert "line break" in Checkout.at(tmp_path / "two\nlines").start().only_line


@pytest.mark.slow
def test_no_network(checkout):
    checkout.root.joinpath("requirements/run.txt").write_text(
        f"numpy==2.4.6 --hash=sha256:{'0' * 64}\n"
    )
    nowhere = "http://127.0.0.1:9/"  # the port that discards: nothing listens
    line = checkout.start(
        variables={
            "PIP_CONFIG_FILE": os.devnull,
            "PIP_INDEX_URL": nowhere,
            "PIP_FIND_LINKS": "",
        }
    ).said[-1]
    assert "there is no network (ERROR: " in line
    assert not (checkout.root / ".venv.making").exists()


@pytest.mark.slow
def test_a_package_that_is_not_what_the_lock_says_is_refused(checkout, tmp_path):
    (tmp_path / "packages").mkdir()
    wheel = tmp_path / "packages" / "sashcord-1.0-py3-none-any.whl"
    wheel.write_bytes(b"not the wheel that was locked")
    checkout.root.joinpath("requirements/run.txt").write_text(
        f"sashcord==1.0 --hash=sha256:{'0' * 64}\n"
    )
    start = checkout.start(variables={"PIP_NO_INDEX": "1", "PIP_FIND_LINKS": wheel.parent.as_uri()})
    assert start.code == 1
    assert "its packages could not be installed for Python 3." in start.said[-1]
    assert not checkout.environment.exists()


def test_a_disk_that_is_full(checkout):
    def no_large_files() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))

    start = checkout.start(preexec_fn=no_large_files)
    assert start.code == 1
    assert len(start.said) == 2, start.said  # that it sets up, and why it could not
    assert "File too large" in start.said[1]
    assert not (checkout.root / ".venv.making").exists()
    assert not checkout.environment.exists()


# ------------------------------------------------------------------------ healed by the next start


PIP_COMES = "lib/python*/site-packages/pip"
"""Seconds of work are left when this is first seen in an environment that is being made."""


def wait_for(pattern: str, checkout: Checkout, process: subprocess.Popen[str]) -> None:
    """Wait until `pattern` is in the environment being made; the process must not end before."""
    making = checkout.root / ".venv.making"
    for _ in range(12000):
        if any(making.glob(pattern)):
            return
        assert process.poll() is None, process.communicate()
        time.sleep(0.005)
    raise AssertionError(f"{pattern} did not come")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "reached"),
    [
        ("SIGKILL", "*"),
        ("SIGKILL", "bin/python"),
        ("SIGKILL", PIP_COMES),
        ("SIGTERM", PIP_COMES),
        ("SIGINT", PIP_COMES),
    ],
)
def test_a_first_start_that_was_stopped_midway(checkout, name, reached):
    process = checkout.begin()
    wait_for(reached, checkout, process)
    os.killpg(process.pid, signal.Signals[name])
    assert Start.of(process).code != 0
    again = checkout.start()
    assert again.told["python"] == str(checkout.environment)
    assert checkout.start().said == []
    assert sorted(path.name for path in checkout.root.glob(".venv*")) == [".venv", ".venv.lock"]


@pytest.mark.slow
def test_a_set_up_whose_maker_was_killed_alone_keeps_the_next_start_waiting(checkout):
    process = checkout.begin(
        checkout.root / "tools" / "make_environment.py",
        checkout.root,
        checkout.environment,
        "run",
        by=sys.executable,
    )
    wait_for(PIP_COMES, checkout, process)
    process.kill()  # but not the ensurepip or pip that it started, which go on writing
    again = checkout.start()
    assert again.told["python"] == str(checkout.environment)
    assert "is being set up by another start; waiting" in again.said[0]
    assert Start.of(process).code == -signal.SIGKILL


@pytest.mark.slow
def test_two_first_starts_at_once_make_one_environment(checkout):
    both = [Start.of(process) for process in [checkout.begin(), checkout.begin()]]
    assert {start.told["python"] for start in both} == {str(checkout.environment)}
    said = [line for start in both for line in start.said]
    assert len([line for line in said if "setting up in" in line]) == 1
    assert len([line for line in said if "waiting" in line]) <= 1


@pytest.mark.slow
@pytest.mark.parametrize("lost", ["bin/python", "lib", "lib/evenhung/stamp", "pyvenv.cfg"])
def test_an_environment_that_lost_a_part_is_made_again(worn, lost):
    path = worn.environment / lost
    if path.is_dir():
        shutil.rmtree(path)
    else:
        path.unlink()
    assert worn.start().told["python"] == str(worn.environment)
    assert worn.start().said == []


@pytest.mark.slow
def test_a_start_that_was_stopped_between_two_renames(worn):
    worn.environment.rename(worn.root / ".venv.former")
    assert "setting up in" in worn.start().said[0]
    assert sorted(path.name for path in worn.root.glob(".venv*")) == [".venv", ".venv.lock"]


@pytest.mark.slow
def test_an_environment_whose_python_was_uninstalled_is_made_again(checkout, bare_python):
    (library,) = bare_python.parent.glob("lib/python*")
    (library / "ensurepip").symlink_to(ENSUREPIP)
    on_it = {"PATH": f"{bare_python}:{os.environ['PATH']}"}
    assert checkout.start(variables=on_it).told["base"] == str(bare_python.parent)
    shutil.rmtree(bare_python.parent)
    assert checkout.start(variables=on_it).told["base"] != str(bare_python.parent)


@pytest.mark.slow
def test_new_locks_and_a_moved_checkout_are_noticed(checkout, tmp_path):
    assert checkout.start().code == 0
    for leftover in (".venv.former", ".venv.making"):  # of a start that was stopped while clearing
        (checkout.root / leftover / "lib" / "old").mkdir(parents=True)
        (checkout.root / leftover / ".made-by-evenhung").touch()
    (checkout.root / "requirements" / "run.txt").write_text("# renewed\n")
    assert "setting up in" in checkout.start().said[0]
    assert checkout.start().said == []
    moved = Checkout(checkout.root.rename(tmp_path / "moved"))
    assert moved.start().told["python"] == str(moved.environment)
    assert sorted(path.name for path in moved.root.glob(".venv*")) == [".venv", ".venv.lock"]


@pytest.mark.slow
def test_development_tools_are_kept_when_the_program_renews_its_environment(checkout):
    maker = [sys.executable, checkout.root / "tools" / "make_environment.py", checkout.root]
    subprocess.run([*maker, checkout.environment, "development"], check=True, capture_output=True)
    kept = checkout.environment / "lib" / "evenhung" / "dev.txt"
    assert kept.exists()
    assert checkout.start().said == []
    (checkout.root / "requirements" / "run.txt").write_text("# renewed\n")
    assert "setting up in" in checkout.start().said[0]
    assert kept.exists()


@pytest.mark.slow
def test_its_scripts_name_the_folder_they_ended_in(ready):
    for script in (ready.environment / "bin").iterdir():
        assert b".making" not in script.read_bytes(), script
    pip = subprocess.run(
        [ready.environment / "bin" / "pip", "--version"], check=True, capture_output=True, text=True
    )
    assert str(ready.environment) in pip.stdout


# --------------------------------------------------------------------------------- other machines


@pytest.mark.slow
def test_a_bare_python_is_served_by_its_pip(checkout, no_python, bare_python):
    pip = Path(pytest.importorskip("pip").__file__).parent
    (packages,) = bare_python.parent.glob("lib/python*/site-packages")
    shutil.copytree(pip, packages / "pip")
    start = checkout.start(variables={"PATH": f"{bare_python}:{no_python}"})
    assert start.told["base"] == str(bare_python.parent)
    assert checkout.start().said == []


@pytest.mark.slow
@pytest.mark.parametrize("user", ["0", "1000"])
def test_check_installs_what_a_bare_debian_lacks_if_root_runs_it(
    checkout, no_python, bare_python, user
):
    (checkout.root / "tools" / "run_checks.py").write_text("import sys; print(sys.argv[1:])")
    (library,) = bare_python.parent.glob("lib/python*")
    programs = {
        "id": f"echo {user}",
        "apt-get": f"[ $1 = update ] || /bin/ln -s '{ENSUREPIP}' '{library}'",
    }
    for name, does in programs.items():
        (Path(no_python) / name).write_text(f"#!/bin/sh\n{does}\n")
        (Path(no_python) / name).chmod(0o755)
    start = checkout.start(
        "quick", by=checkout.root / "check", variables={"PATH": f"{bare_python}:{no_python}"}
    )
    if user == "0":
        assert (start.code, start.output) == (0, "['quick']\n")
        assert "installing python3-venv with apt-get" in start.said[1]
    else:
        assert "apt-get install python3-venv" in start.only_line


@pytest.mark.slow
def test_the_environment_can_be_named_and_an_empty_folder_is_taken(checkout, tmp_path):
    (tmp_path / "new").mkdir()
    start = checkout.start(variables={"EVENHUNG_ENV": "new"}, cwd=tmp_path)
    assert start.told["python"] == str(tmp_path / "new")
    assert not checkout.environment.exists()


@pytest.fixture
def read_only():
    """A checkout that the user who starts it cannot write, and that user's home."""
    with tempfile.TemporaryDirectory(prefix="evenhung-read-only-") as folder:
        top = Path(folder)
        made = Checkout.at(top / "checkout")
        home = top / "home"
        home.mkdir()
        top.chmod(0o755)
        for path in [made.root, *made.root.rglob("*")]:
            path.chmod(stat.S_IMODE(path.stat().st_mode) & ~0o222 | 0o444)
        options: dict[str, object] = {}
        path = os.environ["PATH"]
        if os.geteuid() == 0:
            os.chown(home, NOBODY, NOBODY)
            options = {"user": NOBODY, "group": NOBODY, "extra_groups": []}
            path = os.defpath  # root's own Python may be closed to others
        variables = {"PATH": path, "HOME": str(home), "XDG_CACHE_HOME": "", "TMPDIR": str(home)}
        yield Checkout(made.root, variables), options, home
        for path in [made.root, *made.root.rglob("*")]:
            path.chmod(0o755)


@pytest.mark.slow
def test_a_read_only_checkout_is_set_up_in_the_cache(read_only):
    checkout, options, home = read_only
    told = checkout.start(cwd="/", **options).told
    assert Path(told["python"]).parent == home / ".cache" / "evenhung"
    assert told["cache"] == f"{told['python']}/cache"
    again = checkout.start(cwd="/", **options)
    assert (again.said, again.told["python"]) == ([], told["python"])
    assert not list(checkout.root.rglob("__pycache__"))
    assert list(Path(told["cache"]).rglob("__main__.*.pyc"))


def test_nowhere_to_write(read_only):
    checkout, options, _ = read_only
    nowhere = {"HOME": str(checkout.root)}
    line = checkout.start(cwd="/", variables=nowhere, **options).only_line
    assert "Permission denied" in line
    assert "EVENHUNG_ENV may name another folder" in line


def test_no_home_at_all(read_only):
    checkout, options, _ = read_only
    line = checkout.start(cwd="/", variables={"HOME": ""}, **options).only_line
    assert "name a folder to set up in by EVENHUNG_ENV" in line
