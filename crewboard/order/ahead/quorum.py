"""Gates that are passed before all of what stands right before them is done.

A series is done when as many of its tasks are finished as the vehicle has places: a spare made
beside them may count for a piece that failed, and what comes after may say that fewer are enough.
"""

from collections.abc import Mapping
from typing import NamedTuple

from crewboard.order.board import Board


class Quorum(NamedTuple):
    """A gate of a series is passed once `need` of the tasks `of` are; `short`: too few are left, so
    that it stays shut until somebody decides what to do instead."""

    need: int
    of: tuple[str, ...]
    short: bool = False

    def passed_at(self, over: Mapping[str, int]) -> int:
        """When so many are, by when each of them is over; 0 where none is asked for."""
        return sorted(over[task] for task in self.of)[self.need - 1] if self.need else 0

    def bound(self, over: Mapping[str, int], by: int) -> frozenset[str]:
        """The tasks without each of which too few would be over by then."""
        in_time = [task for task in self.of if over[task] <= by]
        if len(in_time) > self.need:
            return frozenset()
        return frozenset(in_time if len(in_time) == self.need else self.of)


def quorums(board: Board) -> dict[str, Quorum]:
    """The gates of series that do not simply wait for all that stands right before them.

    Tasks that nobody is asked to do do not count; of a piece that failed not even finished ones.
    What is set aside counts only where there is not enough without it.
    """
    return {
        gate: quorum
        for gate, enough in board.order.enough.items()
        if (quorum := _quorum(board, gate, enough)) is not None
    }


def _quorum(board: Board, gate: str, enough: int) -> Quorum | None:
    before = board.order.before[gate]
    if enough == len(before) and not any(task in board.not_asked for task in before):
        return None
    counting = tuple(task for task in before if _counts(board, task))
    to_do = tuple(task for task in counting if board[task].state != "set aside")
    if len(to_do) >= enough:
        return Quorum(enough, to_do)
    return Quorum(len(counting), counting, len(counting) < enough)


def _counts(board: Board, task: str) -> bool:
    not_asked = board.not_asked.get(task)
    return not_asked is None or (board[task].work_done and not not_asked.lost)
