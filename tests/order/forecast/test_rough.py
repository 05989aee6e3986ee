"""Where the log is too short for a date: what would make one, and the range from the estimates."""

from __future__ import annotations

from datetime import date, datetime, time
from typing import Any

from crewboard.logbook.acts import Finished, HoursWorked, SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.forecast import WITHOUT_CHANCE, forecast
from crewboard.order.forecast.rough import rough, too_little
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays
from tests.order.small_plans import TWICE_A_MONTH, board, hold, logbook, plan, task

CREW = [Volunteer(f"p{n}", f"P{n}") for n in range(8)]
START = date(2026, 1, 3)


def after(of: Plan, days: int, hours: float = 5.0, on: str = "c/a") -> Board:
    """The board after so many work days on which one person came and wrote these hours."""
    dates = list(of.vehicle.work_days.coming(START))[: days + 1]
    said: list[tuple[datetime, Any]] = []
    for day in dates[:days]:
        said.append((datetime.combine(day, time(9)), SignIn("p0")))
        if hours:
            said.append((datetime.combine(day, time(15)), HoursWorked("p0", hours, on)))
    return board(of, datetime.combine(dates[days], time(7)), logbook(*said))


def test_three_work_days_with_hours_make_a_date() -> None:
    of = plan([task("c/a", (50, 100, 200))], crew=CREW)
    says = "too little is known: after 3 work days with hours this becomes a date"
    assert too_little(after(of, 0)) == f"{says} (none so far)"
    assert too_little(after(of, 2)) == f"{says} (2 so far)"
    assert too_little(after(of, 3)) == ""
    assert too_little(after(of, 5, hours=0)) == f"{says} (none so far)"  # people came, nothing more


def test_hours_of_other_work_do_not_count() -> None:
    assert "none so far" in too_little(after(plan([task("c/a", 100)], crew=CREW), 4, on=""))


def test_without_a_task_there_is_nothing_to_reckon_with() -> None:
    assert "no task is written down yet" in too_little(board(plan([], crew=CREW)))


def test_where_no_work_is_left_that_is_said_and_no_chance_given() -> None:
    done, aside = task("c/a", 3, finished=START), task("c/b", 3, set_aside="no wood")
    for some, says in (
        ([done], "no work is left: 1 task finished"),
        ([aside], "no work is left: 1 task set aside"),
        ([done, aside], "no work is left: 1 task finished and 1 task set aside"),
    ):
        on = board(plan(some, crew=CREW))
        assert (too_little(on), rough(on)) == (says, None)
    coat = task("c/a", 3, hold=hold("cure", "2 weeks"))
    log = logbook((datetime(2026, 5, 2, 12), Finished("c/a")))
    curing = board(plan([coat], crew=CREW), datetime(2026, 5, 3, 8), log)
    assert too_little(curing).endswith("finished; the last hold is over on Sat 16 May 2026")


def test_a_calendar_with_no_day_at_all_is_taken_to_be_weekly_from_now_on() -> None:
    for days in (WorkDays(), WorkDays(also=((date(2026, 5, 9), None),))):
        found = rough(board(plan([task("c/a", 20)], crew=CREW, work_days=days)))
        assert found is not None
        assert found.days in (51, 52, 53)
        assert found.first < date(2026, 7, 1)


def test_where_no_chance_is_given_only_a_few_courses_are_played() -> None:
    some = [task(f"c/t{n}", 4) for n in range(50)]
    assert forecast(board(plan(some, crew=CREW)), 100_000).runs == WITHOUT_CHANCE


def test_the_range_is_the_hours_over_the_people_who_could_plausibly_come() -> None:
    """Eight in the crew: two to six come. 84 to 420 hours, with 7 hours a day: two work days with
    six (84 / 6 = 14 hours), or 50 with two who give six tenths of it (420 / 2 / 0.6 = 350)."""
    of = plan([task(f"c/t{n}", (12, 20, 60), most_people=8) for n in range(7)], crew=CREW)
    on = board(of, datetime(2026, 5, 2, 8))
    found = rough(on)
    assert found is not None
    assert (found.low, found.high, found.few, found.many) == (84, 420, 2, 6)
    assert (found.crew, found.days) == (8, 24)
    days = list(TWICE_A_MONTH.coming(date(2026, 5, 2), 366 * 4))
    assert found.first >= days[1]
    assert found.last is not None
    assert found.last >= days[49]


def test_holds_push_both_ends_of_the_range() -> None:
    bend = task("c/bend", 4, hold=hold("bend set", "8 months"))
    plain, held = (
        rough(board(plan([first, task("c/fit", 4, after=("c/bend",))], crew=CREW)))
        for first in (task("c/bend", 4), bend)
    )
    assert plain is not None
    assert held is not None
    assert held.first > date(2027, 1, 1) > plain.first
    assert held.last is not None
    assert plain.last is not None
    assert (held.last - plain.last).days > 200


def test_more_hours_and_fewer_people_make_it_later_and_never_earlier() -> None:
    ranges = []
    for hours, crew in (
        ((300, 400, 900), CREW),
        ((100, 200, 400), CREW[:2]),
        ((100, 200, 400), CREW),
    ):
        found = rough(board(plan([task("c/a", hours)], crew=crew)))
        assert found is not None
        assert found.last is not None
        ranges.append((found.first, found.last))
    more, few, many = ranges
    assert few[0] >= many[0]
    assert few[1] > many[1]
    assert more[0] > many[0]
    assert more[1] > many[1]


def test_a_range_that_reaches_past_fifty_years_says_so() -> None:
    endless = rough(board(plan([task("c/a", (10, 20, 400_000))], crew=CREW)))
    assert endless is not None
    assert endless.last is None


def test_the_forecast_carries_both() -> None:
    on = board(plan([task("c/a", (50, 100, 200))], crew=CREW))
    found = forecast(on, 20)
    assert found.too_little == too_little(on)
    assert found.rough == rough(on)
    assert forecast(after(on.plan, 4), 20).rough is None
