"""What the dates suppose: named, and played as if it were seen to."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import Any

import pytest

from crewboard.logbook.acts import HoldStarted, HoursWorked, Ordered, SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.finish import Forecast, Supposed
from crewboard.order.forecast.forecast import forecast, model_of
from crewboard.order.forecast.supposed import supposed
from crewboard.plan.duration import parse_duration
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Volunteer
from tests.order.small_plans import board, hold, logbook, plan, task

CREW = [Volunteer(f"p{n}", f"P{n} Test") for n in range(6)]
START = date(2025, 1, 4)


def worked(of: Plan, days: int = 12, came: int = 3) -> Board:
    """The board after so many work days on which so many people came and wrote hours for c/a."""
    on = list(of.vehicle.work_days.coming(START))[: days + 1]
    said: list[tuple[datetime, Any]] = []
    for day in on[:days]:
        for who in [f"p{n}" for n in range(came)]:
            said.append((datetime.combine(day, time(9)), SignIn(who)))
            said.append((datetime.combine(day, time(15)), HoursWorked(who, 5.0, "c/a")))
    return board(of, datetime.combine(on[days], time(7)), logbook(*said))


def told(on: Board) -> dict[str, Supposed]:
    """By kind; of each the last."""
    return {each.kind: each for each in supposed(on, model_of(on))}


def ended(found: Forecast) -> bool:
    return None not in (*found.vehicle, *found.courses)


LONG = task("c/a", 200)


def test_nothing_is_supposed_where_all_is_seen_to() -> None:
    assert told(worked(plan([LONG], crew=CREW))) == {}


def test_a_task_that_nobody_may_do_is_named_and_has_a_date() -> None:
    hot = Hazard("hot", "Hot: invented", (), certificates=(CertificateNeed("hot work", "each"),))
    of = plan(
        [
            LONG,
            task("c/weld", 10, title="Weld the frame", skills=("welding",)),
            task("c/cut", 10, title="Cut it", hazards=("hot",)),
        ],
        crew=CREW,
        hazards=[hot],
    )
    on = worked(of)
    says = [each.says for each in forecast(on, 40).supposed]
    assert (
        'somebody is found for "Weld the frame": nobody in the crew has the skill welding' in says
    )
    assert any("somebody is found for" in each and '"Cut it"' in each for each in says)
    assert any("hot work" in each for each in says)
    assert ended(forecast(on, 40))


def test_a_supply_that_nobody_ordered_is_named_until_somebody_does() -> None:
    glass = Supply("glass", "Laminated glass", lead_time=parse_duration("5 weeks"))
    of = plan([LONG, task("c/b", 5, supplies=("glass",))], crew=CREW, supplies=[glass])
    on = worked(of)
    found = told(on)["not ordered"]
    assert (found.what, found.name) == ("glass", "Laminated glass")
    assert "nobody has yet, and it takes 5 weeks to come" in found.says
    ordered = logbook((on.at - timedelta(hours=1), Ordered("glass", date(2026, 1, 1))))
    days = {**on.logbook.days, **ordered.days}
    assert "not ordered" not in told(board(of, on.at, on.logbook._replace(days=days)))
    late = datetime(2026, 2, 1)
    assert told(board(of, late, on.logbook._replace(days=days)))["overdue"].what == "glass"


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("decision", '"Paint her" is decided by the next work day: awaited since'),
        ("approval", '"Paint her" is approved by the next work day: awaited since'),
        ("inspection", '"Paint her" is inspected by the next work day: awaited'),
    ],
)
def test_what_waits_for_a_word_is_named_with_its_question(kind: str, says: str) -> None:
    of = plan([LONG, task("c/paint", 5, title="Paint her")], crew=CREW)
    on = worked(of)
    held = HoldStarted(kind, task="c/paint", why="which green?")
    lines = logbook((on.at - timedelta(days=1), held))
    now = board(of, on.at, on.logbook._replace(days={**on.logbook.days, **lines.days}))
    found = forecast(now, 40)
    assert [each.says.startswith(says) for each in found.supposed] == [True]
    assert found.supposed[0].says.endswith("which green?")
    assert ended(found)


def test_a_word_that_work_to_come_will_wait_for_is_named_too() -> None:
    look = task("c/b", 5, title="Rods", hold=hold("inspection"))
    found = told(worked(plan([LONG, look], crew=CREW)))["not inspected"]
    assert found.says == 'the wait for an inspection after "Rods" is over within a few work days'


def test_work_for_more_people_than_ever_come_is_dated_as_if_they_were_asked() -> None:
    """Three of six come each time: six at once never would, three do."""
    for least, named in ((6, True), (3, False)):
        lift = task("c/lift", 6, title="Lift the body", least_people=least, most_people=6)
        on = worked(plan([task("c/a", 40), lift], crew=CREW))
        found = forecast(on, 60)
        assert ended(found)
        says = [each.says for each in found.supposed]
        assert any(each.startswith('6 people come together for "Lift') for each in says) is named


def test_a_crew_list_without_anybody_supposes_that_people_are_found() -> None:
    on = worked(plan([LONG], crew=[]), came=3)
    found = forecast(on, 60)
    assert [each.kind for each in found.supposed] == ["no crew"]
    assert found.vehicle.likely is not None


def test_what_is_set_aside_or_finished_supposes_nothing() -> None:
    done = task("c/weld", 10, skills=("welding",), finished=START)
    assert told(worked(plan([LONG, done], crew=CREW))) == {}
