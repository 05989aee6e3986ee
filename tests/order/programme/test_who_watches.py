"""Who watches over work that is under way goes on watching in the programme."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from crewboard.logbook.acts import Begun, SignIn
from crewboard.order.assess import assess
from crewboard.order.programme.programme import programme
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.day_plan.random_days import HAZARDS
from tests.order.small_plans import FIRST_SATURDAY, logbook, plan, task

HOT_WORK = Certificate("hot work", date(2027, 5, 2))
CREW = [
    Volunteer(who, f"{who.capitalize()} Test", adult=True, certificates=(HOT_WORK,))
    for who in ("ada", "ben", "tom")
]
WATCHED = tuple(h._replace(watch="fire watcher") if h.id == "hot" else h for h in HAZARDS)


@pytest.mark.parametrize("watcher", ["ada", "ben", "tom"])
def test_the_watcher_named_at_begin_is_the_one_who_watches_on(watcher: str) -> None:
    work = task("c/heat", 4, hazards=("hot",), most_people=3)
    saturdays = WorkDays((parse_rule("saturday"),))
    of = plan((work,), crew=CREW, work_days=saturdays, hazards=WATCHED)
    welders = tuple(each.id for each in CREW if each.id != watcher)
    early = FIRST_SATURDAY - timedelta(minutes=30)
    came = [(early, SignIn(each.id)) for each in CREW]
    log = logbook(*came, (FIRST_SATURDAY, Begun("c/heat", welders, watch=(watcher,))))
    board = assess(of, log, FIRST_SATURDAY + timedelta(minutes=30))
    first = programme(board, 1).days[0].turns[0]
    assert first.task == "c/heat"
    assert first.watch == (watcher,)
