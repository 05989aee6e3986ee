"""The wall as it will stand at each later moment, should nobody write anything until then.

So a page that hangs there says by itself that a hold is due for a look, also when nothing was
entered for weeks: every later moment is assessed as the present one is.
"""

from collections.abc import Iterator
from datetime import datetime, time, timedelta

from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.taken_over import running_plan
from crewboard.telling.moments import moments
from crewboard.telling.wall import Wall, wall

_MOST = 12  # moments that one page holds: each costs about a hundredth of a second to work out
_PAST = "What ends later is not on this page: look into the folder"


def walls(board: Board) -> list[tuple[datetime, Wall]]:
    """The wall of the board's moment and what stands there later, each with the moment from which
    it counts. An example folder, which is shown at one moment, has no later."""
    stages = [(board.at, wall(board))]
    if board.plan.vehicle.shown_at is not None:
        return stages
    moments_ahead = sorted(set(_changes(board)))
    for at in moments_ahead[:_MOST]:
        later = assess(board.plan, board.logbook, at, board.order, board.unreadable)
        shown = wall(later)
        if shown._replace(at="") != stages[-1][1]._replace(at=""):
            stages.append((at, shown))
    if len(moments_ahead) > _MOST:
        end = moments_ahead[_MOST]
        last = stages[-1][1]
        stages.append((end, last._replace(missing=(*last.missing, _PAST))))
    return stages


def _changes(board: Board) -> Iterator[datetime]:
    """When something on the wall changes by itself: what ends or comes round, days that begin."""
    ends = (end for hold in board.stopping() for end in (hold.until, hold.not_before) if end)
    yield from (end for end in ends if end > board.at)
    yield from (moment.at for moment in moments(board) if moment.at > board.at)
    running = running_plan(board)
    for placed in running.placed if running is not None else ():
        yield from (at for at in (placed.start, placed.end) if at > board.at)
    yield datetime.combine(board.at.date() + timedelta(days=1), time())
    opens = board.plan.vehicle.work_days.next_after(board.at)
    if opens:
        yield datetime.combine(opens, time())
        yield datetime.combine(opens + timedelta(days=1), time())
