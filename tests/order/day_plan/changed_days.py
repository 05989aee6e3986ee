"""A random day that runs by a plan, and then something changes: somebody walks in, somebody leaves,
a task ends early."""

from __future__ import annotations

import random
from collections.abc import Sequence
from datetime import datetime, time
from typing import Literal, NamedTuple

from crewboard.logbook.acts import Finished, SignIn, SignOut
from crewboard.order.board import Board
from crewboard.order.day_plan.jobs import shop_day
from crewboard.order.day_plan.lead import as_led
from crewboard.order.day_plan.plain_rule import by_plain_rule, filled
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import DayPlan, Placed, Wish
from crewboard.order.day_plan.solver import solve
from crewboard.order.day_plan.worth import worth
from tests.order.day_plan.living import Living
from tests.order.day_plan.random_days import full_day

What = Literal["walks in", "leaves", "ends early", "nothing"]


class Changed(NamedTuple):
    """The plan that ran, the board at which something changed, and for whom it is planned now."""

    plan: DayPlan
    board: Board
    wish: Wish


def changed_day(seed: int, what: What, effort: float, people: int = 6) -> Changed:
    """A day begun at nine by its plan, as it stands between ten and one."""
    rnd = random.Random(f"{seed} {what}")
    on, wish = full_day(seed, people, 10)
    everybody = wish.people
    wish = Wish(wish.people[:-1] if what == "walks in" else wish.people)
    plan = plan_day(on, wish, effort)
    now = max(on.at, datetime.combine(on.at.date(), rnd.choice((time(10, 30), time(11), time(13)))))
    living = Living(on, plan)
    living.live(until=now)
    here = wish.people
    if what == "walks in":
        new = everybody[-1]
        living.say(now, SignIn(new))
        here = (*here, new)
    elif what == "leaves":
        gone = rnd.choice(wish.people)
        living.say(now, SignOut(gone))
        here = tuple(who for who in here if who != gone)
    elif what == "ends early":
        going = [p.task for p in plan.placed if p.start < now < p.end]
        if going:
            living.say(now, Finished(rnd.choice(going)))
    return Changed(plan, living.board(now), Wish(here))


def made_anew(changed: Changed, effort: float, *, with_begun: bool) -> int:
    """What it would be worth to plan the day with no regard to the plan that runs; but for what
    people have begun, or with none to that either."""
    day = shop_day(changed.board, changed.wish, changed.plan.placed)
    if not with_begun:
        loose = (
            job._replace(begun=False, fixed_start=None) if job.begun else job for job in day.jobs
        )
        day = day._replace(jobs=tuple(loose))
    plain = by_plain_rule(day)
    solved = solve(as_led(day, plain), plain, effort) if effort else None
    slots = filled(day, solved.slots) if solved is not None else plain
    return max(worth(day, slots), worth(day, plain))


def pairs(placed: Sequence[Placed], board: Board, people: Sequence[str]) -> set[tuple[str, str]]:
    """(person, task) of what is still to come of a plan, for those who are here."""
    return {
        (who, each.task)
        for each in placed
        for who in each.people
        if each.end > board.at and who in people and not board[each.task].work_done
    }
