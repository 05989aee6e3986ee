"""The words of each reason why people may not do a task, and of how it is mended."""

from collections.abc import Callable, Iterable

from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.may import moment_words
from crewboard.order.may.moment_words import Words
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.words_of_people import OF_PEOPLE
from crewboard.order.said import (
    component_name,
    day_and_time,
    listed,
    piece_name,
)
from crewboard.order.unreadable import of_the_files, unread_mend
from crewboard.plan.task import Task


def as_refusals(board: Board, task_id: str, obstacles: Iterable[Obstacle]) -> list[Refusal]:
    """The reasons as refusals to begin the task, each sentence once."""
    refusals = [as_refusal(board, task_id, obstacle) for obstacle in obstacles]
    return list(dict.fromkeys(refusals))


def as_refusal(board: Board, task_id: str, obstacle: Obstacle) -> Refusal:
    """One reason as a refusal to begin the task."""
    sentence, mend = _SAYS[obstacle.code](board, board.plan.tasks[task_id], obstacle)
    lead = obstacle.yields_to == "lead"
    # Nobody says of their own paper that it will do.
    theirs = obstacle.people if obstacle.code == "paper" else ()
    return Refusal(obstacle.code, sentence, mend, obstacle.yields, lead=lead, not_by=theirs)


# --- where the task stands -----------------------------------------------------------------------


def _finished(_board: Board, task: Task, obstacle: Obstacle) -> Words:
    work = f'the work of "{task.title}"' if obstacle.holds else f'"{task.title}"'
    return f"{work} is finished", "reopen it first"


def _set_aside(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    return f'"{task.title}" is set aside: {board[task.id].aside}', "pick it up again first"


def _under_way(_board: Board, task: Task, obstacle: Obstacle) -> Words:
    since = day_and_time(obstacle.until) if obstacle.until else "before"
    sentence = f'"{task.title}" has been under way since {since}'
    return sentence, "add people to it, or finish it"


def _not_yet(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    """What it waits for in the end: work that can be done, holds, supplies, dates."""
    from crewboard.order.reasons.waiting_on import cause_in_words
    from crewboard.order.reasons.why import roots

    first = []
    for reason in roots(board, task.id):
        name, stand = cause_in_words(board, reason.about, reason.id)
        alone = _left_alone(board, reason.id) if reason.about == "hold" else ""
        first.append(f"{name} ({stand}{alone})" if stand else name)
    more = f" and {len(first) - 3} more" if len(first) > 3 else ""
    sentence = f'"{task.title}" cannot begin yet. First: {", ".join(first[:3])}{more}'
    return sentence, "wait, or say why it is begun all the same"


def _left_alone(board: Board, hold_id: str) -> str:
    hold = board.holds[hold_id]
    if not hold.leave_alone:
        return ""
    return f"; leave {component_name(board.plan, hold.component) or 'it'} alone"


def _to_stop(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    from crewboard.order.reasons.why import stop_in_words

    sentence = f'"{task.title}" is under way; {stop_in_words(board, board[task.id])}'
    return sentence, "wait until that is over, or say why the work goes on all the same"


def _short_of(board: Board, task: Task, obstacle: Obstacle) -> Words:
    from crewboard.order.supplies import supply_in_words

    accounts = [board.stock[supply_id] for supply_id in obstacle.supplies]
    names = listed(f"{account.supply.name} ({supply_in_words(account)})" for account in accounts)
    sentence = f'for "{task.title}" something is missing: {names}'
    return sentence, "wait for it, or say why the work goes on all the same"


def _follows_late(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    from crewboard.order.within import must_follow
    from crewboard.order.within_words import begin_by_in_words

    sentence = begin_by_in_words(board, must_follow(board)[task.id])
    mend = "do that first; or a lead who looked says why it is begun all the same"
    return f'"{task.title}" is {sentence}', mend


def _unreadable(board: Board, task: Task, obstacle: Obstacle) -> Words:
    unread = of_the_files(board.unreadable, obstacle.files)
    sentence = f'"{task.title}" may be held back: {"; ".join(one.says for one in unread)}'
    return sentence, unread_mend(board.plan, board.at.date(), unread)


def _not_pictured(board: Board, task: Task, obstacle: Obstacle) -> Words:
    names = [piece_name(board.plan, piece) for piece in obstacle.pieces]
    of_what = listed(names) or component_name(board.plan, task.component)
    sentence = f'"{task.title}" {task.changes} what was there, and there is no picture of {of_what}'
    return sentence, "take its picture and say what it shows; or a lead says why there is none"


def _kept(board: Board, task: Task, obstacle: Obstacle) -> Words:
    names = listed(piece_name(board.plan, piece) for piece in obstacle.pieces)
    are = "is" if len(obstacle.pieces) == 1 else "are"
    sentence = f'{names} {are} kept for ever, and "{task.title}" {task.changes} what is there'
    return sentence, "leave it as it is; or a lead says why it goes"


_SAYS: dict[str, Callable[[Board, Task, Obstacle], Words]] = {
    **OF_PEOPLE,
    "finished": _finished,
    "set-aside": _set_aside,
    "under-way": _under_way,
    "waiting": _not_yet,
    "open-again": _to_stop,
    "held-again": _to_stop,
    "supply": _short_of,
    "follows-late": _follows_late,
    "unreadable": _unreadable,
    "picture": _not_pictured,
    "kept": _kept,
    "not-used": moment_words.not_used,
    "day-closed": moment_words.day_closed,
    "finished-without": moment_words.finished_without,
    "together": moment_words.together,
    "near": moment_words.near,
    "place-closed": moment_words.place_closed,
    "place-taken": moment_words.place_taken,
    "clock": moment_words.clock,
    "entry": moment_words.entry,
    "no-closing": moment_words.no_closing,
    "too-late": moment_words.too_late,
    "ends-late": moment_words.ends_late,
    "air": moment_words.air,
    "room": moment_words.room,
    "temporary": moment_words.temporary,
    "in-one-go": moment_words.in_one_go,
    "half-done": moment_words.half_done,
    "unnamed": moment_words.unnamed,
    "unopened": moment_words.unopened,
    "unsigned": moment_words.unsigned,
    "waived-by-doer": moment_words.waived_by_doer,
}
