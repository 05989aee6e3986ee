"""An answer in minutes as a clock of the day: into the steam box now, out once it is over."""

from crewboard.logbook.acts import Steamed
from crewboard.order.board import Board
from crewboard.order.reckoning.asked import For
from crewboard.order.reckoning.known import next_of
from crewboard.plan.duration import Duration
from crewboard.trade.given import Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning

BOILING = "boiling"  # a way of softening: the other is steam


def clock_span(kind: KindOfReckoning, answer: Reckoning) -> Duration | None:
    """For how long the clock of an answer runs; None where there is none."""
    minutes = answer.figures.get(kind.clock) if kind.clock else None
    return Duration(minutes=minutes) if isinstance(minutes, int) else None


def clock_started(
    board: Board, kind: KindOfReckoning, given: Given, answer: Reckoning, of: For
) -> list[Steamed]:
    """The entries that start it: of a series for each piece whose work is under way, since several
    go into the box together. None where the answer has no clock, or is for no task."""
    lasts = clock_span(kind, answer)
    if lasts is None or not of.task:
        return []
    series = board.plan.series.get(of.task)
    going = [
        task
        for task in (series.members.values() if series is not None else ())
        if board[task].state == "under way"
    ]
    boiling = given._replace(asks=kind.asks).one_of("by") == BOILING
    tasks = going or [next_of(board, of.task)]
    return [Steamed(task, lasts, boiling=boiling) for task in tasks]
