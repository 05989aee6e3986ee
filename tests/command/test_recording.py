"""The commands that write: each kind of entry, what is refused, and what a correction leaves."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import (
    Arrived,
    Begun,
    CheckSigned,
    ClosedDay,
    Expected,
    Extended,
    Finished,
    GuestCame,
    GuestHours,
    GuestLeft,
    HazardRuledOut,
    HoldStarted,
    HoursLeft,
    HoursWorked,
    Incident,
    LetGo,
    Noted,
    OpenUntil,
    Ordered,
    PieceFailed,
    Planned,
    Reading,
    Released,
    Reopened,
    SentBack,
    SetAside,
    SignIn,
    SignOut,
    Steamed,
    Stopped,
    TakenBack,
    TookPlace,
    Training,
    Used,
)
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.plan.duration import Duration
from tests.command.calling import Shell
from tests.naughty import RECORD

AT = ("--at", "2026-05-16T10:00", "--by", "ada")
DAY = "days/2026/2026-05-16.toml"
CALLS: list[tuple[list[str], Any]] = [
    (["sign-in", "tom", "--note", "by bus"], SignIn("tom", "by bus")),
    (["expect", "tom", "--not-coming"], Expected("tom", False)),
    (["hours", "ada", "3,5", "scrape"], HoursWorked("ada", 3.5, "frame/scrape")),
    (["hours", "ada", "1", "--note", "swept"], HoursWorked("ada", 1.0, "", "swept")),
    (["reopen", "scrape", "--why", "rust"], Reopened("frame/scrape", "rust")),
    (["hours-left", "lay", "12", "--why", "split"], HoursLeft("deck/lay", 12.0, "split")),
    (["set-aside", "lay", "--why", "no oak"], SetAside("deck/lay", "no oak")),
    (["set-aside", "lay", "--back"], SetAside("deck/lay", "", True)),
    (
        ["hold", "glue", "--task", "lay", "--lasts", "36 hours", "--leave-alone"],
        HoldStarted("glue", "deck/lay", "", Duration(0, 0, 36 * 60), "", True),
    ),
    (
        ["hold", "inspection", "--component", "deck", "--why", "booked"],
        HoldStarted("inspection", "", "deck", None, "", False, "booked"),
    ),
    (["reading", "--celsius", "-2", "--humidity", "70"], Reading(-2.0, 70.0)),
    (["reading", "--fahrenheit", "50"], Reading(10.0, None)),
    (["ordered", "oak", "--due", "2026-06-01"], Ordered("oak", datetime(2026, 6, 1).date())),
    (["arrived", "oak boards"], Arrived("oak")),
    (
        ["arrived", "oak", "--amount", "2,5", "--unlike", "ash", "--defects", "bowed"],
        Arrived("oak", 2.5, "ash", "bowed"),
    ),
    (["sent-back", "oak", "--amount", "2", "--why", "bowed"], SentBack("oak", 2, "bowed")),
    (["used", "oak", "--amount", "3", "--task", "lay"], Used("oak", "deck/lay", 3)),
    (["note", "old holes", "--component", "deck"], Noted("old holes", "", "deck")),
    (
        ["incident", "a clamp fell", "--injury", "--who", "tom", "--seen-by", "ada", "tom"],
        Incident("a clamp fell", True, "", "", ("tom",), ("ada", "tom")),
    ),
]


def acts_of(van: Path, day: str = "2026-05-16") -> list[Any]:
    days = Folder(van).logbook.days
    return [entry.act for entry in days[datetime.fromisoformat(day).date()].entries]


@pytest.mark.parametrize(("typed", "act"), CALLS, ids=lambda value: str(value)[:40])
def test_each_command_writes_what_it_says(
    call: Shell, van: Path, typed: list[str], act: object
) -> None:
    name, *rest = typed
    ended = call(name, van, *rest, *AT)
    assert ended.err == ""
    assert ended.code == 0
    assert acts_of(van) == [act]
    assert Folder(van).faults == []


def test_a_signature_names_hazard_check_and_signer(call: Shell, van: Path) -> None:
    checks = call("task", van, "scrape", *AT[:2], "--json").form["checks"]
    before = next(each for each in checks if each["check"] == "heat")
    call("sign-in", van, "ada", *AT)
    assert call("reopen", van, "scrape", "--why", "a corner was missed", *AT).code == 0
    why = ("--does-not-apply", "--why", "no heat is used at all")
    ended = call("sign", van, "scrape", before["check"], *why, *AT)
    assert ended.err == ""
    act = acts_of(van)[-1]
    assert act == CheckSigned(
        before["hazard"], before["check"], "ada", "frame/scrape", False, "no heat is used at all"
    )


def test_holds_are_extended_and_released_by_task_or_id(call: Shell, van: Path) -> None:
    at = ("--at", "2026-05-02T15:30", "--by", "ada")
    assert call("extend", van, "prime", "--by-span", "2 days", "--why", "damp", *at).code == 0
    assert call("extend", van, "k7f3q2mn", "--until", "2026-05-12", "--why", "x", *at).code == 0
    assert call("release", van, "prime", "--why", "the label allows it", *at).code == 0
    assert acts_of(van, "2026-05-02")[-3:] == [
        Extended("k7f3q2mn", Duration(0, 2, 0), None, "damp"),
        Extended("k7f3q2mn", None, datetime(2026, 5, 12, 9), "x"),
        Released("k7f3q2mn", "the label allows it"),
    ]


def test_a_day_from_first_to_last(call: Shell, van: Path) -> None:
    grown_up(van)

    def at(clock: str) -> tuple[str, ...]:
        return ("--at", f"2026-05-16T{clock}", "--by", "ada")

    assert call("sign-in", van, "ada", "tom", *at("09:00")).code == 0
    assert call("arrived", van, "oak", *at("09:05")).code == 0
    # The shop was last read two weeks ago: the primer is looked at before it is worked on.
    assert "due for a look" in call("begin", van, "lay", "--who", "ada", *at("09:10")).err
    assert call("release", van, "prime", "--why", "hard", *at("09:10")).code == 0
    # Nobody signed that the lead paint was cleaned up after the scraping: a lead answers for it.
    clean = ("--despite", "wiped wet on the second of May")
    assert call("begin", van, "lay", "--who", "ada", "tom", *clean, *at("09:10")).code == 0
    assert call("hours", van, "ada", "5", "lay", *at("15:00")).code == 0
    assert call("finish", van, "lay", *at("15:10")).code == 0
    assert call("sign-out", van, "tom", *at("15:20")).code == 0
    closing = call("close-day", van, "--despite", "the lamps stay on", *at("15:30"))
    assert closing.err == ""
    assert acts_of(van) == [
        SignIn("ada"), SignIn("tom"), Arrived("oak"), Released("k7f3q2mn", "hard"),
        Begun("deck/lay", ("ada", "tom"), clean[1]),
        HoursWorked("ada", 5.0, "deck/lay"), Finished("deck/lay"), SignOut("tom"),
        ClosedDay("the lamps stay on"), SignOut("ada"),
    ]  # fmt: skip
    form = call("day", van, "--at", "2026-05-16T16:00", "--json").form
    assert form["logged"]["closed"] is True
    assert [each["who"] for each in form["here"]] == []


def test_what_is_refused_says_why_and_writes_nothing(call: Shell, van: Path) -> None:
    before = {path: path.read_bytes() for path in van.rglob("*.toml")}
    ended = call("begin", van, "trim", "--who", "ada", *AT)
    assert ended.code == 1
    assert ended.out == ""
    assert '"Trim the boards" cannot begin yet. First: "Prime the sills"' in ended.err
    assert "Oak boards" in ended.err
    form = call("begin", van, "trim", "--who", "ada", *AT, "--json").form
    assert form["what"] == "refused"
    assert set(form["refused"][0]) == {"code", "says", "mend", "yields", "steps", "lead", "not_by"}
    assert {path: path.read_bytes() for path in van.rglob("*.toml")} == before


def grown_up(van: Path) -> None:
    """Without an under-18 on the task nothing but the order of work stands against it."""
    crew = van / "crew.toml"
    crew.write_text(crew.read_text().replace("eighteen_on = 2027", "eighteen_on = 2020"))


def test_a_named_persons_reason_overrules_what_yields(call: Shell, van: Path) -> None:
    grown_up(van)
    call("sign-in", van, "ada", "tom", *AT)
    refused = call("begin", van, "trim", "--who", "ada", "tom", *AT)
    assert "--despite" in refused.err
    assert refused.code == 1
    kept = call("begin", van, "trim", "--who", "ada", "tom", "--despite", "dry run", *AT)
    assert kept.err == ""
    assert kept.code == 0
    unnamed = call("begin", van, "lay", "--who", "ada", "tom", "--despite", "x", "--at", AT[1])
    assert unnamed.code == 1


def test_what_was_kept_is_told_with_its_id_and_file(call: Shell, van: Path) -> None:
    form = call("hours", van, "ada", "3", "scrape", *AT, "--json").form
    (entry,) = form["entries"]
    assert form["what"] == "kept"
    assert form["files"] == [DAY]
    assert entry["id"] in (van / DAY).read_text()
    assert (entry["kind"], entry["who"], entry["hours"], entry["day"]) == (
        "hours", "ada", 3, "2026-05-16"
    )  # fmt: skip
    assert entry["counts"] is True


def test_a_correction_is_a_new_line_and_the_old_one_stays(call: Shell, van: Path) -> None:
    call("hours", van, "ada", "3", "scrape", *AT)
    first = (van / DAY).read_text()
    line = call("log", van, "--day", "2026-05-16", "--json").form["entries"][0]["id"]
    ended = call("correct", van, line[:5], "--set", "hours=4.5", "note=with Tom", "--by", "tom")
    assert ended.err == ""
    assert (van / DAY).read_text().startswith(first)
    assert acts_of(van)[-1] == HoursWorked("ada", 4.5, "frame/scrape", "with Tom")
    ended = call("take-back", van, line, "--why", "twice", "--by", "ada")
    assert ended.err == ""
    assert isinstance(acts_of(van)[-1], TakenBack)
    assert call("day", van, *AT[:2], "--json").form["logged"]["hours"] == []


def test_a_correction_starts_from_the_last_wording(call: Shell, van: Path) -> None:
    call("hours", van, "ada", "3", "scrape", *AT)
    first = call("log", van, "--day", "2026-05-16", "--json").form["entries"][0]["id"]
    call("correct", van, first, "--set", "hours=4.5", "at=11:00", "--by", "tom")
    ended = call("correct", van, first, "--set", "note=with Tom", "--by", "tom")
    assert ended.err == ""
    assert acts_of(van)[-1] == HoursWorked("ada", 4.5, "frame/scrape", "with Tom")
    entries = call("log", van, "--day", "2026-05-16", "--json").form["entries"]
    # A time alone means that time on the entry's own day.
    assert [each["at"] for each in entries if each["counts"]] == ["2026-05-16T11:00:00"]


def test_a_correction_takes_names_and_figures_as_the_commands_do(call: Shell, van: Path) -> None:
    call("hours", van, "ada", "3", "scrape", *AT)
    first = call("log", van, "--day", "2026-05-16", "--json").form["entries"][0]["id"]
    ended = call(
        "correct", van, first, "--set", "hours=2:30", "who=Tom", "task=lay", "note=", *AT[2:]
    )
    assert ended.err == ""
    assert acts_of(van)[-1] == HoursWorked("tom", 2.5, "deck/lay")


@pytest.mark.parametrize(
    ("typed", "hours"), [("2:30", 2.5), ("2,5", 2.5), ("2.5 h", 2.5), ("150 min", 2.5)]
)
def test_hours_are_typed_for_a_command_as_in_the_hours_table(
    call: Shell, van: Path, typed: str, hours: float
) -> None:
    assert call("hours", van, "ada", typed, "scrape", *AT).err == ""
    assert acts_of(van) == [HoursWorked("ada", hours, "frame/scrape")]


@pytest.mark.parametrize(
    ("setting", "celsius"),
    [("celsius=20", 20.0), ("temperature=68", 20.0), ("fahrenheit=68", 20.0)],
)
def test_an_imperial_folder_takes_fahrenheit_and_shows_it(
    call: Shell, van: Path, setting: str, celsius: float
) -> None:
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("[", 'units = "imperial"\n[', 1))
    option, _, typed = setting.partition("=")
    ended = call("reading", van, f"--{option}", typed, *AT)
    assert ended.err == ""
    assert "shop reading: 68 °F" in ended.out
    assert acts_of(van) == [Reading(celsius, None)]


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        (["hours=lots"], '"lots" is not a number of hours'),
        (["houres=4"], '"houres" is not known here; did you mean "hours"?'),
        (["kind=note"], "cannot be set"),
        (["hours"], "cannot be set"),
        (["at=yesterday"], "is not a moment"),
    ],
)
def test_a_correction_that_makes_no_sense_is_refused(
    call: Shell, van: Path, settings: list[str], says: str
) -> None:
    ended = call("correct", van, "k7f3q2mr", "--set", *settings, "--by", "ada")
    assert ended.code in (1, 2)
    assert says in ended.err


def test_every_kind_of_entry_has_a_command() -> None:
    written = {type(act) for _, act in CALLS}
    others = {Begun, Finished, SignOut, Extended, Released, CheckSigned, ClosedDay, TakenBack}
    # Held to their facts by tests of their own.
    others |= {PieceFailed, TookPlace, OpenUntil, LetGo, HazardRuledOut}
    others |= {Training, GuestCame, GuestLeft, GuestHours, Steamed, Stopped}
    others |= {Planned}  # tests/command/test_take_over.py
    others |= {kind.act for kind in RECORD}  # tests/text_is_data/test_typed.py, tests/intake
    assert written | others == set(KINDS_OF_ENTRY)


def test_the_writer_may_stand_in_the_environment(
    call: Shell, van: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CREWBOARD_BY", "Ada")
    assert call("sign-in", van, "tom", "--at", "2026-05-16T09:00").code == 0
    assert 'by = "ada"' in (van / DAY).read_text()


def test_the_first_entry_of_a_day_keeps_a_copy_that_brings_the_folder_back(
    call: Shell, van: Path
) -> None:
    before = {path.relative_to(van): path.read_bytes() for path in van.rglob("*.toml")}
    call("hours", van, "ada", "3", "scrape", "--by", "ada", "--at", "2026-05-02T16:00")
    (copy,) = call("copies", van).out.splitlines()
    name = copy.split()[0]
    shown = call("restore", van, name)
    assert shown.out == "days/2026/2026-05-02.toml: gets its old text back\n"
    assert "Nothing was changed" in shown.err
    assert call("restore", van, name, "--do-it").code == 0
    assert {p.relative_to(van): p.read_bytes() for p in van.rglob("*.toml")} == before
    assert len(call("copies", van).out.splitlines()) == 2


def test_an_entry_is_kept_even_where_the_days_copy_cannot_be(call: Shell, van: Path) -> None:
    (van / ".crewboard").write_text("a file where the copies should be")
    ended = call("sign-in", van, "tom", *AT)
    assert ended.code == 0
    assert "the day's copy of the folder was not made" in ended.err
    assert acts_of(van) == [SignIn("tom")]


def test_a_crew_may_do_without_copies(call: Shell, van: Path) -> None:
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1", "format = 1\ncopies_days = 0"))
    assert call("sign-in", van, "tom", *AT).err == ""
    assert not (van / ".crewboard").exists()


def test_copies_that_a_sync_left_are_folded_in_entry_by_entry(call: Shell, van: Path) -> None:
    day = van / "days/2026/2026-05-02.toml"
    odd = day.with_name("2026-05-02 (conflicted copy of the laptop).toml")
    line = 'zzzzzzz2 = { at = 2026-05-02T14:00:00, by = "tom", kind = "sign-in", who = "tom" }\n'
    odd.write_text(day.read_text() + line)
    assert call("check", van, *AT[:2]).code == 1
    shown = call("fold", van)
    assert "1 entry that days/2026/2026-05-02.toml has not" in shown.out
    assert odd.exists()
    assert call("fold", van, "--do-it").code == 0
    assert not odd.exists()
    assert line in day.read_text()
    assert call("check", van, *AT[:2]).code == 0


def test_a_copy_that_says_something_else_stays_and_is_named(call: Shell, van: Path) -> None:
    day = van / "days/2026/2026-05-02.toml"
    odd = day.with_name("2026-05-02-laptop.toml")
    odd.write_text(day.read_text().replace("hours = 2.5", "hours = 7.5"))
    ended = call("fold", van, "--do-it")
    assert ended.code == 1
    assert "both say otherwise of k7f3q2mm" in ended.out
    assert odd.exists()


def test_a_new_folder_opens_without_a_mistake(call: Shell, tmp_path: Path) -> None:
    made = call(
        "new", tmp_path / "bus", "--name", 'Our "bus" [1]', "--people", "Ada Holt", "Tom Reed",
        "--components", "frame", "Roof deck", "--every", "wednesday",
    )  # fmt: skip
    assert made.code == 0, made.err
    assert "vehicle.toml" in made.out.splitlines()
    assert call("check", tmp_path / "bus").code == 0
    out = call("day", tmp_path / "bus", "--at", "2026-05-06T10:00").out
    assert out.startswith('Our "bus" [1]: Wed 6 May 2026 10:00\nWork day')
    plain = call("new", tmp_path / "our-van")
    assert plain.code == 0
    assert call("day", tmp_path / "our-van").out.startswith("Our van: ")
    again = call("new", tmp_path / "bus", "--name", "Other")
    assert again.code == 1
    assert "holds a vehicle already" in again.err
