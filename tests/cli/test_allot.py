"""``allot``: by box side for people, one object for scripts, and Ctrl-C gives the best so far."""

from __future__ import annotations

import json
import os
import signal
import time
from pathlib import Path

import pytest
import tomli_w

KEYS = {
    "form",
    "house",
    "status",
    "cost",
    "bound",
    "seconds",
    "sashes",
    "sides",
    "unserved",
    "moves",
    "buy",
    "totals",
    "left_over",
    "left_out",
    "notes",
}


def test_lines_by_box_side(says, demo):
    code, out, _ = says("allot", demo)
    assert code == 0
    assert out[0].startswith("Tollgate House: 10 of 10 sashes hang true; proved:")
    assert "W1 upper left: keep; hangs at 9 lb 12 oz (4.42 kg)" in out
    assert any(line.startswith("W3 lower right: loose weight A") for line in out)
    assert any(line.startswith("W4 upper: takes no part: it is fixed") for line in out)
    assert any(line.startswith("step 1: ") for line in out)
    assert any(line.startswith("buy: in all ") and line.endswith(" GBP") for line in out)
    assert any("one cord, or by none, may drop" in line for line in out)


def test_one_object_for_scripts(says, demo):
    code, out, _ = says("allot", demo, "--json")
    assert code == 0
    found = json.loads("\n".join(out))
    assert set(found) == KEYS
    assert found["cost"] == found["bound"]
    assert len(found["sides"]) == 2 * len(found["sashes"]) == 20


def test_the_same_through_plan(says, demo):
    _, out, _ = says("plan", demo, "--json", "--allot")
    planned = json.loads("\n".join(out))
    _, out, _ = says("allot", demo, "--json")
    alone = json.loads("\n".join(out))
    for allotment in (alone, planned["allotment"]):
        allotment.pop("seconds")
    assert planned["allotment"] == alone
    hung = planned["windows"][2]["lower"]["hung"]
    assert hung["right"]["origin"] == "loose"
    _, out, _ = says("plan", demo, "--allot")
    assert any(line.startswith("W3 lower right: loose weight A") for line in out)
    assert any(line.startswith("W1 upper: hangs true") for line in out)


def test_units_can_be_turned_round(says, demo):
    _, out, _ = says("allot", demo, "--units", "metric")
    assert "W1 upper left: keep; hangs at 4.42 kg (9 lb 12 oz)" in out


def test_no_windows_no_allotment(says, tmp_path):
    survey = tmp_path / "empty.toml"
    survey.write_text('form = 1\n[house]\nname = "Empty"\n')
    code, out, _ = says("allot", str(survey))
    assert (code, out[0]) == (0, "Empty: no sash asks for weights")


def test_time_that_is_negative_is_refused(says, demo):
    code, _, err = says("allot", demo, "--seconds", "-1")
    assert code == 2
    assert any("--seconds" in line for line in err)


def large(tollgate, tmp_path, times):
    """Write a survey of many windows, each weight a little off."""
    windows = []
    for number in range(times):
        for window in tollgate["window"][:3]:
            windows.append({**window, "tag": f"{window['tag']}-{number}"})
            for place in ("upper", "lower"):
                sash = dict(windows[-1][place])
                sash["weighed"] = f"{15 + (7 * number) % 11} lb {number % 16} oz"
                windows[-1][place] = sash
    path = tmp_path / "large.toml"
    path.write_text(tomli_w.dumps({**tollgate, "window": windows}))
    return str(path)


@pytest.mark.slow
def test_an_interrupt_gives_the_best_so_far(process, tollgate, tmp_path):
    survey = large(tollgate, tmp_path, 20)
    running = process("allot", survey, "--json")
    assert b" s: within " in running.stderr.readline()
    running.send_signal(signal.SIGINT)
    begun = time.monotonic()
    out, err = running.communicate(timeout=60)
    assert running.returncode == 0, err
    found = json.loads(out)
    assert found["status"] == "feasible"
    assert found["bound"] < found["cost"]
    assert time.monotonic() - begun < 60


@pytest.mark.slow
def test_time_allowed_is_kept(says, tollgate, tmp_path):
    code, out, err = says("allot", large(tollgate, tmp_path, 20), "--seconds", "0.3")
    assert code == 0
    assert "not proved best: " in out[0]
    assert all(" s: within " in line for line in err)


def test_a_line_of_the_solver_is_not_ours(process, demo, tmp_path):
    """Whatever compiled code prints while it solves goes to standard error."""
    (tmp_path / "sitecustomize.py").write_text(
        "import os\n"
        "from evenhung.plan.allotment import house\n"
        "solve = house.allot\n"
        "def chatty(*given):\n"
        "    os.write(1, b'a line of the solver')\n"
        "    return solve(*given)\n"
        "house.allot = chatty\n"
    )
    root = Path(__file__).parents[2]
    path = os.pathsep.join([str(tmp_path), str(root / "src")])
    running = process("allot", demo, "--json", variables={"PYTHONPATH": path})
    out, err = running.communicate(timeout=60)
    assert json.loads(out)["status"] == "optimal"
    assert b"a line of the solver" in err


def test_a_weight_left_over_is_not_left_loose_in_its_box(says, demo):
    _, lines, _ = says("allot", demo)
    over = [line for line in lines if line.startswith("left over: W4 lower ")]
    assert len(over) == 2
    assert all("; take it out of its box: left in there it can jam " in line for line in over)
