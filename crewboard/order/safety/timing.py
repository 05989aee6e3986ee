"""When a check can be looked at: before the work, while it goes on, after it."""

from crewboard.logbook.acts import CheckSigned
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.presence import closed_at
from crewboard.order.safety.signatures import signatures
from crewboard.order.said import quoted_title
from crewboard.plan.hazard import Check, Hazard

_WHEN_LOOKED = "write --at and when it was looked at, or leave it unsigned"


def time_refusals(board: Board, hazard: Hazard, check: Check, act: CheckSigned) -> list[Refusal]:
    """What the moment has against the signature: nobody looks before there is something to see, or
    before work that is over. Whoever joins work under way still signs what comes before it, and a
    watch is looked at after its work has ended.
    """
    if act.task:
        return _of_task(board, check, act.task)
    if hazard.concerns == "day":
        return _of_day(board, check)
    if check.when == "during" and not _any_under_way(board, hazard):
        sentence = f"no work with {hazard.short} is under way: there is nothing to look at yet"
        return [Refusal("not-begun", sentence, "begin the work first")]
    return []


def _of_task(board: Board, check: Check, task_id: str) -> list[Refusal]:
    standing, title = board[task_id], quoted_title(board.plan, task_id)
    begun = standing.begun is not None or task_id in signatures(board).worked
    if check.when == "before":
        if standing.work_done:
            sentence = f"{title} is finished: nobody can look before it any more"
            return [Refusal("too-late", sentence, _WHEN_LOOKED)]
    elif not begun and not standing.work_done:
        sentence = f"{title} was not begun: this check is looked at {check.when} the work"
        return [Refusal("not-begun", sentence, "begin the work first")]
    return []


def _of_day(board: Board, check: Check) -> list[Refusal]:
    closed = closed_at(board)
    if check.when == "before" and closed is not None:
        sentence = f"the day was closed at {closed:%H:%M}: the shop cannot be opened before it"
        return [Refusal("too-late", sentence, _WHEN_LOOKED)]
    return []


def _any_under_way(board: Board, hazard: Hazard) -> bool:
    return any(hazard.id in standing.task.hazards for standing in board.in_state("under way"))
