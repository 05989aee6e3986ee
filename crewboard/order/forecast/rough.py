"""What can be said of a date where the log is too short for one: a range from estimates alone.

With two or three work days nobody knows how often people come or how well the crew estimates, so no
chance can be given. What stands is the hours that the estimates leave, divided by the people who
could plausibly be there on the work days of the calendar. Nothing is added for what turns up.
"""

from __future__ import annotations

from datetime import date

from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.order.ahead.effort import hours_left
from crewboard.order.ahead.work_time import DAY
from crewboard.order.board import Board, Standing
from crewboard.order.forecast.finish import Rough
from crewboard.order.forecast.playing import MOST_DAYS
from crewboard.order.forecast.unknown import of_unknown
from crewboard.order.said import day_in_words, how_many, listed
from crewboard.plan.task import Estimate

# So many work days on which hours were written for tasks make a date (common sense, no source).
DAYS_FOR_A_DATE = 3
# Of the crew list so many come on a work day, at the least and at the most; where the list names
# nobody, so many people (common sense, no source).
FEW, MANY = 0.25, 0.75
NOBODY_KNOWN = (1, 4)
# Of the time in the shop so much goes into tasks, at the least (common sense, no source).
LEAST_SHARE = 0.6


def too_little(board: Board) -> str:
    """Why no chance goes with any date: no work is left, or what would make a date of it; empty
    where enough is known."""
    if not board.plan.tasks:
        return (
            "too little is known: no task is written down yet, so there is no work to reckon with"
        )
    if all(s.work_done or s.state == "set aside" for s in board.standings.values()):
        return _no_work_is_left(board)
    days = days_with_hours(board)
    if days >= DAYS_FOR_A_DATE:
        return ""
    so_far = f"{days} so far" if days else "none so far"
    return (
        f"too little is known: after {how_many(DAYS_FOR_A_DATE, 'work day')} with hours this "
        f"becomes a date ({so_far})"
    )


def _no_work_is_left(board: Board) -> str:
    done = sum(s.work_done for s in board.standings.values())
    aside = len(board.standings) - done
    says = [f"{how_many(done, 'task')} finished"] if done else []
    says += [f"{how_many(aside, 'task')} set aside"] if aside else []
    path = calendar_path(board)
    over = path.time.moment(path.end)
    holds = f"; the last hold is over on {day_in_words(over)}" if over > board.at else ""
    return f"no work is left: {listed(says)}{holds}"


def days_with_hours(board: Board) -> int:
    """Days up to the board's on which hours were written for tasks."""
    days = board.logbook.days.items()
    return sum(
        any(task and hours > 0 for task, hours in lines.hours_by_task.items())
        for day, lines in days
        if day <= board.at.date()
    )


def rough(board: Board) -> Rough | None:
    """The range; None where no work is left."""
    path = calendar_path(board)
    todo = [board[name] for name in path.work if board[name].state != "set aside"]
    if not todo:
        return None
    unknown = of_unknown(board.plan)
    left = [_hours(board, standing, unknown) for standing in todo]
    low, high = sum(hours for hours, _ in left), sum(hours for _, hours in left)
    crew = sum(v.with_us_on(board.at.date()) for v in board.plan.crew.values())
    few, many = (max(1, round(crew * FEW)), max(1, round(crew * MANY))) if crew else NOBODY_KNOWN
    soonest = path.end  # with people always free, and by the likely hours
    first = max(soonest, _worked(path, low / many))
    last = max(first, _worked(path, high / few / LEAST_SHARE) + soonest - path.time.now)
    return Rough(
        path.time.moment(first).date(),
        path.time.moment(last).date() if last <= MOST_DAYS * DAY else None,
        low,
        high,
        few,
        many,
        crew,
        _days_in_a_year(path),
    )


def _hours(board: Board, standing: Standing, unknown: Estimate) -> tuple[float, float]:
    """The least and the most hours that are left in a task by its estimate, or as the crew said."""
    course = board.history.courses.get(standing.task.id)
    if standing.ask_left or (course is not None and course.left is not None):
        left = hours_left(standing, unknown.likely)
        return left, left
    estimate = standing.task.estimate or unknown
    return (
        max(0.0, estimate.low - standing.hours),
        max(0.0, estimate.high - standing.hours),
    )


def _worked(path: CalendarPath, hours: float) -> int:
    """When so many hours of the shop's are over, from now on."""
    if hours * 60 > MOST_DAYS * DAY:
        return MOST_DAYS * DAY * 2
    return path.time.finish(path.time.now, round(hours * 60))


def _days_in_a_year(path: CalendarPath) -> int:
    """Work days of the year ahead; one a week where the calendar names none."""
    days: set[date] = set()
    minute, end = path.time.now, path.time.now + 365 * DAY
    while minute < end:
        minute = path.time.next_day(minute)
        if minute < end:
            days.add(path.time.moment(minute).date())
    return max(1, len(days))
