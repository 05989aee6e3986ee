"""What each task that cannot go on waits for first: one cause a task, found in one walk.

`why` tells a task's whole chain; this tells the shortest answer for every task at once.
"""

from typing import Literal, NamedTuple

from crewboard.logbook.state import NOT_YET
from crewboard.order.board import Board, Standing
from crewboard.order.holds.words import quoted_hold, stage_in_words
from crewboard.order.reasons.why import About, jig_in_words
from crewboard.order.said import (
    day_in_words,
    quoted_title,
)
from crewboard.order.sequence.links import gate_of
from crewboard.order.supplies import supply_in_words
from crewboard.order.unreadable import of_the_files
from crewboard.plan.hold import KINDS


class Cause(NamedTuple):
    """A root of waiting: a task to be done, a hold, a supply, a jig or a date, by its id; or a file
    that cannot be read, by its path."""

    about: Literal["task", "hold", "supply", "jig", "date", "file"]
    id: str


def waiting_on(board: Board) -> dict[Cause, list[str]]:
    """The tasks that are waiting or on hold, together under what they wait for first.

    Both in the order of work. A task whose own work is done and only sets is none of them.
    """
    cause: dict[str, Cause | None] = {}
    groups: dict[Cause, list[str]] = {}
    for node in board.order.sequence:
        first = next((c for b in board.order.before[node] if (c := cause[b]) is not None), None)
        if gate_of(node):
            held = board.readiness.holds.behind.get(node)
            cause[node] = first or (Cause("hold", held[0].id) if held else None)
            continue
        standing = board[node]
        cause[node] = own = _cause(standing, first)
        stopped = standing.state in NOT_YET and not standing.work_done
        if stopped and own is not None:
            groups.setdefault(own, []).append(node)
    return groups


def _cause(standing: Standing, before: Cause | None) -> Cause | None:
    """What whoever comes after this task waits for, as far as this task is the reason."""
    if standing.open_again and before is not None:
        return before
    if standing.state in ("ready", "under way", "set aside"):
        return Cause("task", standing.task.id)
    if standing.else_ready:
        return Cause("file", standing.unreadable[0])
    if standing.holds:
        return Cause("hold", standing.holds[0])
    if standing.waits and before is not None:
        return before
    if standing.short_of:
        return Cause("supply", standing.short_of[0])
    if standing.jigs:
        return Cause("jig", standing.jigs[0])
    return None if standing.waits or standing.work_done else Cause("date", standing.task.id)


def cause_in_words(board: Board, about: About, some_id: str) -> tuple[str, str]:
    """What it is, and how that stands: ""Bend the arches"", "on the form until Tue 2 Jun 2026
    16:00"; of a file all in the first."""
    if about == "hold":
        hold = board.holds[some_id]
        stage = stage_in_words(board.plan, hold, board.at)
        words = KINDS[hold.kind].words
        sets = f"{words} {stage}" if stage.startswith("until") else f"{words}, {stage}"
        return quoted_hold(board.plan, hold), sets
    if about == "supply":
        account = board.stock[some_id]
        return account.supply.name, supply_in_words(account)
    if about == "jig":
        jig = board.plan.vehicle.jigs[some_id]
        return jig.name, jig_in_words(board, jig.id)
    if about == "file":
        return of_the_files(board.unreadable, [some_id])[0].says, ""
    standing, title = board[some_id], quoted_title(board.plan, some_id)
    if about == "date" and standing.task.not_before is not None:
        return title, f"not before {day_in_words(standing.task.not_before)}"
    return title, standing.state
