"""The forecast: wide where little is known, right about what would help, honest in words."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import Any

import pytest

from crewboard.logbook.acts import Arrived, Begun, Expected, Finished, HoursWorked, Ordered, SignIn
from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board
from crewboard.order.forecast.attendance import attendance
from crewboard.order.forecast.delays import delays
from crewboard.order.forecast.finish import Forecast
from crewboard.order.forecast.forecast import finish_of, forecast, with_ways_sooner
from crewboard.order.forecast.pace import pace
from crewboard.order.forecast.ways import extra_rule, ways
from crewboard.plan.duration import parse_duration
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.small_plans import board, hold, logbook, plan, task

CREW = [Volunteer(f"p{n}", f"P{n}", ("welding",) if n == 0 else ()) for n in range(5)]
START = date(2025, 1, 4)


def _history(days: int, slow: float = 1.0) -> tuple[Board, date]:
    """A crew of five of whom three always come; a task of ten hours done on each work day."""
    done = [task(f"c/d{n}", (8, 10, 12)) for n in range(days)]
    left = [task(f"c/t{n}", (5, 10, 20), most_people=3) for n in range(25)]
    of = plan([*done, *left], crew=CREW)
    said: list[tuple[datetime, Any]] = []
    on = list(of.vehicle.work_days.coming(START))[: days + 1]
    for number, day in enumerate(on[:days]):
        opens = datetime.combine(day, time(9))
        said += [(opens, SignIn(who)) for who in ("p0", "p1", "p2")]
        said.append((opens, Begun(f"c/d{number}", ("p0",))))
        for who in ("p0", "p1", "p2"):
            worked = HoursWorked(who, 10 * slow / 3, f"c/d{number}")
            said.append((opens + timedelta(hours=5), worked))
        said.append((opens + timedelta(hours=6), Finished(f"c/d{number}")))
    return board(of, datetime.combine(on[days], time(7)), logbook(*said)), on[days]


def _width(of: Forecast) -> float:
    """How far apart the even and the nearly sure date of the plan as it stands lie, against the
    time to the even one."""
    assert of.as_planned.even is not None
    assert of.as_planned.nearly_sure is not None
    return (of.as_planned.nearly_sure - of.as_planned.even) / (of.as_planned.even - of.at.date())


def test_little_data_gives_a_wide_answer_and_says_so() -> None:
    little, much = (forecast(_history(days)[0], runs=400) for days in (3, 30))
    assert _width(little) > 1.5 * _width(much)
    assert any("3 work days with people" in each for each in little.remarks)
    assert any("3 finished tasks have hours" in each for each in little.remarks)
    assert not any("mostly a guess" in each for each in much.remarks)


def test_a_slow_crew_is_forecast_later_than_a_quick_one() -> None:
    quick, slow = (pace(_history(30, slow)[0]) for slow in (1.0, 1.8))
    assert slow.mean - quick.mean == pytest.approx(0.55, abs=0.1)  # log 1.8 is 0.588, shrunk
    assert quick.mean == pytest.approx(0.0, abs=0.05)
    assert slow.doubt < 0.1


def test_who_always_came_is_expected_to_come() -> None:
    on, _ = _history(20)
    who = {p.id: (p.came, p.stayed_away) for p in attendance(on, tuple(on.plan.crew)).people}
    assert who["p0"] == (20, 0)
    assert who["p4"] == (0, 20)


def test_what_people_said_of_a_coming_day_counts() -> None:
    on, day = _history(3)
    said = logbook((datetime.combine(day, time(6)), Expected("p4")))
    log = Logbook({**on.logbook.days, **said.days})
    told = attendance(board(on.plan, on.at, log), tuple(on.plan.crew)).answers
    assert told == {day: ((4, True),)}


def test_a_season_is_taken_up_only_where_the_log_shows_it() -> None:
    weekly = WorkDays((parse_rule("saturday"),))
    of = plan([task("c/a")], work_days=weekly, crew=CREW)
    for empty_summers in (False, True):
        said = []
        for day in weekly.coming(date(2024, 1, 1), 730):
            few = empty_summers and day.month in (6, 7, 8)
            said += [
                (datetime.combine(day, time(9)), SignIn(f"p{n}")) for n in range(1 if few else 4)
            ]
        on = board(of, datetime(2026, 1, 3, 8), logbook(*said))
        seasons = attendance(on, tuple(of.crew)).seasons
        assert (seasons[6] < 0.6) is empty_summers
        if not empty_summers:
            assert seasons == pytest.approx((1.0,) * 12, abs=0.03)


def test_deliveries_keep_their_dates_as_they_have() -> None:
    supplies = [Supply(f"s{n}", f"S{n}") for n in range(12)]
    of = plan([task("c/a")], supplies=supplies)
    said: list[tuple[datetime, Any]] = []
    for number in range(12):
        at = datetime(2026, 1, 1, 9)
        said.append((at, Ordered(f"s{number}", date(2026, 1, 11))))
        said.append((at + timedelta(days=20), Arrived(f"s{number}")))  # twice as long
    late = delays(board(of, datetime(2026, 4, 1), logbook(*said)))
    assert late.late_mean == pytest.approx(0.69 * 12 / 16, abs=0.05)  # log 2, shrunk
    assert delays(board(of)).late_mean < 0.2


def test_the_forecast_is_repeatable_and_ordered() -> None:
    on, _ = _history(8)
    first, again = forecast(on, 120, seed=5), forecast(on, 120, seed=5)
    assert first == again
    finish = first.vehicle
    assert finish.even is not None
    assert finish.likely is not None
    assert finish.nearly_sure is not None
    assert first.soonest <= finish.even <= finish.likely <= finish.nearly_sure
    assert list(first.courses) == sorted(first.courses, key=lambda d: d or date.max)
    assert forecast(on, 120, seed=6).courses != first.courses


def test_a_component_is_finished_no_later_than_the_vehicle() -> None:
    of = plan([task("c/a", 10), task("d/b", 100), task("e/c", finished=START)], crew=CREW)
    found = forecast(board(of), 100)
    dates = dict(found.components)
    assert list(dates) == ["c", "d", "e"]
    for part in ("c", "d"):
        assert all(a <= b for a, b in zip(dates[part], found.vehicle, strict=True) if a and b)
    assert dates["c"].likely < dates["d"].likely  # type: ignore[operator]
    assert dates["e"].nearly_sure == date(2026, 5, 2)


def test_only_what_is_on_the_longest_chain_is_told_to_be() -> None:
    bend = task("c/bend", 2, hold=hold("bend set", "6 months"))
    of = plan([bend, task("c/fit", 2, after=("c/bend",)), task("d/short", 1)], crew=CREW)
    shares = {each.task: each.share for each in forecast(board(of), 100).on_chain}
    assert min(shares["c/bend"], shares["c/fit"]) > 0.9
    assert shares.get("d/short", 0.0) < 0.2


def test_the_quantiles_are_dates_that_held_in_so_many_courses() -> None:
    days = [date(2026, 1, 1) + timedelta(days=n) for n in range(100)]
    found = finish_of(days[::-1])
    assert found.even == days[49]
    assert found.likely == days[79]
    assert found.nearly_sure == days[94]
    with_lost = finish_of([*days[:90], *[None] * 10])
    assert (with_lost.likely, with_lost.nearly_sure) == (days[79], None)


def test_what_would_help_is_found_and_what_would_not_is_not() -> None:
    lead = parse_duration("7 months")
    supplies = [Supply("glass", "Glass", lead_time=lead), Supply("wax", "Wax", lead_time=lead)]
    on, _ = _history(20)
    tasks = {
        **on.plan.tasks,
        "d/glaze": task("d/glaze", 5, supplies=("glass",), after=("d/weld",)),
        "d/weld": task("d/weld", (20, 40, 60), skills=("welding",), most_people=1),
        "d/more": task("d/more", (20, 40, 60), skills=("welding",), most_people=1),
    }
    of = plan(tasks.values(), crew=CREW, supplies=supplies)
    found = with_ways_sooner(
        board(of, on.at, on.logbook), forecast(board(of, on.at, on.logbook), 80), 80
    )
    gains = {each.says: each for each in found.sooner}
    assert gains["ordering Glass now"].tells
    assert gains["one more work day a month, the second Saturday"].gain > timedelta(days=7)
    assert "P1 learns welding" in gains
    assert not any("Wax" in says for says in gains)  # nothing waits for it
    ordered = [each.gain for each in found.sooner]
    assert ordered == sorted(ordered, reverse=True)


def test_who_would_get_a_certificate_is_of_age_and_does_not_hold_it() -> None:
    """Of those who come most: p0 holds it, p1 is not 18 yet."""
    on, day = _history(20)
    hot = Hazard("hot", "Hot: invented", (), certificates=(CertificateNeed("hot work", "one"),))
    held = CREW[0]._replace(certificates=(Certificate("hot work", since=START),))
    crew = [held, CREW[1]._replace(eighteen_on=day.replace(year=day.year + 1)), *CREW[2:]]
    work = [*on.plan.tasks.values(), task("d/weld", 40, hazards=("hot",))]
    models = ways(board(plan(work, crew=crew, hazards=[hot]), on.at, on.logbook))
    assert [says for says, _ in models if "hot work" in says] == [
        'P2 gets the certificate "hot work"'
    ]


@pytest.mark.parametrize(
    ("rules", "extra"),
    [
        (["first saturday", "third saturday"], "second saturday"),
        (["saturday"], "second sunday"),
        ([], "second saturday"),
    ],
)
def test_the_extra_work_day_is_one_on_which_the_crew_does_not_meet(
    rules: list[str], extra: str
) -> None:
    days = WorkDays(tuple(map(parse_rule, rules)))
    assert extra_rule(days) == parse_rule(extra)


def test_what_the_forecast_passes_over_is_said() -> None:
    of = plan(
        [
            task("c/a", None),
            task("c/b", 3, skills=("gilding",)),
            task("c/c", 3, set_aside="no wood"),
        ],
        crew=CREW,
        work_days=WorkDays(),
    )
    found = forecast(board(of), 40)
    says = " ".join(found.remarks)
    assert "1 task has no estimate" in says
    assert [each.name for each in found.supposed] == ['"c/b"']
    assert "1 task set aside is left out" in says
    assert "no rule for work days" in says
