"""A day of hot work, kept in a real folder: refused, mended, begun, watched, closed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import (
    Act,
    Begun,
    CheckSigned,
    ClosedDay,
    Finished,
    HoursWorked,
    SignIn,
    SignOut,
)
from crewboard.order.safety.checks import checks_of
from crewboard.order.safety.closing import after_checks
from crewboard.order.safety.opening import unopened
from crewboard.order.safety.unchecked import unchecked_hours
from crewboard.workbench import Outcome, Said, Workbench
from tests.order.safety.workshop import TODAY, at, signed

VEHICLE = """
name = "Dining trailer"
[work_days]
every = ["first saturday"]
opens = 09:00:00
closes = 16:00:00
[shop]
emergency = "the emergency number"
"""
CREW = """
[people.ada]
name = "Ada"
adult = true
lead = true
certificates = { "hot work" = 2027-01-31, "first aid" = 2027-01-31 }
[people.ben]
name = "Ben"
adult = true
[people.cy]
name = "Cy"
adult = true
[people.dot]
name = "Dot"
adult = false
"""
FRAME = """
name = "Frame"
[tasks.weld]
title = "Weld the bracket"
hazards = ["hot-work"]
[tasks.strip]
title = "Strip the door"
hazards = ["solvent-strippers"]
"""


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    (tmp_path / "components").mkdir()
    (tmp_path / "vehicle.toml").write_text(VEHICLE)
    (tmp_path / "crew.toml").write_text(CREW)
    (tmp_path / "components" / "frame.toml").write_text(FRAME)
    opened = Workbench(tmp_path)
    assert opened.faults == []
    return opened


def keep(bench: Workbench, moment: datetime, *acts: Act, by: str = "ada") -> Outcome:
    return bench.record([Said(act, moment) for act in acts], by=by, now=moment)


def sign(bench: Workbench, moment: datetime, task: str, people: Sequence[str]) -> Outcome:
    """The opening checks of the day, where they are not signed yet, and those of the task."""
    board = bench.board(moment)
    opening = [
        signed(asked, "")._replace(named=("ada",) if asked.check.names else ())
        for asked in unopened(board)
    ]
    of_task = [signed(asked, task) for asked in checks_of(board, task, people, "before")]
    return keep(bench, moment, *opening, *of_task)


def codes(outcome: Outcome) -> set[str]:
    return {refusal.code for refusal in outcome.refused}


def test_a_day_of_hot_work(bench: Workbench) -> None:
    weld = Begun("frame/weld", ("ada",), watch=("ben",))
    assert keep(bench, at(9), SignIn("ada")).kept
    alone = {"away", "people", "unsigned", "together", "unopened"}  # Ada is alone in the shop
    assert codes(keep(bench, at(9, 5), weld)) == alone
    assert keep(bench, at(9, 6), SignIn("ben"), SignIn("dot")).kept
    with_dot = Begun("frame/weld", ("ada", "ben", "dot"))
    assert codes(keep(bench, at(9, 7), with_dot)) >= {"under-18", "unsigned"}
    assert sign(bench, at(9, 10), "frame/weld", ("ada", "ben")).kept
    assert keep(bench, at(9, 15), weld).kept

    strip = keep(bench, at(10), Begun("frame/strip", ("ada", "ben")))
    assert "near" in codes(strip)

    assert keep(bench, at(11), HoursWorked("ben", 1.5, "frame/weld")).kept
    ended = CheckSigned("hot-work", "ended", "ben", "frame/weld")
    kept = CheckSigned("hot-work", "watch-kept", "ada", "frame/weld")
    assert keep(bench, at(15, 30), ended).kept
    assert codes(keep(bench, at(15, 45), kept)) == {"clock"}
    assert codes(keep(bench, at(15, 50), ClosedDay())) == {"clock", "stays", "unsigned"}
    assert keep(bench, at(16, 30), Finished("frame/weld"), kept).kept
    rest = [
        CheckSigned(a.hazard.id, a.check.id, "ada", a.task)
        for a in after_checks(bench.board(at(16, 31)))
        if a.open
    ]
    assert codes(keep(bench, at(16, 31), *rest)) == {"still-in"}
    assert keep(bench, at(16, 31), SignOut("ben"), SignOut("dot"), *rest).kept
    assert keep(bench, at(16, 32), ClosedDay()).kept
    assert unchecked_hours(bench.plan, bench.logbook) == []


def test_a_day_is_closed_inside_a_watch_only_by_a_lead_who_says_who_stays(
    bench: Workbench,
) -> None:
    assert keep(bench, at(9), SignIn("ada"), SignIn("ben")).kept
    assert sign(bench, at(9, 10), "frame/weld", ("ada", "ben")).kept
    assert keep(bench, at(14), Begun("frame/weld", ("ada",), watch=("ben",))).kept
    assert keep(bench, at(15, 40), Finished("frame/weld")).kept
    why = ClosedDay("the heating failed, the rest go home", stays="ben")
    assert "clock" in codes(keep(bench, at(16), ClosedDay()))
    assert "clock" in codes(keep(bench, at(16), why, by=""))
    assert "clock" in codes(keep(bench, at(16), why, by="ben"))
    assert "clock" in codes(keep(bench, at(16), why._replace(despite="  "), by="ada"))
    assert "stays" in codes(keep(bench, at(16), why._replace(stays=""), by="ada"))
    assert keep(bench, at(16), why, by="ada").kept
    text = (bench.folder.root / "days" / "2026" / "2026-05-02.toml").read_text()
    (line,) = [line for line in text.splitlines() if "day closed" in line]
    assert 'by = "ada"' in line
    assert "heating failed" in line
    assert 'stays = "ben"' in line


def test_no_reason_begins_what_is_unsafe(bench: Workbench) -> None:
    assert keep(bench, at(9), SignIn("ada"), SignIn("ben")).kept
    hurried = Begun("frame/weld", ("ada",), watch=("ben",), despite="the bracket is needed today")
    assert codes(keep(bench, at(10), hurried)) == {"unsigned", "unopened"}
    assert bench.board(at(10, 1))["frame/weld"].state == "ready"


def test_hours_without_checks_are_kept_and_marked(bench: Workbench) -> None:
    assert keep(bench, at(9), SignIn("ben")).kept
    assert keep(bench, at(15), HoursWorked("ben", 2, "frame/weld"), by="ben").kept
    (marked,) = unchecked_hours(bench.plan, bench.logbook, bench.logbook.days[TODAY])
    assert marked.says.startswith("worked without a signed check: area cleared of what burns, ")


def test_work_of_an_earlier_day_is_taken_up_again_with_checks_of_its_own(bench: Workbench) -> None:
    weld = Begun("frame/weld", ("ada",), watch=("ben",))
    assert keep(bench, at(9), SignIn("ada"), SignIn("ben")).kept
    assert sign(bench, at(9, 10), "frame/weld", ("ada", "ben")).kept
    assert keep(bench, at(9, 20), weld).kept
    assert codes(keep(bench, at(9, 30), weld)) == {"under-way"}

    june = date(2026, 6, 6)
    assert keep(bench, at(9, 0, june), SignIn("ada"), SignIn("ben")).kept
    assert codes(keep(bench, at(9, 5, june), weld)) == {"unsigned", "unopened"}
    assert sign(bench, at(9, 10, june), "frame/weld", ("ada", "ben")).kept
    assert keep(bench, at(9, 20, june), weld).kept


def test_somebody_takes_over_from_one_who_went_home(bench: Workbench) -> None:
    people = (SignIn("ada"), SignIn("ben"))
    assert keep(bench, at(9), *people).kept
    assert sign(bench, at(9, 10), "frame/strip", ("ada", "ben")).kept
    assert keep(bench, at(9, 20), Begun("frame/strip", ("ada", "ben"))).kept
    assert keep(bench, at(12), SignOut("ben")).kept
    alone = {"away", "people", "unsigned", "together"}  # Ada is alone in the shop now
    assert codes(keep(bench, at(12, 5), Begun("frame/strip", ("cy",)))) == alone
    assert keep(bench, at(12, 6), SignIn("cy")).kept
    assert keep(bench, at(12, 7), Begun("frame/strip", ("cy",))).kept
