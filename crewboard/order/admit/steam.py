"""What may be said of the steam box: only work that is under way puts something into it."""

from crewboard.logbook.acts import Steamed
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.said import quoted_title
from crewboard.order.steam import of_task
from crewboard.plan.duration import Duration

_LONGEST = Duration(days=1)  # rule of this program, to catch a wrong unit


def steam_refusals(board: Board, act: Steamed) -> list[Refusal]:
    """The checks of the steam box are asked for when its work begins: so nothing goes in before."""
    title, standing = quoted_title(board.plan, act.task), board[act.task]
    if act.out:
        if of_task(board, act.task):
            return []
        return [Refusal("not-in", f"nothing of {title} is in the steam box", "look at the day")]
    if standing.begun is None or standing.work_done or standing.stopped is not None:
        mend = "begin it first: its checks are asked for then"
        return [Refusal("not-begun", f"{title} is not under way", mend)]
    if act.lasts is None or not act.lasts.about:
        return [Refusal("empty", "say how long it stays in", 'write it like "65 minutes"')]
    if act.lasts.about > _LONGEST.about:
        return [Refusal("long", "longer than a day in the steam box", "write minutes or hours")]
    return []
