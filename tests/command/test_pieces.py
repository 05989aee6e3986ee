"""Pieces and the same work for each of several, as facts of the work, by commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import ONLY_ADA, lay_down
from tests.command.calling import Shell

VEHICLE = """\
name = "The Plank Wagon"
[work_days]
every = ["saturday"]
[jigs.form]
name = "Bending form"
"""
ARCHES = """\
name = "Roof arches"
[pieces.arches]
name = "Arch"
count = 3
spares = 1
[pieces.arches.2]
as_found = "original"
[tasks.bend]
title = "Bend"
each = ["arches"]
spares = true
hours = [1, 2, 3]
uses = ["form"]
hold = { kind = "bend set", lasts = "2 days" }
[tasks.fit]
title = "Fit"
each = ["arches"]
after = ["bend"]
hours = [1, 1, 1]
[tasks.canvas]
title = "Stretch the canvas"
after = ["fit"]
hours = [3, 4, 5]
[tasks.battens]
title = "Run the battens"
after = ["fit"]
enough = { fit = 2 }
hours = [1, 2, 3]
"""
BY = ("--by", "ada")


@pytest.fixture
def wagon(tmp_path: Path) -> Path:
    return lay_down(tmp_path / "wagon", {"roof": ARCHES}, vehicle=VEHICLE, crew=ONLY_ADA)


def state(call: Shell, wagon: Path, task: str, at: str) -> str:
    states = {t["id"]: t["state"] for t in call("day", wagon, "--at", at, "--json").form["tasks"]}
    return str(states[f"roof/{task}"])


def bend(call: Shell, wagon: Path, number: int, day: int) -> None:
    """Bent on that day of May at nine; released two days later."""
    task = f"bend/arches/{number}"
    for name, at in (("begin", "08:00"), ("finish", "09:00")):
        who = ("--who", "ada") if name == "begin" else ()
        assert call(name, wagon, task, *who, "--at", f"2026-05-{day:02}T{at}", *BY).code == 0
    released = call("release", wagon, task, "--at", f"2026-05-{day + 2:02}T10:00", *BY)
    assert released.code == 0, released.err


def test_the_folder_is_without_a_question(call: Shell, wagon: Path) -> None:
    ended = call("check", wagon, "--at", "2026-05-01T08:00")
    assert ended.code == 0, ended.out


def test_each_arch_follows_its_own_bend(call: Shell, wagon: Path) -> None:
    bend(call, wagon, 1, 2)
    assert state(call, wagon, "fit/arches/1", "2026-05-04T11:00") == "ready"
    assert state(call, wagon, "fit/arches/2", "2026-05-04T11:00") == "waiting"


def test_the_second_bend_waits_until_the_form_is_free(call: Shell, wagon: Path) -> None:
    at = "2026-05-02T10:00"
    call("begin", wagon, "bend/arches/1", "--who", "ada", "--at", "2026-05-02T08:00", *BY)
    call("finish", wagon, "bend/arches/1", "--at", "2026-05-02T09:00", *BY)
    assert state(call, wagon, "bend/arches/2", at) == "waiting"
    why = call("why", wagon, "bend/arches/2", "--at", at).out
    assert 'Bending form: in use by "Bend: Arch 1", until Mon 4 May 2026 09:00' in " ".join(
        why.split()
    )
    call("release", wagon, "bend/arches/1", "--at", "2026-05-04T10:00", *BY)
    assert state(call, wagon, "bend/arches/2", "2026-05-04T10:00") == "ready"


def test_two_of_three_fitted_arches_are_enough_for_the_battens(call: Shell, wagon: Path) -> None:
    for number, day in ((1, 2), (3, 5)):
        bend(call, wagon, number, day)
    at = "2026-05-08T09:00"
    for number in (1, 3):
        assert state(call, wagon, "battens", at) == "waiting"
        call("begin", wagon, f"fit/arches/{number}", "--who", "ada", "--at", at, *BY)
        call("finish", wagon, f"fit/arches/{number}", "--at", at, *BY)
    assert state(call, wagon, "battens", at) == "ready"
    assert state(call, wagon, "canvas", at) == "waiting"


def test_a_spare_takes_the_place_of_an_arch_that_failed(call: Shell, wagon: Path) -> None:
    for number, day in ((1, 2), (2, 5), (3, 8), (4, 11)):
        bend(call, wagon, number, day)
    at = "2026-05-14T09:00"
    assert state(call, wagon, "fit/arches/4", at) == "set aside"
    failed = call("fail", wagon, "arches/2", "--why", "split at a knot", "--at", at, *BY)
    assert failed.code == 0, failed.err
    assert state(call, wagon, "fit/arches/2", at) == "set aside"
    for number in (1, 3):
        call("begin", wagon, f"fit/arches/{number}", "--who", "ada", "--at", at, *BY)
        call("finish", wagon, f"fit/arches/{number}", "--at", at, *BY)
    assert state(call, wagon, "canvas", at) == "waiting"
    taken = call("use-spare", wagon, "arches/4", "--for", "arches/2", "--at", at, *BY)
    assert taken.code == 0, taken.err
    assert state(call, wagon, "fit/arches/4", at) == "ready"
    call("begin", wagon, "fit/arches/4", "--who", "ada", "--at", at, *BY)
    call("finish", wagon, "fit/arches/4", "--at", at, *BY)
    assert state(call, wagon, "canvas", at) == "ready"


def test_an_arch_made_anew_begins_with_its_first_task(call: Shell, wagon: Path) -> None:
    bend(call, wagon, 1, 2)
    at = "2026-05-05T09:00"
    anew = call("fail", wagon, "arches/1", "--why", "sprang open", "--again", "--at", at, *BY)
    assert anew.code == 0, anew.err
    assert state(call, wagon, "bend/arches/1", at) == "ready"
    assert state(call, wagon, "fit/arches/1", at) == "waiting"


def test_series_jigs_and_the_piece_of_a_hold_are_in_the_json(call: Shell, wagon: Path) -> None:
    at = ("--at", "2026-05-02T10:00")
    call("begin", wagon, "bend/arches/1", "--who", "ada", "--at", "2026-05-02T08:00", *BY)
    call("finish", wagon, "bend/arches/1", "--at", "2026-05-02T09:00", *BY)
    day = call("day", wagon, *at, "--json").form
    assert day["jigs"] == [
        {
            "id": "form",
            "name": "Bending form",
            "number": 1,
            "taken_by": ["roof/bend/arches/1"],
        }
    ]
    bends = next(series for series in day["series"] if series["id"] == "roof/bend")
    assert (bends["title"], bends["places"], bends["done"]) == ("Bend", 3, 1)
    assert bends["tasks"]["roof/arches/2"] == "roof/bend/arches/2"
    assert day["holds"][0]["pieces"] == ["roof/arches/1"]
    written = call("vehicle", wagon, *at, "--json").form["series"]
    assert written == day["series"]


def test_the_calendar_names_the_piece_of_a_hold(call: Shell, wagon: Path) -> None:
    call("begin", wagon, "bend/arches/1", "--who", "ada", "--at", "2026-05-02T08:00", *BY)
    call("finish", wagon, "bend/arches/1", "--at", "2026-05-02T09:00", *BY)
    calendar = call("report", "calendar", wagon, "--at", "2026-05-02T10:00").out
    assert "Bend: Arch 1" in calendar
