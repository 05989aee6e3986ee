"""Changes that might bring the finish forward, each as a model of its own to be played."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from copy import copy
from functools import partial

from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.order.ahead.effort import hours_left
from crewboard.order.board import Board
from crewboard.order.forecast.model import Model
from crewboard.order.forecast.remaining import remaining
from crewboard.order.may.needs import CertificateOf, hazards_named, needs_of
from crewboard.order.presence import days_with_people
from crewboard.order.said import person
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import WEEKDAYS, MeetingRule, WorkDays

# How many skills, certificates and supplies are tried: those with most work behind them.
SKILLS, CERTIFICATES, SUPPLIES = 3, 2, 4
_NTH = {1: "first", 2: "second", 3: "third", 4: "fourth"}


def ways(board: Board) -> list[tuple[str, Model]]:
    """Each change in words, with the model of the job under it."""
    path = calendar_path(board)
    ways = [_one_more_day(board), _two_more_people(board)]
    ways += _skills(board, path)
    ways += _certificates(board, path)
    ways += _orders(board, path)
    return ways


def _under(board: Board, plan: Plan) -> Model:
    """The remaining job under another plan of the same tasks."""
    other = copy(board)  # where everything stands is the same
    other.plan = plan
    return remaining(other)


def _one_more_day(board: Board) -> tuple[str, Model]:
    rule = extra_rule(board.plan.vehicle.work_days)
    days = board.plan.vehicle.work_days
    vehicle = board.plan.vehicle._replace(work_days=days._replace(rules=(*days.rules, rule)))
    change = f"one more work day a month, the {_NTH[rule.nth]} {WEEKDAYS[rule.weekday].title()}"
    return change, _under(board, board.plan._replace(vehicle=vehicle))


def extra_rule(days: WorkDays) -> MeetingRule:
    """A day of the month on which the crew does not meet yet, on its usual weekday if it can be."""
    usual = [rule.weekday for rule in days.rules] or [5]
    weekdays = [max(usual, key=usual.count)]
    weekdays += [(weekdays[0] + step) % 7 for step in (1, 6, 2, 3, 4, 5)]
    for weekday in weekdays:
        taken = {rule.nth for rule in days.rules if rule.weekday == weekday}
        free = [nth for nth in (2, 3, 4, 1) if nth not in taken]
        if free and 0 not in taken:
            return MeetingRule(weekday, free[0])
    return MeetingRule(weekdays[0], 1)


def _two_more_people(board: Board) -> tuple[str, Model]:
    today = board.at.date()
    new = {f"~{n}": Volunteer(f"~{n}", "", joined=today) for n in (1, 2)}
    plan = board.plan._replace(crew={**board.plan.crew, **new})
    return "two more people who come as often as the others", _under(board, plan)


def _skills(board: Board, path: CalendarPath) -> list[tuple[str, Model]]:
    hours: dict[str, float] = {}
    for standing in board.standings.values():
        for skill in standing.task.skills:
            hours[skill] = hours.get(skill, 0.0) + hours_left(standing, path.usual)
    most = sorted((s for s in hours if hours[s]), key=lambda s: -hours[s])[:SKILLS]
    ways = []
    for skill in most:
        who = _regular(board, partial(_lacks_skill, skill))
        if who is not None:
            crew = {**board.plan.crew, who.id: who._replace(skills=(*who.skills, skill))}
            change = f"{person(board.plan, who.id)} learns {skill}"
            ways.append((change, _under(board, board.plan._replace(crew=crew))))
    return ways


def _certificates(board: Board, path: CalendarPath) -> list[tuple[str, Model]]:
    hours: dict[str, float] = {}
    asking: dict[str, CertificateOf] = {}
    for standing in board.standings.values():
        task = standing.task
        needs = needs_of(task, hazards_named(board, task))
        for asked in (*needs.each, *needs.one):
            kind = asked.need.kind
            asking.setdefault(kind, asked)
            hours[kind] = hours.get(kind, 0.0) + hours_left(standing, path.usual)
    most = sorted((k for k in hours if hours[k]), key=lambda k: -hours[k])[:CERTIFICATES]
    ways = []
    today = board.at.date()
    for kind in most:
        who = _regular(board, partial(asking[kind].could_be_got_by, day=today))
        if who is not None:
            paper = Certificate(kind, since=today)
            crew = {
                **board.plan.crew,
                who.id: who._replace(certificates=(*who.certificates, paper)),
            }
            change = f'{person(board.plan, who.id)} gets the certificate "{kind}"'
            ways.append((change, _under(board, board.plan._replace(crew=crew))))
    return ways


def _lacks_skill(skill: str, volunteer: Volunteer) -> bool:
    return skill not in volunteer.skills


def _regular(board: Board, fits: Callable[[Volunteer], bool]) -> Volunteer | None:
    """Of those who fit, the one who was there most often lately."""
    days = Counter(
        who
        for there in days_with_people(board.plan, board.logbook, board.at).values()
        for who in there
    )
    able = [v for v in board.plan.crew.values() if v.with_us_on(board.at.date()) and fits(v)]
    return max(able, key=lambda v: days[v.id], default=None)


def _orders(board: Board, path: CalendarPath) -> list[tuple[str, Model]]:
    """Ordering now what nobody has ordered, for the work that can wait least."""
    slack: dict[str, int] = {}
    for standing in board.standings.values():
        if standing.work_done or standing.state == "set aside":
            continue
        for supply_id in standing.short_of:
            account = board.stock[supply_id]
            if account.unordered and account.supply.lead_time is not None:
                own = path.slack(standing.task.id)
                slack[supply_id] = min(own, slack.get(supply_id, own))
    ways = []
    for supply_id in sorted(slack, key=lambda s: slack[s])[:SUPPLIES]:
        other = copy(board)
        other.stock = board.stock.if_ordered(supply_id, board.at)
        ways.append((f"ordering {board.plan.supplies[supply_id].name} now", remaining(other)))
    return ways
