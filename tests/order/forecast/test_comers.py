"""Who comes: everybody as often as they do, together as far as the log shows, and not for ever."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from math import asin, exp, pi
from random import Random
from typing import Any

import pytest

from crewboard.logbook.acts import SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.attendance import attendance, past_attendance
from crewboard.order.forecast.comers import Comers
from crewboard.order.forecast.held import Held
from crewboard.order.forecast.model import Attendance, Person
from crewboard.order.forecast.staying import BEFORE_LEFT, BEFORE_YEARS
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.small_plans import board, logbook, plan, task

SATURDAYS = WorkDays((parse_rule("saturday"),))
TODAY = date(2026, 5, 2)
AHEAD = [TODAY + timedelta(days=7 * n) for n in range(200)]
# Of everybody so much is known that their chance is sure.
ALWAYS = Held(habit=(1e6, 1e-3), open=(1e6, 1e-3))
HALF = tuple(Person(f"p{n}", 10**6, 10**6) for n in range(6))


def _days(of: Attendance, course: int, days: Iterable[date] = AHEAD) -> list[int]:
    comers = Comers(of, TODAY, Random(course))
    return [comers.on(day) for day in days]


@pytest.mark.parametrize("together", [0.0, 0.2, 0.5])
def test_together_or_not_everybody_keeps_their_chance(together: float) -> None:
    """Two signs agree with the chance 1/2 + asin(r)/pi where normal numbers correlate by r
    (Sheppard 1899): so that is how often two people both come, or both stay away."""
    of = Attendance(HALF, takes_place=ALWAYS, together=((together, 1.0),))
    days = [here for course in range(60) for here in _days(of, course)]
    for person in range(6):
        share = sum(here >> person & 1 for here in days) / len(days)
        assert share == pytest.approx(0.5, abs=0.02)
    agree = sum((here & 1) == (here >> 5 & 1) for here in days) / len(days)
    assert agree == pytest.approx(0.5 + asin(together) / pi, abs=0.02)


def test_one_more_person_changes_nobody_elses_luck() -> None:
    few = Attendance(HALF[:5], alike=0.0, together=((0.2, 1.0),), leaving=(2.0, 10.0))
    more = few._replace(people=HALF)
    for course in range(5):
        for a, b in zip(_days(few, course), _days(more, course), strict=True):
            assert a == b & 0b11111


def test_who_leaves_is_gone_until_somebody_takes_the_place() -> None:
    sure = tuple(Person(f"p{n}", 10**6, 0) for n in range(40))
    never = Attendance(sure, takes_place=ALWAYS, leaving=(5e5, 1e6), replaced=(1e-9, 1e9))
    late = [AHEAD[104]]  # two years on
    left = [_days(never, course, late)[0].bit_count() / 40 for course in range(60)]
    # One in two leaves a year; after two years some have been replaced all the same.
    assert exp(-1) - 0.01 < sum(left) / 60 < exp(-1) + 0.25
    again = never._replace(replaced=(1e9, 1e-9))
    there = [_days(again, course, late)[0].bit_count() / 40 for course in range(60)]
    # Away for half a year on the average, after two years: 0.5 / (0.5 + 2) of the time.
    assert sum(there) / 60 == pytest.approx(0.8, abs=0.04)


def _crew(came: dict[str, list[date]], **changed: Any) -> Board:
    crew = [Volunteer(who, who)._replace(**changed.get(who, {})) for who in came]
    said = sorted(
        (datetime.combine(day, time(9)), SignIn(who)) for who, days in came.items() for day in days
    )
    of = plan([task("c/a")], crew=crew, work_days=SATURDAYS)
    return board(of, datetime.combine(TODAY, time(8)), logbook(*said))


def _record(on: Board) -> Attendance:
    return attendance(on, tuple(on.plan.crew))


YEAR = [TODAY - timedelta(days=7 * n) for n in range(50, 0, -1)]


def test_who_has_not_come_for_long_has_perhaps_gone() -> None:
    on = _crew({"stays": YEAR, "went": YEAR[:25], "seldom": YEAR[::12], "new": YEAR[-2:]})
    gone = {person.id: person.gone for person in _record(on).people}
    assert gone["stays"] == 0
    assert gone["went"] > 0.95
    assert gone["seldom"] < 0.3
    assert gone["new"] == 0


def test_the_chance_that_somebody_has_gone_is_theirs_of_many_such_people() -> None:
    """Against crews that were drawn: of those who came so and so often, and not since, how many
    had left."""
    chance, gap = Random(1), 350 / 50 / 365.25
    leaves = 1 - exp(-BEFORE_LEFT / BEFORE_YEARS * gap)
    had_left: list[bool] = []
    told: list[float] = []
    while len(told) < 60:
        comes, here, days = chance.betavariate(2, 2), True, []
        for day in YEAR:
            if here and chance.random() < comes:
                days.append(day)
            here = here and chance.random() >= leaves
        if days and len(YEAR) - 1 - YEAR.index(days[-1]) in range(4, 20):
            others = {"a": YEAR, "b": YEAR, "c": YEAR}
            people = _record(_crew({"odd": days, **others})).people
            told.append(people[0].gone)
            had_left.append(not here)
    assert sum(told) / 60 == pytest.approx(sum(had_left) / 60, abs=0.13)


def test_how_often_people_leave_and_are_replaced_is_learned() -> None:
    struck = {f"l{n}": {"left": YEAR[20 + n]} for n in range(5)}
    came = {"a": YEAR, "b": YEAR, **{f"l{n}": YEAR[: 20 + n] for n in range(5)}}
    left = _record_of_today(_crew(came, **struck))
    stay = _record(_crew({"a": YEAR, "b": YEAR}))
    assert left.leaving is not None
    assert stay.leaving is not None
    assert left.leaving[0] / left.leaving[1] > 3 * stay.leaving[0] / stay.leaving[1]
    assert left.replaced[0] / sum(left.replaced) < 0.6  # nobody came for them
    joined = {f"j{n}": YEAR[25:] for n in range(5)}
    again = _record_of_today(_crew({**came, **joined}, **struck))
    assert again.replaced[0] / sum(again.replaced) > 0.9


def _record_of_today(on: Board) -> Attendance:
    return attendance(on, [v.id for v in on.plan.crew.values() if v.with_us_on(TODAY)])


def test_days_on_which_few_or_many_come_are_seen() -> None:
    people = [f"p{n}" for n in range(8)]
    alone, chance = Random(4), Random(5)
    apart = {who: [day for day in YEAR if alone.random() < 0.5] for who in people}
    luck = {day: chance.choice((0.15, 0.85)) for day in YEAR}
    grouped = {who: [day for day in YEAR if chance.random() < luck[day]] for who in people}

    def degree(of: Attendance) -> float:
        return sum(degree * chance for degree, chance in of.together)

    assert degree(_record(_crew(apart))) < 0.05
    assert degree(_record(_crew(grouped))) > 0.3


def test_a_season_that_is_known_for_little_stays_open() -> None:
    summer = [day for day in YEAR if day.month in (6, 7, 8)]
    record = _record(_crew({f"p{n}": summer[n % 2 :: 2] for n in range(4)}))
    assert record.season_doubt[0] > 1.5 * record.season_doubt[6]
    assert record.seasons[6] == pytest.approx(1.0, abs=0.01)


def test_the_past_is_played_with_who_came() -> None:
    on = _crew({"a": YEAR[::2], "b": YEAR[::4]})
    known = past_attendance(on, ["a", "b"])
    assert [known[day] for day in YEAR[:5]] == [3, 0, 1, 0, 3]
    of = Attendance(HALF, past=known)
    assert _days(of, 1, YEAR[:5]) == [3, 0, 1, 0, 3]
