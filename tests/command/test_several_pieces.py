"""One command for several pieces of a series."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import ONLY_ADA, lay_down
from tests.command.calling import Shell

VEHICLE = """\
name = "The Plank Wagon"
[work_days]
every = ["saturday"]
"""
WINDOWS = """\
name = "Windows"
[pieces.lights]
name = "Light"
count = 12
[tasks.glaze]
title = "Glaze the sashes"
each = ["lights"]
hours = [1, 2, 3]
[tasks.putty]
title = "Putty"
each = ["lights"]
after = ["glaze"]
[tasks.wash]
title = "Wash the glass"
after = ["putty"]
"""
AT = ("--at", "2026-05-02T09:00", "--by", "ada")


@pytest.fixture
def wagon(tmp_path: Path) -> Path:
    return lay_down(tmp_path / "wagon", {"windows": WINDOWS}, vehicle=VEHICLE, crew=ONLY_ADA)


def in_state(call: Shell, wagon: Path, word: str, task: str = "glaze") -> list[int]:
    """The numbers of the lights of which that task is in this state."""
    tasks = call("day", wagon, "--at", "2026-05-02T20:00", "--json").form["tasks"]
    start = f"windows/{task}/lights/"
    return [
        int(t["id"][len(start) :])
        for t in tasks
        if t["id"].startswith(start) and t["state"] == word
    ]


@pytest.mark.parametrize(
    "typed",
    [
        "glaze/lights/1-3",
        "windows/glaze/lights/1-3",
        "glaze lights 1 to 3",
        "glaze 1-3",
        "Glaze the sashes 1, 2 and 3",
    ],
)
def test_some_pieces_are_named_by_their_series_and_their_numbers(
    call: Shell, wagon: Path, typed: str
) -> None:
    begun = call("begin", wagon, typed, "--who", "ada", *AT)
    assert begun.code == 0, begun.err
    assert in_state(call, wagon, "under way") == [1, 2, 3]
    assert len(begun.out.splitlines()) == 3


def test_a_series_by_its_name_means_the_pieces_for_which_the_command_makes_sense(
    call: Shell, wagon: Path
) -> None:
    call("begin", wagon, "glaze/lights/2-4", "--who", "ada", *AT)
    assert call("finish", wagon, "glaze", *AT).code == 0
    assert in_state(call, wagon, "finished") == [2, 3, 4]
    assert call("begin", wagon, "putty", "--who", "ada", *AT).code == 0  # those that are ready
    assert in_state(call, wagon, "under way", "putty") == [2, 3, 4]
    assert call("reopen", wagon, "glaze", "--why", "rattles", *AT).code == 0
    assert in_state(call, wagon, "finished") == []
    assert call("set-aside", wagon, "windows/glaze", "--why", "no glass", *AT).code == 0
    assert len(in_state(call, wagon, "set aside")) == 12
    assert call("set-aside", wagon, "glaze", "--back", *AT).code == 0
    assert in_state(call, wagon, "set aside") == []


def test_nothing_is_written_where_one_piece_is_refused_and_it_is_named(
    call: Shell, wagon: Path
) -> None:
    call("begin", wagon, "glaze/lights/1", "--who", "ada", *AT)
    call("finish", wagon, "glaze/lights/1", *AT)
    refused = call("begin", wagon, "putty/lights/1-2", "--who", "ada", *AT)
    assert refused.code == 1
    assert '"Putty: Light 2"' in refused.err
    assert in_state(call, wagon, "under way", "putty") == []


def test_hours_typed_for_three_pieces_are_divided_equally(call: Shell, wagon: Path) -> None:
    worked = call("hours", wagon, "ada", "5", "glaze/lights/1-3", *AT)
    assert worked.code == 0, worked.err
    tasks = call("day", wagon, "--at", "2026-05-02T20:00", "--json").form["tasks"]
    hours = [t["hours"] for t in tasks if t["id"].startswith("windows/glaze")]
    assert hours[:4] == [1.67, 1.67, 1.66, 0]
    left = call("hours-left", wagon, "glaze/lights/1-2", "6", *AT)
    assert left.code == 0, left.err


def test_a_note_and_a_hold_stand_on_each_piece(call: Shell, wagon: Path) -> None:
    note = call("note", wagon, "--task", "glaze/lights/1-2", "beads too short", *AT)
    assert note.code == 0, note.err
    assert len(note.out.splitlines()) == 2
    held = call("hold", wagon, "dry", "--task", "glaze/lights/5-6", "--lasts", "2 days", *AT)
    assert held.code == 0, held.err
    assert in_state(call, wagon, "on hold") == [5, 6]


def test_light_1_is_not_light_11(call: Shell, wagon: Path) -> None:
    assert call("begin", wagon, "glaze light 1", "--who", "ada", *AT).code == 0
    assert in_state(call, wagon, "under way") == [1]


def test_a_piece_that_is_not_there_is_refused_with_what_there_is(call: Shell, wagon: Path) -> None:
    refused = call("finish", wagon, "glaze/lights/13", *AT)
    assert refused.code == 1
    assert 'there is no task "glaze/lights/13"' in refused.err
    none = call("finish", wagon, "putty 1-40", *AT)
    assert none.code == 1


def test_a_series_of_which_no_piece_is_so_far_is_refused(call: Shell, wagon: Path) -> None:
    refused = call("begin", wagon, "putty", "--who", "ada", *AT)
    assert refused.code == 1
    assert 'no piece of "Putty" is ready' in refused.err


def test_several_pieces_fail_with_one_reason(call: Shell, wagon: Path) -> None:
    failed = call("fail", wagon, "lights/2-3", "--why", "cracked", *AT)
    assert failed.code == 0, failed.err
    assert in_state(call, wagon, "set aside") == [2, 3]


def test_why_of_a_series_tells_each_piece_shortly(call: Shell, wagon: Path) -> None:
    call("begin", wagon, "glaze/lights/1-2", "--who", "ada", *AT)
    call("finish", wagon, "glaze/lights/1", *AT)
    why = " ".join(call("why", wagon, "putty", "--at", "2026-05-02T10:00").out.split())
    assert "Light 1: ready" in why
    assert 'Light 2: waiting: "Glaze the sashes: Light 2": under way' in why
    then = call("then", wagon, "putty", "--at", "2026-05-02T10:00").out
    assert 'frees "Wash the glass"' in then
    sheet = call("task", wagon, "glaze", "--at", "2026-05-02T10:00").out
    assert "1 of 12 pieces finished" in sheet
    form = call("why", wagon, "putty", "--at", "2026-05-02T10:00", "--json").form
    assert (form["what"], form["of"], len(form["tasks"])) == ("series", 12, 12)


def test_the_vehicle_and_what_waits_tell_a_series_once(call: Shell, wagon: Path) -> None:
    tree = call("vehicle", wagon, "--tasks", "--at", "2026-05-02T10:00").out
    assert "Glaze the sashes" in tree
    assert "0 of 12" in tree
    assert "Lights 1-12 ready" in tree
    file = wagon / "components/windows.toml"
    strip = (
        'each = ["lights"]\nafter = ["strip"]\nhours = [1, 2, 3]\n[tasks.strip]\ntitle = "Strip"\n'
    )
    file.write_text(WINDOWS.replace('each = ["lights"]\nhours = [1, 2, 3]\n', strip))
    day = call("day", wagon, "--at", "2026-05-02T10:00").out
    waits = '"Glaze the sashes: Lights 1-12"; "Putty: Lights 1-12"; "Wash the glass"'
    assert waits in " ".join(day.split())


def test_a_name_of_several_series_is_answered_by_the_series(call: Shell, wagon: Path) -> None:
    asked = call("why", wagon, "lights", *AT[:2])
    assert asked.code == 1
    assert '"Glaze the sashes" (windows/glaze), "Putty" (windows/putty)' in asked.err
    one = call("why", wagon, "light 3", *AT[:2])
    assert '"Putty: Light 3" (windows/putty/lights/3)' in one.err


def test_a_light_that_does_not_exist_is_answered_by_those_that_do(call: Shell, wagon: Path) -> None:
    for typed in ("lights/13", "light 13", "windows/lights/13"):
        asked = call("fail", wagon, typed, "--why", "cracked", *AT)
        assert asked.code == 1
        assert f'there is no piece "{typed}"; there are windows/lights/1 to 12' in asked.err


def test_what_finishing_one_frees_names_a_series_once(call: Shell, wagon: Path) -> None:
    file = wagon / "components/windows.toml"
    file.write_text(file.read_text() + '[tasks.measure]\ntitle = "Measure"\n')
    file.write_text(
        file.read_text().replace(
            'each = ["lights"]\n', 'each = ["lights"]\nafter = ["measure"]\n', 1
        )
    )
    told = " ".join(call("day", wagon, *AT[:2]).out.split())
    assert 'frees "Glaze the sashes: Lights 1-12"' in told
    then = call("then", wagon, "measure", *AT[:2]).out
    assert "Glaze the sashes: Lights 1-12 (Windows)  [windows/glaze]" in then


def test_why_says_of_a_piece_that_failed_that_its_work_is_no_more(call: Shell, wagon: Path) -> None:
    for words in (("begin", "glaze/lights/1", "--who", "ada"), ("finish", "glaze/lights/1")):
        assert call(words[0], wagon, *words[1:], *AT).code == 0
    assert call("fail", wagon, "lights/1", "--why", "cracked", *AT).code == 0
    assert "Light 1: finished: Light 1 failed: cracked" in call("why", wagon, "glaze", *AT[:2]).out
