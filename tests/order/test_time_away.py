"""Weeks that are known beforehand: holidays of the crew, and when somebody is away."""

from __future__ import annotations

from datetime import date, datetime, time

import pytest

from crewboard.folder.read.keys import CREW_KEYS
from crewboard.folder.read.lists import decode_crew
from crewboard.folder.read.vehicle_file import decode_vehicle
from crewboard.logbook.acts import Expected, SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.attendance import attendance
from crewboard.order.forecast.comers import Comers
from crewboard.order.forecast.forecast import forecast, model_of
from crewboard.order.presence import coming
from crewboard.order.programme.programme import programme
from crewboard.plan.time_away import TimeAway
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.small_plans import board, logbook, plan, task

SATURDAYS = WorkDays((parse_rule("saturday"),))
AUGUST = TimeAway(date(2026, 8, 1), date(2026, 8, 31))


@pytest.mark.parametrize(
    ("away", "on", "off"),
    [
        (AUGUST, ["2026-08-01", "2026-08-31"], ["2026-07-31", "2026-09-01", "2027-08-10"]),
        (
            TimeAway(date(2026, 12, 20), date(2027, 1, 6), each_year=True),
            ["2026-12-20", "2027-01-06", "2027-12-20", "2028-01-06", "2031-01-01"],
            ["2026-01-03", "2026-12-19", "2027-01-07", "2027-12-19"],
        ),
        (
            TimeAway(date(2028, 2, 29), date(2028, 3, 2), each_year=True),
            ["2028-02-29", "2029-02-28", "2029-03-02", "2032-02-29"],
            ["2028-02-28", "2029-02-27", "2032-02-28"],
        ),
    ],
)
def test_which_days_they_are(away: TimeAway, on: list[str], off: list[str]) -> None:
    days = {day: away.holds_on(date.fromisoformat(day)) for day in (*on, *off)}
    assert days == {day: day in on for day in (*on, *off)}


def test_no_rule_makes_a_work_day_in_the_holidays_but_a_day_that_is_named_is_one() -> None:
    extra = date(2026, 8, 12)
    days = SATURDAYS._replace(holidays=(AUGUST,), also=((extra, None),))
    ahead = list(days.coming(date(2026, 7, 25), 45))
    assert ahead == [date(2026, 7, 25), extra, date(2026, 9, 5)]


CREW = [
    Volunteer("ada", "Ada", away=(AUGUST,)),
    Volunteer("tom", "Tom"),
    Volunteer("eve", "Eve", joined=date(2026, 7, 25)),
]


def in_august(*said: tuple[datetime, Expected]) -> Board:
    """Ada and Tom came each Saturday, but Ada not on the first of August; Eve since she joined."""
    came = [
        (datetime.combine(day, time(9)), SignIn(who))
        for day in SATURDAYS.coming(date(2026, 6, 6), 60)
        for who in ("ada", "tom", "eve")
        if (who != "ada" or not AUGUST.holds_on(day)) and (who != "eve" or day.month > 7)
    ]
    of = plan([task("c/a", 400)], crew=CREW, work_days=SATURDAYS)
    return board(of, datetime(2026, 8, 8, 7), logbook(*came, *said))


def test_who_is_away_is_not_expected_unless_they_say_so_and_who_just_joined_is() -> None:
    assert coming(in_august()) == ["tom", "eve"]
    assert coming(in_august((datetime(2026, 8, 8, 6), Expected("ada", True)))) == [
        *("ada", "tom", "eve")
    ]
    people = {day.date.day: day.people for day in programme(in_august(), 5).days}
    assert people == {
        8: ("tom", "eve"),
        15: ("tom", "eve"),
        22: ("tom", "eve"),
        29: ("tom", "eve"),
        5: ("ada", "tom", "eve"),
    }


def test_the_courses_of_the_forecast_keep_to_it_and_do_not_hold_it_against_anybody() -> None:
    on = in_august()
    its = attendance(on, ["ada", "tom", "eve"])
    assert its.people[0].stayed_away == 0
    from random import Random

    for seed in range(20):
        comers = Comers(its, date(2026, 8, 8), Random(seed))
        came = {day: comers.on(day) & 1 for day in SATURDAYS.coming(date(2026, 8, 8), 150)}
        assert not any(came[day] for day in came if day.month == 8)
        assert any(came.values())


def test_holidays_of_each_year_make_the_dates_later() -> None:
    summers = TimeAway(date(2026, 8, 9), date(2026, 12, 31), each_year=True)
    ends = []
    for days in (SATURDAYS, SATURDAYS._replace(holidays=(summers,))):
        on = in_august()
        of = on.plan._replace(vehicle=on.plan.vehicle._replace(work_days=days))
        there = board(of, on.at, on.logbook)
        ends.append(forecast(there, 40).as_planned.even)
        assert model_of(there).work_days == days
    first, later = ends
    assert first is not None
    assert later is not None
    assert (later - first).days > 80


@pytest.mark.parametrize(
    ("written", "says"),
    [
        (3, '"away" is a number'),
        ([3], '"away" holds a number'),
        ([{"from": date(2026, 8, 1)}], '"until" is missing here'),
        ([{"from": date(2026, 8, 2), "until": date(2026, 8, 1)}], "before it begins"),
        (
            [{"from": date(2026, 8, 2), "until": date(2027, 8, 2), "each_year": True}],
            "longer than a year",
        ),
        ([{"from": date(2026, 8, 1), "until": "August"}], '"until" is a text'),
        ([{"from": date(2026, 8, 1), "until": date(2026, 8, 2), "y": 1}], '"y" is not known'),
    ],
)
def test_what_is_wrong_with_it_is_told(written: object, says: str) -> None:
    crew, misfits = decode_crew({"people": {"ada": {"name": "Ada", "away": written}}})
    assert len(misfits) == 1
    assert says in misfits[0].sentence
    assert len(crew["ada"].away) == (says == '"y" is not known')


def test_both_files_take_it() -> None:
    one = {"from": date(2026, 8, 1), "until": date(2026, 8, 31), "each_year": True, "why": "hay"}
    crew, wrong = decode_crew({"people": {"ada": {"name": "Ada", "away": [one]}}})
    vehicle, also_wrong = decode_vehicle({"name": "Bus", "work_days": {"holidays": [one]}})
    assert [*wrong, *also_wrong] == []
    meant = TimeAway(date(2026, 8, 1), date(2026, 8, 31), each_year=True, why="hay")
    assert crew["ada"].away == (meant,)
    assert vehicle.work_days.holidays == (meant,)
    assert "people.NAME.away.each_year" in {key.key for key in CREW_KEYS}


def test_a_calendar_that_names_no_past_day_is_forecast_all_the_same() -> None:
    on = in_august()
    work_days = WorkDays(also=((date(2026, 8, 12), None),))
    of = on.plan._replace(vehicle=on.plan.vehicle._replace(work_days=work_days))
    assert forecast(board(of, on.at, on.logbook), 20).soonest >= on.at.date()
