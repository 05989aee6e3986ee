"""Work that was finished and that nobody wrote to have begun: what was passed over by that.

Such a line is taken: the coat lies there, and its hold runs. It is marked with what the begin would
have been refused for, and a lead answers for it before anything else begins in that place or on
that component (`answer_awaited.py`).
"""

from collections.abc import Iterator, Set
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from crewboard.logbook.acts import Begun, Finished, HoursWorked, Reopened
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.history import History
from crewboard.order.may.ask import against_doing
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.party import usual_roles
from crewboard.order.may.short import in_short
from crewboard.order.said import how_many, listed, person
from crewboard.plan.plan import Plan

SAYS = "finished without"
NOBODY_NAMED = "a word on who did it"


class FinishedWithout(NamedTuple):
    """A line that finished work never begun, and what that left out, each in some words."""

    entry: Entry
    task: str
    lacks: tuple[str, ...]

    @property
    def says(self) -> str:
        """'finished without: a begin; the check "fire watcher named" of hot work'."""
        return f"{SAYS}: {'; '.join(self.lacks)}"


def finished_without(plan: Plan, logbook: Logbook, *days: Day) -> list[FinishedWithout]:
    """The lines of these days (of all, where none is given) that finish work never begun."""
    asked = {day.date for day in days or logbook.days.values()}
    if not asked:
        return []
    dangerous = _days_with_dangers(plan, logbook)
    lines = [line for line in never_begun(plan, logbook) if line.at.date() in asked]
    return [mark_of(plan, logbook, line, dangerous) for line in lines]


def never_begun(plan: Plan, logbook: Logbook) -> list[Entry]:
    """The lines that finished work which nobody had written to have begun."""
    if not logbook.days:
        return []
    return History(plan, logbook, datetime.combine(max(logbook.days), time.max)).never_begun


def mark_of(
    plan: Plan, logbook: Logbook, entry: Entry, dangerous: Set[date] | None = None
) -> FinishedWithout:
    """The mark of a line that finished work never begun. On days without any danger (None: not
    looked for) harmless work passes nothing over, and no board has to be made for it."""
    act = entry.act
    assert isinstance(act, Finished)
    task = plan.tasks.get(act.task)
    harmless = task is not None and not task.hazards and not act.dangers
    near = {entry.at.date(), entry.at.date() - timedelta(days=1)}
    if harmless and dangerous is not None and near.isdisjoint(dangerous):
        known = act.crew or who_did_it(logbook, act.task, entry.at)
        lacks: tuple[str, ...] = () if known else (NOBODY_NAMED,)
    else:
        lacks = tuple(_passed_over(plan, logbook, entry, act))
    return FinishedWithout(entry, act.task, ("a begin", *lacks))


def _days_with_dangers(plan: Plan, logbook: Logbook) -> set[date]:
    """The days on which work with dangers, or with an under-18, was begun or finished."""
    minors = {who.id for who in plan.crew.values() if who.adult is not True}

    def is_dangerous(act: object) -> bool:
        if not isinstance(act, Begun | Finished):
            return False
        task = plan.tasks.get(act.task)
        return bool(act.dangers or not minors.isdisjoint(act.crew) or (task and task.hazards))

    return {
        day.date
        for day in logbook.days.values()
        if any(is_dangerous(entry.act) for entry in day.events)
    }


# --- what was passed over ------------------------------------------------------------------------


def who_did_it(logbook: Logbook, task: str, at: datetime) -> tuple[str, ...]:
    """Whoever has hours on a task up to a moment, since it was last reopened."""
    return tuple(dict.fromkeys(worked.who for _, worked in _hours_on(logbook, task, at)))


def _hours_on(logbook: Logbook, task: str, at: datetime) -> list[tuple[datetime, HoursWorked]]:
    hours: list[tuple[datetime, HoursWorked]] = []
    for entry in logbook.counting():
        act = entry.act
        if isinstance(act, Reopened) and act.task == task and entry.at <= at:
            hours.clear()
        elif isinstance(act, HoursWorked) and act.task == task and entry.at <= at:
            hours.append((entry.at, act))
    return hours


def _passed_over(plan: Plan, logbook: Logbook, entry: Entry, act: Finished) -> Iterator[str]:
    """What would have been refused had somebody wanted to begin it then."""
    people = act.crew or who_did_it(logbook, act.task, entry.at)
    if not people:
        yield NOBODY_NAMED
    if act.task not in plan.tasks:
        return
    task = plan.tasks[act.task]
    task = task._replace(hazards=tuple(dict.fromkeys((*task.hazards, *act.dangers))))
    hours = _hours_on(logbook, act.task, entry.at)
    moment = min([act.began or entry.at, entry.at, *(at for at, _ in hours)])
    board = assess(plan._replace(tasks={**plan.tasks, task.id: task}), logbook, moment)
    # Who watched and who was beside the young nobody is asked: shared out as it could have been.
    against = against_doing(board, task.id, *usual_roles(board, task.id, people))
    yield from _checks(board, against)
    for obstacle in against:
        if obstacle.code in _TOLD:
            yield _TOLD[obstacle.code](board, obstacle)
        elif not obstacle.yields and obstacle.code not in _NO_MATTER:
            yield f"heeding that {in_short(board, obstacle)}"


def _checks(board: Board, against: list[Obstacle]) -> Iterator[str]:
    """The checks before the work that nobody had signed when it began."""
    by_hazard: dict[str, dict[str, None]] = {}
    for obstacle in against:
        if obstacle.code in ("unsigned", "unopened"):
            by_hazard.setdefault(obstacle.hazard, {})[obstacle.check] = None
    for hazard, checks in by_hazard.items():
        word = "check" if len(checks) == 1 else "checks"
        titles = listed(f'"{_title(board, hazard, check)}"' for check in checks)
        yield f"the {word} {titles} of {_short(board, hazard)}"


def _title(board: Board, hazard_id: str, check_id: str) -> str:
    sheet = board.plan.hazards.get(hazard_id)
    check = sheet.check(check_id) if sheet is not None else None
    return check.short if check is not None else check_id.replace("-", " ")


def _short(board: Board, hazard: str) -> str:
    return board.plan.hazards[hazard].short


def _names(board: Board, people: tuple[str, ...]) -> str:
    return listed(person(board.plan, who) for who in people)


def _certificate(board: Board, obstacle: Obstacle) -> str:
    kind, sheet = f'certificate "{obstacle.certificate}"', _short(board, obstacle.hazard)
    if obstacle.people:
        return f"the {kind} of {_names(board, obstacle.people)} for {sheet}"
    return f"anybody with the {kind} for {sheet}"


def _under_18(board: Board, obstacle: Obstacle) -> str:
    return (
        f"keeping {_names(board, obstacle.people)}, under 18, from {_short(board, obstacle.hazard)}"
    )


def _people(board: Board, obstacle: Obstacle) -> str:
    needed = how_many(obstacle.needed, "person")
    return (
        f"{needed} for {_short(board, obstacle.hazard)} ({obstacle.there} of those named were here)"
    )


def _away(board: Board, obstacle: Obstacle) -> str:
    return f"a sign-in of {_names(board, obstacle.people)}"


_TOLD = {
    "certificate": _certificate,
    "under-18": _under_18,
    "people": _people,
    "away": _away,
}
# Told otherwise, or no matter of safety.
_NO_MATTER = frozenset({"unsigned", "unopened", "who", "day-closed", "finished-without"})
