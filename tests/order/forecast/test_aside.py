"""Tasks that are set aside on the way: how often, and what that does to a course."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from typing import Any

from crewboard.logbook.acts import Begun, Finished, HoursWorked, SetAside, SignIn
from crewboard.order.board import Board
from crewboard.order.forecast.aside import aside
from crewboard.order.forecast.forecast import model_of
from crewboard.order.forecast.runs import play_many
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.order.small_plans import board, logbook, plan, task

WEEKLY = WorkDays((parse_rule("saturday"),))
CREW = [Volunteer(f"p{n}", f"P{n}") for n in range(2)]


def _history(every: int) -> Board:
    """One task a day; every so many one more, as large, is set aside."""
    days = list(WEEKLY.coming(datetime(2025, 1, 4).date()))[:25]
    said: list[tuple[datetime, Any]] = []
    tasks = [task(f"c/t{n}", (9, 12, 15)) for n in range(60)]
    for number, day in enumerate(days[:-1]):
        opens = datetime.combine(day, time(9))
        said += [(opens, SignIn(who.id)) for who in CREW]
        done = task(f"c/d{number}", (9, 12, 15))
        tasks.append(done)
        said += [(opens, Begun(done.id, ("p0", "p1")))]
        if every and number % every == 0:
            tasks.append(task(f"c/a{number}", (9, 12, 15)))
            said.append((opens, SetAside(f"c/a{number}", "not worth it")))
        closes = opens + timedelta(hours=6)
        said += [(closes, HoursWorked(who.id, 6.0, done.id)) for who in CREW]
        said.append((closes, Finished(done.id)))
    at = datetime.combine(days[-1], time(8))
    return board(plan(tasks, crew=CREW, work_days=WEEKLY), at, logbook(*said))


def test_how_often_is_learned_from_the_log() -> None:
    none, many = (aside(_history(every)) for every in (0, 3))
    assert none[0] / sum(none) < 0.02
    assert 0.15 < many[0] / sum(many) < 0.25


def test_what_the_plan_itself_sets_aside_was_no_surprise() -> None:
    away = task("c/away", 4)._replace(set_aside="for now")
    assert aside(board(plan([away, task("c/b", 4)], crew=CREW))) == aside(board(plan([])))


def test_where_much_is_set_aside_the_end_comes_sooner_and_nobody_is_quicker() -> None:
    none, many = (model_of(_history(every)) for every in (0, 3))
    assert abs(none.pace.stretch - many.pace.stretch) < 0.1
    ends = [sorted(play_many(model._replace(finds=None), 80, 1).finish) for model in (none, many)]
    assert 0.65 < ends[1][40] / ends[0][40] < 0.92
