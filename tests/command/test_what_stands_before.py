"""What stands before a task: holds on components, work that is open again, work during a hold.

Each is asked of every face of the command line that speaks of it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES, make

AT = ("--at", "2026-05-16T10:00")
BY = (*AT, "--by", "ada")
FILES_HERE = {
    "vehicle.toml": FILES["vehicle.toml"],
    "crew.toml": '[people.ada]\nname = "Ada Test"\n\n[people.tom]\nname = "Tom Test"\n',
    "components/frame.toml": """\
name = "Frame"
[tasks.weld]
title = "Rivet the frame"
hours = 2
[tasks.grind]
title = "Ease the joints"
hours = 2
after = ["weld"]
""",
    "components/deck.toml": """\
name = "Deck"
after = ["frame"]
[tasks.lay]
title = "Lay the boards"
hours = 3
[tasks.oil]
title = "Oil the boards"
hours = 3
after = ["lay"]
""",
    "components/roof.toml": """\
name = "Roof"
[tasks.glue]
title = "Glue the rim"
hours = 1
hold = { kind = "glue", lasts = "3 days" }
[tasks.plane]
title = "Plane the rim"
hours = 1
during = ["glue"]
[tasks.cover]
title = "Cover the roof"
hours = 1
after = ["glue"]
""",
}


@pytest.fixture
def bus(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "100")
    return make(tmp_path / "bus", {path: text.encode() for path, text in FILES_HERE.items()})


def _state(call: Shell, bus: Path, task: str, *at: str) -> str:
    form = call("day", bus, *(at or AT), "--json").form
    return str(next(t["state"] for t in form["tasks"] if t["id"] == task))


def _done(call: Shell, bus: Path, *tasks: str) -> None:
    for task in tasks:
        for word in ("begin", "finish"):
            ended = call(word, bus, task, *BY)
            assert ended.code == 0, ended.err


def _flat(text: str) -> str:
    return " ".join(text.split())


# --- a hold on a component -----------------------------------------------------------------------


def test_an_inspection_of_the_frame_holds_what_comes_after_the_frame(
    call: Shell, bus: Path
) -> None:
    _done(call, bus, "frame/weld", "frame/grind")
    assert _state(call, bus, "deck/lay") == "ready"
    call("hold", bus, "inspection", "--component", "frame", "--why", "the inspector comes", *BY)
    assert _state(call, bus, "deck/lay") == "waiting"
    why = _flat(call("why", bus, "deck/lay", *AT).out)
    assert "Frame: awaiting inspection since" in why
    refused = call("begin", bus, "deck/lay", "--who", "ada", *BY)
    assert refused.code == 1
    assert "awaiting inspection" in _flat(refused.err)
    assert call("release", bus, "frame", "--why", "passed", *BY).code == 0
    assert _state(call, bus, "deck/lay") == "ready"


def test_the_work_on_a_component_that_is_to_be_inspected_goes_on(call: Shell, bus: Path) -> None:
    call("hold", bus, "inspection", "--component", "frame", *BY)
    assert _state(call, bus, "frame/weld") == "ready"
    call("hold", bus, "inspection", "--component", "roof", "--leave-alone", *BY)
    assert _state(call, bus, "roof/glue") == "on hold"


def test_a_component_in_which_something_cures_is_left_alone_and_keeps_what_comes_after(
    call: Shell, bus: Path
) -> None:
    _done(call, bus, "frame/weld")
    call("hold", bus, "cure", "--component", "frame", "--lasts", "2 days", *BY)
    assert _state(call, bus, "frame/grind") == "on hold"
    assert "cur" in call("why", bus, "frame/grind", *AT).out


def test_a_hold_on_a_component_is_told_to_work_that_waits_for_other_work_too(
    call: Shell, bus: Path
) -> None:
    call("hold", bus, "inspection", "--component", "frame", *BY)
    why = _flat(call("why", bus, "deck/lay", *AT).out)
    assert "Rivet the frame" in why
    assert "Frame: awaiting inspection" in why


def test_what_finishing_lets_go_knows_of_the_hold_on_the_component(call: Shell, bus: Path) -> None:
    _done(call, bus, "frame/weld")
    assert call("then", bus, "frame/grind", *AT, "--json").form["now"] == ["deck/lay"]
    call("hold", bus, "inspection", "--component", "frame", *BY)
    then = call("then", bus, "frame/grind", *AT, "--json").form
    assert (then["now"], then["after_hold"]) == ([], ["deck/lay"])


def test_the_forecast_waits_for_the_hold_on_a_component(call: Shell, bus: Path) -> None:
    _done(call, bus, "frame/weld", "frame/grind")
    call("hold", bus, "inspection", "--component", "frame", "--lasts", "2 months", *BY)
    form = call("forecast", bus, *AT, "--runs", "20", "--json").form
    assert form["soonest"] >= "2026-07-16"
    assert set(form["finish"].values()) == {None}  # nobody wrote any hours yet: there is a range
    assert form["rough"]["first"] >= "2026-07-16"


# --- work that is open again ---------------------------------------------------------------------


def test_everything_behind_reopened_work_that_is_not_finished_waits_again(
    call: Shell, bus: Path
) -> None:
    _done(call, bus, "frame/weld", "frame/grind", "deck/lay")
    assert _state(call, bus, "deck/oil") == "ready"
    call("reopen", bus, "frame/weld", "--why", "a crack", *BY)
    assert _state(call, bus, "deck/oil") == "waiting"
    why = _flat(call("why", bus, "deck/oil", *AT).out)
    assert '"Rivet the frame": open again since Sat 16 May 2026 10:00: a crack' in why
    refused = call("begin", bus, "deck/oil", "--who", "ada", *BY)
    assert refused.code == 1
    assert "Rivet the frame" in refused.err
    assert call("then", bus, "frame/weld", *AT, "--json").form["now"] == ["deck/oil"]
    _done(call, bus, "frame/weld")
    assert _state(call, bus, "deck/oil") == "ready"


def test_work_under_way_behind_reopened_work_is_to_be_stopped(call: Shell, bus: Path) -> None:
    _done(call, bus, "frame/weld", "frame/grind")
    call("begin", bus, "deck/lay", "--who", "ada", *BY)
    call("reopen", bus, "frame/weld", "--why", "a crack", *BY)
    stop = 'stop: "Rivet the frame" is open again'
    assert _state(call, bus, "deck/lay") == "under way"
    assert stop in _flat(call("day", bus, *AT).out)
    why = _flat(call("why", bus, "deck/lay", *AT).out)
    assert stop in why
    assert '-> "Rivet the frame": open again since' in why
    assert stop in _flat(call("report", "day", bus, *AT).out)
    assert '"Lay the boards" is under way: "Rivet the frame" is open again' in _flat(
        call("check", bus, *AT).out
    )
    call("sign-in", bus, "tom", *BY)
    refused = call("begin", bus, "deck/lay", "--who", "tom", *BY)
    assert refused.code == 1
    assert stop in _flat(refused.err)


def test_work_under_way_behind_a_hold_that_runs_again_is_to_be_stopped(
    call: Shell, bus: Path
) -> None:
    """The glue was taken to be hard, the cover begun; then somebody finds the joint still tacky."""
    _done(call, bus, "roof/glue")
    later, by = ("--at", "2026-05-20T10:00"), ("--at", "2026-05-20T10:00", "--by", "ada")
    assert call("release", bus, "roof/glue", *by).code == 0
    assert call("begin", bus, "roof/cover", "--who", "ada", *by).code == 0
    assert "stop" not in call("day", bus, *later).out
    tacky = ("--task", "roof/glue", "--lasts", "2 days", "--why", "still tacky")
    assert call("hold", bus, "glue", *tacky, *by).code == 0
    stop = 'stop: "Glue the rim" is on hold, until Fri 22 May 2026 10:00'
    assert _state(call, bus, "roof/cover", *later) == "under way"
    assert stop in _flat(call("day", bus, *later).out)
    why = _flat(call("why", bus, "roof/cover", *later).out)
    assert stop in why
    assert '-> "Glue the rim": glue is setting since Wed 20 May 2026 10:00' in why
    assert stop in _flat(call("report", "day", bus, *later).out)
    sentence = '"Cover the roof" is under way: "Glue the rim" is on hold'
    assert sentence in _flat(call("check", bus, *later).out)
    call("sign-in", bus, "tom", *by)
    refused = call("begin", bus, "roof/cover", "--who", "tom", *by)
    assert refused.code == 1
    assert stop in _flat(refused.err)
    looked_at = ("--at", "2026-05-23T10:00")
    assert "due for a look" in _flat(call("why", bus, "roof/cover", *looked_at).out)
    assert call("release", bus, "roof/glue", *looked_at, "--by", "ada").code == 0
    assert "stop:" not in call("day", bus, *looked_at).out


def test_work_begun_in_spite_of_a_hold_goes_on_until_the_hold_is_made_longer(
    call: Shell, bus: Path
) -> None:
    _done(call, bus, "roof/glue")
    despite = ("--despite", "only the far end, which is screwed")
    assert call("begin", bus, "roof/cover", "--who", "ada", *despite, *BY).code == 0
    assert "stop:" not in call("day", bus, *AT).out
    later = ("--at", "2026-05-16T11:00")
    longer = ("--by-span", "1 day", "--why", "still tacky", *later, "--by", "ada")
    assert call("extend", bus, "roof/glue", *longer).code == 0
    assert 'stop: "Glue the rim" is on hold' in _flat(call("day", bus, *later).out)
    plan = call("plan-day", bus, "--people", "ada", *later, "--json").form
    assert "roof/cover" not in [placed["task"] for placed in plan["placed"]]


def test_work_to_be_stopped_is_not_planned_and_goes_on_behind_what_was_reopened(
    call: Shell, bus: Path
) -> None:
    _done(call, bus, "frame/weld", "frame/grind")
    call("begin", bus, "deck/lay", "--who", "ada", *BY)
    call("reopen", bus, "frame/weld", "--why", "a crack", *BY)
    plan = call("plan-day", bus, "--people", "ada", *AT, "--json").form
    assert "deck/lay" not in [each["task"] for each in plan["placed"]]
    assert "deck/lay" in [each["task"] for each in plan["not_placed"]]
    ranked = call("day", bus, *AT, "--json").form["first"]
    against = {each["task"]: each["not_today"] for each in ranked}
    assert '"Rivet the frame" is open again' in against["deck/lay"]
    then = call("then", bus, "frame/weld", *AT)
    assert "May go on (1)\n  Lay the boards" in then.out
    assert call("then", bus, "frame/weld", *AT, "--json").form["goes_on"] == ["deck/lay"]


def test_what_a_task_waits_for_in_the_end_is_said_once(call: Shell, bus: Path) -> None:
    text = (bus / "components/deck.toml").read_text()
    text = text.replace("hours = 3\n", 'hours = 3\nsupplies = ["nails"]\n')
    (bus / "components/deck.toml").write_text(text)
    (bus / "supplies.toml").write_text('[supplies.nails]\nname = "Nails"\n')
    _, in_the_end = call("why", bus, "deck/oil", *AT).out.split("In the end")
    assert in_the_end.count("Nails") == 1


def test_what_was_finished_over_reopened_work_is_questioned(call: Shell, bus: Path) -> None:
    _done(call, bus, "frame/weld", "frame/grind", "deck/lay")
    assert "open again" not in call("check", bus, *AT).out
    call("reopen", bus, "frame/grind", "--why", "a crack", *BY)
    looked = call("check", bus, *AT)
    assert '"Lay the boards" was finished: "Ease the joints" is open again' in _flat(looked.out)
    assert '"Rivet the frame" was finished' not in _flat(looked.out)
    _done(call, bus, "frame/grind")
    assert "open again" not in call("check", bus, *AT).out


# --- work during a hold --------------------------------------------------------------------------


def test_work_allowed_during_a_hold_is_told_so_by_every_face(call: Shell, bus: Path) -> None:
    then = call("then", bus, "roof/glue", *AT, "--json").form
    assert (then["now"], then["after_hold"]) == (["roof/plane"], ["roof/cover"])
    ranked = call("day", bus, *AT, "--json").form["first"]
    first = next(each for each in ranked if each["task"] == "roof/glue")
    assert sorted(first["lets_go"]) == ["roof/cover", "roof/plane"]
    _done(call, bus, "roof/glue")
    assert _state(call, bus, "roof/plane") == "ready"
    assert _state(call, bus, "roof/cover") == "waiting"
    assert "ready" in call("why", bus, "roof/plane", *AT).out
    names = [each["task"] for each in call("day", bus, *AT, "--json").form["first"]]
    assert "roof/plane" in names
    assert "roof/cover" not in names
