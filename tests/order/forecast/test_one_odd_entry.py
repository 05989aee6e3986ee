"""One entry of another time, most often a mistyped year, moves no forecast beyond its worth."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import (
    Arrived,
    Begun,
    Expected,
    Extended,
    Finished,
    HoldStarted,
    HoursLeft,
    HoursWorked,
    Noted,
    Ordered,
    Reading,
    Reopened,
    SetAside,
    SignIn,
    SignOut,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.forecast.attendance import attendance
from crewboard.order.forecast.forecast import forecast, model_of
from crewboard.order.presence import LATELY, lately
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.long_form import cases
from tests.order.small_plans import hold, logbook, plan, task

AT = datetime(2026, 5, 2, 9)
CREW = [Volunteer(f"p{n}", f"P{n}") for n in range(4)]
JOB = plan(
    [
        *(task(f"c/done{n}", (2, 4, 8)) for n in range(12)),
        *(task(f"c/next{n}", (4, 8, 16), most_people=3) for n in range(20)),
        task("c/glue", 6.0, hold=hold("glue", "2 weeks")),
        task("c/last", 6.0, after=("c/glue",), supplies=("boards",)),
    ],
    crew=CREW,
    supplies=[Supply("boards", "Boards", lead_time=hold("cure", "6 weeks").lasts)],
    work_days=WorkDays((parse_rule("saturday"),)),
)
DAYS = [AT.date() - timedelta(days=7 * n) for n in range(60, 0, -1)]


@st.composite
def histories(draw: st.DrawFn) -> Logbook:
    """A crew that came on some of the last weeks, and finished a task on some of those days."""
    days = draw(st.lists(st.sampled_from(DAYS), min_size=4, max_size=24, unique=True))
    said: list[tuple[datetime, Any]] = []
    for number, day in enumerate(sorted(days)):
        opens = datetime.combine(day, time(9))
        who = draw(st.sets(st.sampled_from([one.id for one in CREW]), min_size=1))
        said += [(opens, SignIn(one)) for one in sorted(who)]
        if number < 12:
            said += [
                (opens + timedelta(hours=5), HoursWorked(one, 2.0, f"c/done{number}"))
                for one in who
            ]
            said.append((opens + timedelta(hours=6), Finished(f"c/done{number}")))
    return logbook(*said)


# Of people, of the shop, of what was noted: nothing of where the work stands.
OF_PEOPLE = [
    SignIn("p0"),
    SignOut("p1"),
    HoursWorked("p2", 8.0),
    Noted("seen"),
    Reading(2.0, 90.0),
    Expected("p3"),
]
OF_WORK = [
    HoursWorked("p0", 6.0, "c/next1"),
    Begun("c/next1", ("p0",)),
    Finished("c/next1"),
    Finished("c/glue"),
    HoursLeft("c/next1", 3.0),
    Reopened("c/done1"),
    SetAside("c/next1", "no wood"),
    Ordered("boards", due=date(2026, 6, 1)),
    Arrived("boards"),
    HoldStarted("glue", task="c/next1", lasts=hold("glue", "2 days").lasts, why="wet"),
    Extended("e1", why="wet", lasts=hold("glue", "2 days").lasts),
]
LONG_AGO = st.dates(date(1800, 1, 1), AT.date() - LATELY - timedelta(days=60))
TO_COME = st.dates(AT.date() + timedelta(days=1), date(2200, 12, 31))


def _with(book: Logbook, act: Any, day: date) -> Logbook:
    return book.with_entry(day, Entry("odd", datetime.combine(day, time(10)), act, "p0"))


def _model(book: Logbook) -> Any:
    return model_of(assess(JOB, book, AT))


@given(
    histories(), st.sampled_from([act for act in OF_PEOPLE if type(act) is not Expected]), TO_COME
)
@cases(6, 300)
def test_an_entry_that_is_to_come_changes_nothing(book: Logbook, act: Any, day: date) -> None:
    assert _model(_with(book, act, day)) == _model(book)


@given(histories(), st.sampled_from(OF_WORK), TO_COME)
@cases(6, 300)
def test_work_that_is_to_come_is_not_done(book: Logbook, act: Any, day: date) -> None:
    assert _model(_with(book, act, day)) == _model(book)


@given(histories(), st.sampled_from(OF_PEOPLE), LONG_AGO)
@cases(6, 300)
def test_who_came_long_ago_changes_nothing(book: Logbook, act: Any, day: date) -> None:
    """Not who comes and how often, the pace, the past that the forecast is held against."""
    assert _model(_with(book, act, day)) == _model(book)


@given(histories(), st.sampled_from(OF_WORK), LONG_AGO)
@cases(6, 300)
def test_work_of_long_ago_counts_for_what_it_is(book: Logbook, act: Any, day: date) -> None:
    """As it would two months before all that tells how the crew comes: it is finished, begun or
    ordered, but nothing is thinned out or lengthened over the years since."""
    last = AT.date() - LATELY - timedelta(days=60)
    assert _model(_with(book, act, day)) == _model(_with(book, act, last))


@given(histories(), st.sampled_from([Noted("seen"), HoursWorked("p2", 8.0)]), LONG_AGO)
@cases(1, 30)
def test_the_dates_are_those_of_the_model(book: Logbook, act: Any, day: date) -> None:
    plain, odd = (forecast(assess(JOB, one, AT), 20) for one in (book, _with(book, act, day)))
    assert (odd.vehicle, odd.soonest) == (plain.vehicle, plain.soonest)


def test_a_day_long_before_the_crew_began_thins_nothing_out() -> None:
    """Three weeks of a crew of four, and one sign-in mistyped as half a year before."""
    said = [(datetime.combine(d, time(9)), SignIn(w.id)) for d in DAYS[-3:] for w in CREW]
    book = logbook(*said)
    odd = _with(book, SignIn("p0"), date(2025, 11, 1))
    plain, mistyped = (attendance(assess(JOB, one, AT), ["p0", "p1"]) for one in (book, odd))
    assert mistyped == plain
    assert plain.dropped == 0
    assert plain.held == 3


def test_a_crew_that_meets_seldom_began_with_its_first_day() -> None:
    quarters = [AT.date() - timedelta(days=91 * n) for n in (4, 3, 2, 1)]
    assert lately(quarters, AT.date()) == quarters
    assert lately([], AT.date()) == []
    assert lately(quarters[:1], AT.date()) == quarters[:1]
    assert lately([date.min, date.max], date.max) == []


def test_a_delivery_mistyped_by_years_does_not_make_the_others_late() -> None:
    """Ordered for the year 2099, it came within a week: as little early as one can be."""
    book = logbook(
        (datetime(2026, 3, 7, 10), Ordered("boards", due=date(2099, 4, 1))),
        (datetime(2026, 3, 14, 10), Arrived("boards")),
    )
    delays = _model(book).delays
    assert -0.25 < delays.late_mean < 0.1
    assert delays.late_scatter < 0.8
