"""The map names every file of the program, and none that is not there."""

import re

import pytest


@pytest.fixture
def trees(root):
    """Give the trees of the map, each as paths with what is said of them."""
    page = (root / "docs/map.md").read_text(encoding="utf-8")
    return [paths(tree) for tree in re.findall(r"```text\n(.*?)```", page, re.DOTALL)]


def paths(tree):
    found, folders = {}, []
    for line in tree.splitlines():
        indent, name, says = re.fullmatch(r"((?:  )*)(\S+) *(.*)", line).groups()
        folders[len(indent) // 2 :] = [name.rstrip("/")]
        found["/".join(folders) + ("/" if name.endswith("/") else "")] = says
    return found


def test_the_program_is_all_there(trees, root):
    named = {path for path in trees[0] if not path.endswith("/")}
    package = root / "src" / "evenhung"
    files = {
        str(file.relative_to(root))
        for file in package.rglob("*")
        if file.is_file() and "__pycache__" not in file.parts
    }
    packages = {str(file.parent.relative_to(root)) + "/" for file in package.rglob("__init__.py")}
    assert named == {name for name in files if not name.endswith("/__init__.py")} | {
        "src/evenhung/__init__.py"
    }
    assert packages <= set(trees[0])


def test_what_is_around_it_is_there(trees, root):
    for path in trees[1]:
        assert (root / path).exists(), path
        assert path.endswith("/") == (root / path).is_dir(), path


def test_every_line_says_something(trees):
    silent = [path for tree in trees for path, says in tree.items() if not says]
    assert silent == ["src/evenhung/"]
