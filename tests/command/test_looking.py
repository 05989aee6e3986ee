"""The commands that look: what a person reads, and the JSON form key by key."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.order.assess import assess
from crewboard.order.reasons.onward import what_then
from crewboard.order.reasons.why import why
from crewboard.workbench import Workbench
from tests.command.calling import SAMPLE, Shell, process

MORNING = ("--at", "2026-05-03T10:00")
RUNNING = "On hold"
NOON = datetime(2026, 5, 2, 12, 30)


def test_the_day_says_who_is_here_what_goes_first_and_what_waits(call: Shell, van: Path) -> None:
    ended = call("day", van, "--at", "2026-05-02T09:30")
    assert ended.code == 0
    assert ended.err == ""
    lines = ended.out.splitlines()
    assert lines[0] == "Test van: Sat 2 May 2026 09:30"
    assert lines[1] == "Work day, open 09:00 to 16:00."
    assert lines[2] == "Here: Ada Test (since 09:10)"
    assert "Under way today (1)" in lines
    assert "Waiting (3)" in lines
    assert "0 of 4 tasks finished." in lines


def test_a_hold_that_is_due_and_one_that_runs_stand_apart(call: Shell, van: Path) -> None:
    days = van / "days/2026/2026-05-02.toml"
    days.write_text(
        days.read_text() + 'k7f3q2ms = { at = 2026-05-02T13:00:00, by = "ada", kind = "hold", '
        'hold = "glue", component = "deck", lasts = "2 hours" }\n'
    )
    out = call("day", van, "--at", "2026-05-02T15:30").out
    due, running = (out.index(f"\n{head} (") for head in ("Due for a look", RUNNING))
    assert due < out.index("due for a look  Deck  [k7f3q2ms]") < running
    assert running < out.index("on hold  Prime the sills  [k7f3q2mn]")
    assert 'LEAVE ALONE (2): Deck due for a look; "Prime the sills" until' in out


def test_the_day_as_json_has_every_key_that_is_promised(call: Shell) -> None:
    form = call("day", SAMPLE, "--at", "2026-05-02T09:00", "--json").form
    assert form["form"] == 1
    assert form["what"] == "day"
    board = Workbench(SAMPLE).board(datetime(2026, 5, 2, 9))
    assert form["vehicle"]["name"] == board.plan.vehicle.name
    assert form["at"] == "2026-05-02T09:00:00"
    assert form["open"] == {"opens": "09:00:00", "closes": "16:30:00"}
    assert form["next_work_day"] == "2026-05-16T09:00:00"
    assert {each["who"] for each in form["here"]} == {visit.who for visit in board.present}
    assert {each["id"]: each["state"] for each in form["tasks"]} == {
        standing.task.id: standing.state for standing in board.standings.values()
    }
    assert {each["id"]: each["stage"] for each in form["holds"]} == {
        hold.id: hold.stage for hold in board.stopping()
    }
    assert set(form) == {
        *(
            "form",
            "what",
            "vehicle",
            "at",
            "open",
            "openings",
            "called_off",
            "next_work_day",
            "here",
        ),
        *("guests", "left_short", "must_follow", "expected", "first"),
        *("tasks", "series", "jigs"),
        *(
            "holds",
            "clocks",
            "in_the_box",
            "closed_places",
            "leave_alone",
            "left_alone",
            "readings",
            "logged",
        ),
        *("mistakes", "to_sort", "unreadable"),
    }
    assert set(form["tasks"][0]) == {
        *("id", "title", "component", "series", "pieces", "state", "begun", "crew", "finished"),
        "finished_by",
        *("holds", "short_of", "jigs", "until", "hours", "left", "ask_left", "set_aside"),
        *("open_again", "held_again", "unreadable", "stopped"),
    }
    assert set(form["holds"][0]) == {
        *("id", "kind", "task", "component", "pieces", "since", "until", "stage", "release"),
        "leave_alone",
        *("share", "outside", "lost_hours", "extended", "released", "by", "note", "source"),
        *("stopped", "asks_for_look", "not_before", "unread"),
    }
    assert set(form["first"][0]) == {
        *("task", "says", "delay_hours", "behind", "lets_go", "finish_today", "not_today"),
    }
    assert any(each["extended"] for each in form["holds"])


def test_what_was_logged_that_day_is_in_the_form(call: Shell, van: Path) -> None:
    logged = call("day", van, "--at", "2026-05-02T16:00", "--json").form["logged"]
    on = {"task": "frame/scrape", "component": "", "piece": "", "other": ""}
    assert logged["hours"] == [
        {"who": "ada", "guest": "", **on, "hours": 3.0, "note": ""}  # as corrected
    ]
    assert logged["begun"] == ["frame/scrape"]
    assert logged["finished"] == ["frame/scrape", "frame/prime"]
    assert logged["signed"] == []
    assert logged["closed"] is False


def test_why_tells_the_chain_that_the_core_gives(call: Shell, van: Path) -> None:
    form = call("why", van, "trim", "--at", "2026-05-02T12:30", "--json").form
    bench = Workbench(van)
    board = assess(bench.plan, bench.logbook, NOON)
    assert form["reasons"] == [each._asdict() for each in why(board, "deck/trim")]
    out = call("why", van, "trim", "--at", "2026-05-02T12:30").out
    assert out.splitlines()[0] == '"Trim the boards": waiting'
    assert "-> Oak boards: ordered, promised for Wed 20 May 2026" in out


def test_then_tells_what_a_finish_lets_go(call: Shell, van: Path) -> None:
    form = call("then", van, "frame/prime", "--at", "2026-05-02T12:30", "--json").form
    board = Workbench(van).board(NOON)
    onward = what_then(board, "frame/prime")
    assert form["after_hold"] == list(onward.after_hold) == ["deck/lay"]
    assert form["behind"] == onward.behind == 2
    out = call("then", van, "frame/prime", "--at", "2026-05-02T12:30").out
    assert "Lay the boards (Boards)  [deck/lay]" in out
    assert "In all 2 tasks wait behind it." in out


def test_the_sheet_of_a_task_has_its_checks_and_the_caution(call: Shell, van: Path) -> None:
    out = call("task", van, "scrape", *MORNING).out
    flat = " ".join(out.split())
    assert "2 to 8 person-hours, most likely 4" in out
    assert "A check passed here authorises nothing." in flat
    assert "a second pair of gloves" in flat
    assert "Law, sources and numbers stand on its whole sheet." in flat
    assert "verified" in call("hazards", van, "lead paint").out
    form = call("task", van, "scrape", *MORNING, "--json").form
    assert form["task"]["estimate"] == [2.0, 4.0, 8.0]
    assert form["task"]["hazards"] == ["lead-paint"]
    assert {each["answer"] for each in form["checks"]} == {"unsigned"}
    assert all(each["title"] in flat for each in form["checks"])


def test_holds_vehicle_crew_and_log_tell_the_same_in_both_forms(call: Shell, van: Path) -> None:
    at = ("--at", "2026-05-02T15:30")
    hold = call("holds", van, *at, "--json").form["holds"][0]
    assert (hold["id"], hold["stage"]) == ("k7f3q2mn", "running")
    assert "extended by Ada Test" in call("holds", van, *at).out
    deck = call("vehicle", van, *at, "--json").form["components"][0]
    assert deck == {
        "id": "deck", "name": "Deck", "part_of": None, "after": ["frame"], "done": 0, "of": 2
    }  # fmt: skip
    assert "Deck  [deck]  0 of 2  0 %\n      comes after: Frame" in call("vehicle", van, *at).out
    ada = call("crew", van, *at, "--json").form["people"][0]
    assert ada["hours"] == {"month": 3.0, "year": 3.0, "in_all": 3.0}
    assert ada["here_since"] == "2026-05-02T09:10:00"
    entries = call("log", van, "--json").form["entries"]
    corrected = next(each for each in entries if each["id"] == "k7f3q2mm")
    assert (corrected["counts"], corrected["fate"]) == (False, "k7f3q2mr")
    assert "does not count: corrected by k7f3q2mr" in " ".join(call("log", van).out.split())


def test_the_log_narrows_down_by_day_person_task_and_kind(call: Shell, van: Path) -> None:
    def ids(*options: str) -> list[str]:
        return [each["id"] for each in call("log", van, *options, "--json").form["entries"]]

    assert ids("--day", "2026-05-01") == []
    assert ids("--day", "2026-05-02", "--kind", "reading") == ["k7f3q2mq"]
    assert ids("--task", "prime") == ["k7f3q2mn"]
    assert ids("--person", "ada", "--kind", "sign-in") == ["k7f3q2mh"]
    assert ids("--person", "tom") == []
    assert ids("--at", "2026-05-02T09:15") == ["k7f3q2mh"]


def test_hazard_sheets_are_listed_and_called_by_name(call: Shell, van: Path) -> None:
    assert "hot-work" in call("hazards", van).out
    sheet = call("hazards", van, "Hot Work").out
    assert sheet == call("hazards", van, "hot-work").out
    assert "Law" in sheet
    assert call("hazards", van, "hot-wok").err.endswith('did you mean "hot-work"?\n')


@pytest.mark.parametrize(
    ("said", "task"),
    [
        ("lay", "deck/lay"),
        ("deck/lay", "deck/lay"),
        ("lay the", "deck/lay"),
        ("SILLS sc", "frame/scrape"),
    ],
)
def test_a_task_may_be_called_by_what_only_it_is_called(
    call: Shell, van: Path, said: str, task: str
) -> None:
    assert call("then", van, said, "--json").form["task"] == task


def test_a_name_that_fits_several_or_none_says_so(call: Shell, van: Path) -> None:
    several = call("why", van, "the boards")
    assert several.code == 1
    assert '"Lay the boards" (deck/lay), "Trim the boards" (deck/trim)' in several.err
    none = call("why", van, "deck/lai")
    assert none.code == 1
    assert none.err == 'there is no task "deck/lai"; did you mean "deck/lay"?\n'


def test_without_a_terminal_the_folder_prints_its_day(van: Path) -> None:
    ended = process(van, "--at", "2026-05-02T09:30")
    assert ended.returncode == 0
    assert ended.stdout.startswith(b"Test van: Sat 2 May 2026 09:30")
    assert ended.stderr == b""
    here = process("--at", "2026-05-02T09:30", cwd=van)
    assert here.stdout == ended.stdout


def test_without_a_folder_the_help_is_shown(tmp_path: Path) -> None:
    ended = process(cwd=tmp_path)
    assert ended.returncode == 0
    assert b"crewboard COMMAND DIR" in ended.stdout


def test_lines_keep_to_the_width_asked_for(call: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    from crewboard.telling.drawn import cells

    for columns in ("40", "60", "80"):
        monkeypatch.setenv("COLUMNS", columns)
        lines = call("day", SAMPLE, "--at", "2026-05-02T09:00").out.splitlines()
        assert max(map(cells, lines)) <= int(columns)
        assert len(lines) > 60


def test_the_progress_of_all_components_is_the_progress_of_each() -> None:
    board = Workbench(SAMPLE).board(datetime(2026, 5, 2, 9))
    each = {component: board.progress(component) for component in board.plan.components}
    assert board.progress_of_all() == each
    assert sum(done for done, _ in each.values()) > 60


def test_the_json_of_a_task_names_the_parts_of_its_hold(call: Shell) -> None:
    form = call("task", SAMPLE, "coat-roof-hidden", "--json").form
    assert set(form["task"]["hold"]) == {
        *("kind", "lasts", "release", "leave_alone", "conditions", "note", "source"),
    }
    assert form["task"]["hold"]["kind"] == "dry"
    assert form["task"]["hold"]["lasts"] == "2 days"
    assert set(form["task"]["hold"]["conditions"]) == {
        *("at_least_c", "at_most_c", "at_least_humidity", "at_most_humidity"),
    }


def test_the_json_of_the_vehicle_has_its_tasks_where_they_are_asked_for(call: Shell) -> None:
    assert "tasks" not in call("vehicle", SAMPLE, "--json").form
    form = call("vehicle", SAMPLE, "--tasks", "--json").form
    board = Workbench(SAMPLE).board(datetime(2026, 5, 2, 9))
    assert {each["id"]: each["state"] for each in form["tasks"]} == {
        standing.task.id: standing.state for standing in board.standings.values()
    }
