"""What each task that cannot go on waits for first: one cause a task, found in one walk.

`why` tells a task's whole chain; this tells the shortest answer for every task at once.
"""

from typing import Literal, NamedTuple

from crewboard.order.board import Board, Standing
from crewboard.order.holds.words import hold_title, stage_in_words
from crewboard.order.reasons.why import jig_in_words
from crewboard.order.said import day_in_words
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
    """The tasks that are waiting or held, together under what they wait for first.

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
        stopped = standing.state in ("waiting", "held") and not standing.work_done
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
    if standing.state == "waiting" and before is not None:
        return before
    if standing.short_of:
        return Cause("supply", standing.short_of[0])
    if standing.jigs:
        return Cause("jig", standing.jigs[0])
    return Cause("date", standing.task.id) if standing.state == "held" else None


def cause_in_words(board: Board, cause: Cause) -> tuple[str, str]:
    """What it is, and how that stands: "Bend the arches", "on the form until Tue 2 Jun 2026
    16:00"; of a file all in the first."""
    if cause.about == "hold":
        hold = board.holds[cause.id]
        stage = stage_in_words(board.plan, hold, board.at)
        return hold_title(board.plan, hold), f"{KINDS[hold.kind].words} {stage}"
    if cause.about == "supply":
        account = board.stock[cause.id]
        return account.supply.name, supply_in_words(account)
    if cause.about == "jig":
        jig = board.plan.vehicle.jigs[cause.id]
        return jig.name, jig_in_words(board, jig.id)
    if cause.about == "file":
        return of_the_files(board.unreadable, [cause.id])[0].says, ""
    standing = board[cause.id]
    if cause.about == "date" and standing.task.not_before is not None:
        return standing.task.title, f"not before {day_in_words(standing.task.not_before)}"
    return standing.task.title, standing.state
