"""What stands only in a file beside those that are read may hold work back; a loss that nobody saw
happen makes no hold shorter."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell

pytestmark = pytest.mark.usefixtures("begun")

AT = ("--at", "2026-05-09T15:30")
DAY = "days/2026/2026-05-02.toml"
DECK = "components/deck.toml"
HELD = 'fghjkmnp = { at = 2026-05-02T15:12:00, by = "tom", kind = "extended", hold = "k7f3q2mn", '
HELD += 'lasts = "2 months", why = "still soft" }\n'


def ready(call: Shell, van: Path) -> list[str]:
    tasks = call("day", van, "--json", *AT).form["tasks"]
    return [task["id"] for task in tasks if task["state"] == "ready"]


def first(call: Shell, van: Path) -> str:
    return " ".join(call("day", van, *AT).out.split())


@pytest.mark.parametrize(
    "name",
    [
        "2026-05-02.TOML",
        "2026-05-02.toml.bak",
        "2026-05-02.toml~",
        "2026-05-02 (1).toml",
        "2025/2026-05-02.toml",
    ],
)
def test_a_day_that_lies_beside_its_place_holds_until_it_is_folded_in(
    van: Path, call: Shell, name: str
) -> None:
    other = van / "days/2026" / name
    other.parent.mkdir(exist_ok=True)
    (van / DAY).rename(other)
    told = first(call, van)
    assert "entries stand in it alone" in told
    assert "crewboard fold" in told
    assert ready(call, van) == []
    assert call("fold", van, "--do-it").code == 0
    assert "ON HOLD" not in first(call, van)


def test_a_copy_of_a_day_that_has_an_entry_of_its_own_holds(van: Path, call: Shell) -> None:
    text = (van / DAY).read_text(encoding="utf-8")
    (van / "days/2026/2026-05-02 (conflict of the laptop).toml").write_text(text + HELD)
    holds = call("holds", van, "--json", *AT).form["holds"]
    assert [hold["until"] for hold in holds] == [None]
    assert "1 entry stands in it alone" in first(call, van)


def test_a_copy_of_a_day_that_has_nothing_of_its_own_holds_nothing(van: Path, call: Shell) -> None:
    before = ready(call, van)
    (van / f"{DAY}.orig").write_bytes((van / DAY).read_bytes())
    assert "ON HOLD" not in first(call, van)
    assert ready(call, van) == before


def test_a_copy_of_a_day_that_cannot_be_read_holds(van: Path, call: Shell) -> None:
    (van / "days/2026/2026-05-02 (1).toml").write_text("date = 2026-05-02\n[entr", encoding="utf-8")
    assert "2026-05-02 (1).toml cannot be read" in first(call, van)
    assert ready(call, van) == []


@pytest.mark.parametrize("how", ["cut off", "renamed"])
def test_lines_lost_between_two_looks_leave_the_end_of_a_hold_open(
    van: Path, call: Shell, how: str
) -> None:
    day = van / DAY
    text = day.read_text(encoding="utf-8")
    day.write_text(text + HELD, encoding="utf-8")
    assert call("note", van, "seen", "--by", "ada", "--at", "2026-05-09T15:00").code == 0
    if how == "cut off":
        day.write_text(text, encoding="utf-8")
    else:
        day.rename(day.with_name("2026-05-02.toml.bak"))
        day.write_text(text, encoding="utf-8")
    holds = call("holds", van, "--json", *AT).form["holds"]
    assert [(hold["until"], hold["stage"]) for hold in holds] == [(None, "running")]
    assert "when it was last read is shown" not in first(call, van)


def test_a_component_cut_off_before_a_task_that_was_worked_on_holds(van: Path, call: Shell) -> None:
    assert call("note", van, "seen", "--by", "ada", "--at", "2026-05-09T15:00").code == 0
    frame = van / "components/frame.toml"
    text = frame.read_text(encoding="utf-8")
    frame.write_text(text[: text.index("[tasks.prime]")], encoding="utf-8")
    told = first(call, van)
    assert "frame/prime, worked on, that stood here at the last look is gone" in told
    assert ready(call, van) == []
    meant = ("meant", van, "--why", "done by the wheelwright", "--by", "ada", *AT)
    assert call(*meant).code == 0
    assert "ON HOLD" not in first(call, van)


def test_a_task_nobody_worked_on_may_be_taken_out_by_hand(van: Path, call: Shell) -> None:
    assert call("note", van, "seen", "--by", "ada", "--at", "2026-05-09T15:00").code == 0
    deck = van / DECK
    text = deck.read_text(encoding="utf-8")
    deck.write_text(text[: text.index("[tasks.trim]")], encoding="utf-8")
    assert "ON HOLD" not in first(call, van)


def test_a_copy_of_a_component_is_told_once_and_speaks_of_its_original(
    van: Path, call: Shell
) -> None:
    text = (van / DECK).read_text(encoding="utf-8")
    copy = van / "components/deck (1).toml"
    copy.write_text(text, encoding="utf-8")
    assert "ON HOLD" not in first(call, van)
    copy.write_text(text.replace("[2, 4]", "[3, 4]"), encoding="utf-8")
    assert first(call, van).count("ON HOLD") == 1
    tasks = {task["id"]: task for task in call("day", van, "--json", *AT).form["tasks"]}
    assert tasks["deck/lay"]["unreadable"]
    assert not tasks["frame/scrape"]["unreadable"]


def test_a_copy_of_the_crews_own_sheets_that_stands_alone_keeps_their_tasks_shut(
    van: Path, call: Shell
) -> None:
    text = (van / DECK).read_text(encoding="utf-8")
    (van / DECK).write_text(f'{text}hazards = ["lead-paint"]\n', encoding="utf-8")
    (van / "hazards.toml").rename(van / "hazards (1).toml")
    assert "hazards (1).toml seems to be a copy of it" in first(call, van)
    tasks = {task["id"]: task for task in call("day", van, "--json", *AT).form["tasks"]}
    assert tasks["deck/trim"]["unreadable"]
    assert call("fold", van, "--do-it").code == 0
    assert "ON HOLD" not in first(call, van)


@pytest.mark.parametrize("report", [("hours",), ("hours", "--as", "csv"), ("calendar",)])
def test_a_report_of_rows_or_dates_says_on_the_other_stream_what_it_could_not_read(
    van: Path, call: Shell, report: tuple[str, ...]
) -> None:
    kind, *form = report
    (van / DAY).write_text("date = = 3\n", encoding="utf-8")
    told = call("report", kind, van, *form, *AT)
    assert told.code == 0
    assert "ON HOLD: Sat 2 May 2026 cannot be read: line 1" in told.err
    assert "cannot be read" not in told.out


def test_a_vehicle_in_capitals_and_a_folder_in_capitals_name_the_command_that_mends_them(
    van: Path, call: Shell
) -> None:
    (van / "components").rename(van / "Components")
    assert "crewboard fold gives it its name" in first(call, van)
    (van / "vehicle.toml").rename(van / "VEHICLE.TOML")
    told = call("day", van, *AT)
    assert told.code == 1
    assert "VEHICLE.TOML seems to be a copy of it: crewboard fold" in told.err
    assert call("fold", van, "--do-it").code == 0
    assert "ON HOLD" not in first(call, van)
