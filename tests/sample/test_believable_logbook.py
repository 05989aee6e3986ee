"""The sample's logbook could have happened: people, hours, order of work and checks fit."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest

from crewboard.logbook.acts import Begun, CheckSigned, ClosedDay, Finished, HoursWorked, SignIn
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.admit.rules import refusals
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.safety.closing import after_checks
from crewboard.order.safety.signing import sign_refusals
from crewboard.order.safety.unchecked import unchecked_hours
from tests.sample.marigold import AT, book, order, plan

WORK_DAYS = [day for day in book().days.values() if day.date < AT.date()]
each_day = pytest.mark.parametrize("day", WORK_DAYS, ids=lambda day: str(day.date))


def just_before(day: Day, entry: Entry) -> Board:
    """The board at the moment of an entry, knowing the lines above it and no others."""
    above = day.counting[: day.counting.index(entry)]
    days = {d: each for d, each in book().days.items() if d < day.date}
    return assess(plan(), Logbook({**days, day.date: Day(day.date, above)}), entry.at, order())


def at_the_end(day: Day) -> Board:
    return assess(plan(), book(), datetime.combine(day.date, time.max), order())


@each_day
def test_nothing_was_begun_or_finished_that_could_not_be(day: Day) -> None:
    for entry in day.counting:
        if isinstance(entry.act, Begun | Finished):
            refused = refusals(just_before(day, entry), entry.act, entry.by)
            assert [str(r) for r in refused] == [], entry


@each_day
def test_every_signature_was_given_by_somebody_who_may_give_it(day: Day) -> None:
    for entry in day.counting:
        if isinstance(entry.act, CheckSigned):
            refused = sign_refusals(just_before(day, entry), entry.act, entry.by)
            assert [str(r) for r in refused] == [], entry


@each_day
def test_nobody_worked_without_being_signed_in_or_longer_than_they_were_here(day: Day) -> None:
    here = {
        visit.who: ((visit.until or visit.since) - visit.since) / timedelta(hours=1)
        for visit in at_the_end(day).history.visits
    }
    worked: dict[str, float] = {}
    for entry in day.counting:
        if isinstance(entry.act, HoursWorked):
            worked[entry.act.who] = worked.get(entry.act.who, 0) + entry.act.hours
        if isinstance(entry.act, Begun):
            assert set(entry.act.crew) <= set(here), entry
    for who, hours in worked.items():
        assert who in here
        assert 0 < hours <= here[who]


@each_day
def test_no_hours_were_worked_without_a_signed_check(day: Day) -> None:
    assert [u.says for u in unchecked_hours(plan(), book(), day)] == []


@each_day
def test_the_day_was_closed_with_every_check_signed_and_everybody_gone(day: Day) -> None:
    end = at_the_end(day)
    assert [str(a.check.id) for a in after_checks(end) if a.open] == []
    assert end.present == []
    assert isinstance([e.act for e in day.counting if isinstance(e.act, ClosedDay)][-1], ClosedDay)


def test_only_people_who_had_joined_came() -> None:
    for day in WORK_DAYS:
        for entry in day.counting:
            if isinstance(entry.act, SignIn):
                assert plan().crew[entry.act.who].with_us_on(day.date)


def test_hours_worked_stay_near_the_estimates() -> None:
    board = assess(plan(), book(), AT, order())
    for standing in board.in_state("finished"):
        estimate = standing.task.estimate
        if standing.hours and estimate:
            assert estimate.low * 0.5 <= standing.hours <= estimate.high * 1.5, standing.task.id


def test_everybody_came_more_than_once() -> None:
    came = [e.act.who for day in WORK_DAYS for e in day.counting if isinstance(e.act, SignIn)]
    assert all(came.count(who) >= 5 for who in plan().crew)


def test_the_shop_was_open_only_on_work_days() -> None:
    closed = set(plan().vehicle.work_days.closed)
    assert not closed & set(book().days)
    assert date(2025, 6, 28) in book().days
