"""What is said afterwards, and takes away what dangerous work that still goes on rests on: a
signature taken back, a finish that was none, a begin moved to an earlier hour.

Each begin of work that goes on now is asked about once more, at its own moment, with the lines as
they would be. What was not against it before is a lead's to answer for; better it is stopped.
"""

from collections.abc import Callable, Iterator
from datetime import datetime

from crewboard.logbook.acts import Begun, Finished, TakenBack
from crewboard.logbook.entry import Entry
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.may.ask import against_doing
from crewboard.order.may.moment import dangers_going_on
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.words import as_refusals
from crewboard.order.said import quoted_title

BoardAt = Callable[[datetime], Board]

_MEND = "stop that work first (finish it, or sign that it has ended), or a lead says why it goes on"


def speaks_of_before(entry: Entry, now: datetime) -> bool:
    """Whether a line changes what was said of earlier hours. A finish is taken as it is told."""
    if isinstance(entry.act, Finished) and not entry.replaces:
        return False
    return isinstance(entry.act, TakenBack) or bool(entry.replaces) or entry.at < now


def undermined(before: BoardAt, after: BoardAt, now: datetime) -> list[Refusal]:
    """What stands against a line for the sake of dangerous work that goes on now; `before` and
    `after` give the boards without the line and with it."""
    refusals: dict[str, Refusal] = {}
    for begun in _still_going_on(after(now)):
        board = after(begun.at)
        known = set(_against(before(begun.at), begun))
        new = [obstacle for obstacle in _against(board, begun) if obstacle not in known]
        if new and isinstance(begun.act, Begun):
            why = as_refusals(board, begun.act.task, new)[0].says
            work = f"{quoted_title(board.plan, begun.act.task)}, begun at {begun.at:%H:%M},"
            sentence = f"{work} goes on and rests on it: {why}"
            refusals[begun.act.task] = Refusal("rests-on-it", sentence, _MEND, True, lead=True)
    return list(refusals.values())


def _still_going_on(board: Board) -> Iterator[Entry]:
    """Today's begins of work with dangers that have not ended."""
    tasks = {task_id for task_id, _ in dangers_going_on(board)} & board.plan.tasks.keys()
    today = board.logbook.days.get(board.at.date())
    for entry in today.events if tasks and today else ():
        if isinstance(entry.act, Begun) and entry.act.task in tasks and entry.at <= board.at:
            yield entry


def _against(board: Board, begun: Entry) -> Iterator[Obstacle]:
    """What safety had against the begin at its moment."""
    act = begun.act
    assert isinstance(act, Begun)
    for obstacle in against_doing(board, act.task, act.crew, act.watch, act.adult):
        if obstacle.yields_to != "anyone":
            yield obstacle
