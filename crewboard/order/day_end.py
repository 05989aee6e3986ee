"""What a work day brought, and what comes first on the next."""

from typing import NamedTuple

from crewboard.logbook.acts import HOURS, Begun, ClosedDay, Finished, GuestHours, Stopped
from crewboard.logbook.day import Day
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.board import Board
from crewboard.order.said import person

FIRST = 3  # tasks named of the next day


class DayEnd(NamedTuple):
    """A day by its end. `hours` by name, of guests and the crew; `without_hours` are the people who
    were there and have none; `clocks` the holds that started and run, `longer` the tasks that took
    more hours than was thought and are not finished. `due` and `first` are of the next work day."""

    closed: bool
    hours: dict[str, float]
    without_hours: tuple[str, ...]
    begun: tuple[str, ...]
    finished: tuple[str, ...]
    stopped: tuple[str, ...]
    under_way: tuple[str, ...]
    clocks: tuple[str, ...]
    longer: tuple[str, ...]
    due: tuple[str, ...] = ()
    first: tuple[str, ...] = ()


def day_end(board: Board, next_day: Board | None) -> DayEnd:
    """What the board's day brought by its moment; `next_day` is the board at the opening of the
    next work day, None where none is planned."""
    day = board.logbook.days.get(board.at.date(), Day(board.at.date()))
    acts = [entry.act for entry in day.counting if entry.at <= board.at]
    hours: dict[str, float] = {}
    worked: dict[str, None] = {}
    for act in acts:
        if isinstance(act, HOURS):
            if isinstance(act, GuestHours):
                who = f"{act.name}, a guest"
            else:
                who = person(board.plan, act.who)
            hours[who] = hours.get(who, 0.0) + act.hours
            worked |= {act.task: None} if act.task in board.plan.tasks else {}
    finished = tuple(dict.fromkeys(act.task for act in acts if isinstance(act, Finished)))
    stopped = dict.fromkeys(act.task for act in acts if isinstance(act, Stopped))
    there = dict.fromkeys(person(board.plan, visit.who) for visit in board.history.visits)
    return DayEnd(
        any(isinstance(act, ClosedDay) for act in acts),
        hours,
        tuple(who for who in there if who not in hours),
        tuple(
            dict.fromkeys(
                act.task for act in acts if isinstance(act, Begun) and act.task not in finished
            )
        ),
        finished,
        tuple(task for task in stopped if task not in board.standings or board[task].stopped),
        tuple(s.task.id for s in board.in_state("under way") if s.stopped is None),
        tuple(hold.id for hold in board.stopping() if hold.since.date() == board.at.date()),
        tuple(task for task in worked if board[task].ask_left),
        *(_next(next_day) if next_day is not None else ()),
    )


def _next(board: Board) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The holds due for a look by then, and the tasks that come first."""
    able = [first.task for first in what_goes_first(board) if not first.not_today]
    return tuple(hold.id for hold in board.stopping() if hold.stage == "due"), tuple(able[:FIRST])
