"""Holds by commands: found by what they are on, made longer when their time is over, let go."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.command.calling import DONE, Shell
from tests.terminal.shop import make_shop

DOORS = """\
name = "Doors"

[tasks.paint-front]
title = "Paint the front door"
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "12 hours" }

[tasks.paint-rear]
title = "Paint the rear door"
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "12 hours" }

[tasks.hang]
title = "Hang the doors"
hours = [1, 2, 3]
after = ["paint-front", "paint-rear"]
"""
BY = ("--by", "ada")


@pytest.fixture
def van(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van", components={"doors": DOORS})


def at(day: int, clock: str = "10:00") -> tuple[str, ...]:
    return ("--at", f"2026-05-{day:02}T{clock}", *BY)


def state(call: Shell, van: Path, task: str, *when: str) -> str:
    tasks: list[dict[str, Any]] = call("day", van, "--json", *when[:2]).form["tasks"]
    return next(str(each["state"]) for each in tasks if each["id"] == task)


def both_painted(call: Shell, van: Path) -> None:
    for task in ("paint-front", "paint-rear"):
        assert call("finish", van, task, *DONE, *at(2)).code == 0
    assert state(call, van, "doors/hang", *at(3)) == "ready"


def test_a_coat_still_tacky_when_its_time_is_over_makes_what_follows_wait_again(
    van: Path, call: Shell
) -> None:
    both_painted(call, van)
    longer = ("--by-span", "1 day", "--why", "still tacky")
    assert call("extend", van, "front door", *longer, *at(3)).code == 0
    assert state(call, van, "doors/hang", *at(3, "10:01")) == "waiting"
    assert "Paint the front door" in call("why", van, "hang", *at(3, "10:01")[:2]).out
    assert state(call, van, "doors/hang", *at(4, "10:00")) == "ready"


def test_a_hold_is_let_go_by_the_name_of_its_task_or_component(van: Path, call: Shell) -> None:
    assert call("finish", van, "paint-front", *DONE, *at(2)).code == 0
    assert call("release", van, "paint-front", "--why", "dry", *at(2, "12:00")).code == 0
    assert call("hold", van, "inspection", "--component", "doors", *at(2)).code == 0
    assert call("release", van, "doors", *at(2, "12:00")).code == 0
    assert "No hold" in call("holds", van, *at(2, "12:01")[:2]).out


def test_a_released_hold_stays_released(van: Path, call: Shell) -> None:
    assert call("finish", van, "paint-front", *DONE, *at(2)).code == 0
    assert call("release", van, "paint-front", "--why", "dry", *at(2, "12:00")).code == 0
    longer = ("--by-span", "1 day", "--why", "still tacky")
    ended = call("extend", van, "paint-front", *longer, *at(2, "13:00"))
    assert ended.code == 1
    assert "released Sat 2 May 2026 12:00 by Ada Marsh, and stays so" in ended.err
    assert "start a new hold" in ended.err


def test_a_name_that_two_holds_fit_is_answered_with_their_titles(van: Path, call: Shell) -> None:
    for task in ("paint-front", "paint-rear"):
        assert call("finish", van, task, *DONE, *at(2)).code == 0
    ended = call("release", van, "paint", "--why", "dry", *at(2, "12:00"))
    assert ended.code == 1
    assert '"Paint the front door" (doors/paint-front)' in ended.err
    assert '"Paint the rear door" (doors/paint-rear)' in ended.err


def test_one_that_runs_goes_before_one_that_is_over(van: Path, call: Shell) -> None:
    assert call("finish", van, "paint-front", *DONE, *at(2)).code == 0
    assert call("finish", van, "paint-rear", *DONE, *at(4)).code == 0
    assert call("release", van, "paint", "--why", "dry", *at(4, "11:00")).code == 0
    assert state(call, van, "doors/hang", *at(4, "11:01")) == "ready"


def test_two_holds_on_one_task_are_told_apart_by_what_they_are(van: Path, call: Shell) -> None:
    assert call("finish", van, "paint-front", *DONE, *at(2)).code == 0
    assert call("hold", van, "inspection", "--task", "paint-front", *at(2, "11:00")).code == 0
    ended = call("release", van, "paint-front", "--why", "dry", *at(2, "12:00"))
    assert ended.code == 1
    assert '"Paint the front door" has 2 holds' in ended.err
    assert "drying since Sat 2 May 2026 10:00" in ended.err
    assert "awaiting inspection since Sat 2 May 2026 11:00" in ended.err


def test_a_name_that_two_people_fit_is_answered_with_their_full_names(
    van: Path, call: Shell
) -> None:
    ended = call("sign-in", van, "quill", *at(2))
    assert ended.code == 1
    assert '"Dov Quill" (dov)' in ended.err


def test_what_has_no_hold_is_said_so(van: Path, call: Shell) -> None:
    ended = call("extend", van, "hang", "--by-span", "1 day", "--why", "wet", *at(2))
    assert ended.code == 1
    assert 'there is no hold on "hang"' in ended.err


def test_the_clock_of_a_hold_may_start_exactly_now_and_no_later(van: Path, call: Shell) -> None:
    late = ("--clock", "2026-05-02T10:01")
    assert "cannot start later" in call("finish", van, "paint-front", *DONE, *late, *at(2)).err
    now = ("--clock", "2026-05-02T10:00")
    assert call("finish", van, "paint-front", *DONE, *now, *at(2)).code == 0
    told = call("holds", van, "--json", *at(2, "10:01")[:2]).form["holds"]
    assert told[0]["since"] == "2026-05-02T10:00:00"


def test_a_hold_is_on_a_task_or_on_a_component_not_on_both(van: Path, call: Shell) -> None:
    on_both = ("--task", "hang", "--component", "doors", "--lasts", "1 day")
    refused = call("hold", van, "glue", *on_both, *at(2))
    assert refused.code == 1
    assert "on a task, on a component or on a piece" in refused.err
    assert "No hold" in call("holds", van, *at(2)[:2]).out


def test_what_was_said_of_a_hold_names_the_work_it_is_on(van: Path, call: Shell) -> None:
    call("finish", van, "paint-front", *DONE, *at(2))
    longer = call("extend", van, "paint-front", "--by-span", "1 day", "--why", "damp", *at(2))
    assert 'dry hold of "Paint the front door" extended by 1 day' in longer.out


def test_what_a_hold_has_to_go_is_told_in_real_hours_over_a_clock_change(
    van: Path, call: Shell
) -> None:
    """The clocks go back on Sunday 25 October at 03:00: 36 hours from Saturday noon end at 23:00,
    and at one o'clock 35 of them are to go."""
    path = van / "vehicle.toml"
    path.write_text(path.read_text().replace("format = 1", 'format = 1\ntimezone = "CET"'))
    noon = ("--at", "2026-10-24T12:00", *BY)
    despite = ("--despite", "written ahead")
    started = call("hold", van, "soak", "--task", "hang", "--lasts", "36 hours", *despite, *noon)
    assert started.code == 0, started.err
    holds = call("holds", van, "--at", "2026-10-24T13:00").out
    assert "until Sun 25 Oct 23:00" in holds
    assert "35 h to go" in holds
