"""The same work for each of several pieces: one table in the file, a task for each piece."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from crewboard.plan.piece import Piece
from crewboard.plan.task import Task


class Series(NamedTuple):
    """A task as it is written, and the tasks that it stands for, by piece.

    `places` is how many pieces the vehicle has of those named, spares not counted: so many of its
    tasks have to be finished before the series is.
    """

    task: Task
    members: Mapping[str, str]  # piece -> the id of its task
    places: int

    @property
    def id(self) -> str:
        return self.task.id

    def shares_pieces_with(self, other: "Series | None") -> bool:
        """Whether any piece has a task of both, so that the one follows the other by pieces."""
        return other is not None and not self.members.keys().isdisjoint(other.members)

    def of_pieces(self, pieces: Iterable[str], shares: bool) -> tuple[str, ...] | None:
        """Its tasks for these pieces; None where work on them that comes after it comes after all
        of it: it has none of them, and is of no series that `shares` pieces with it."""
        own = tuple(self.members[piece] for piece in pieces if piece in self.members)
        return own if own or shares else None


def written_out(task: Task, pieces: Iterable[Piece]) -> tuple[Series, dict[str, Task]]:
    """The series of a task for each of these pieces, and its tasks in the order of the pieces.

    Spares have tasks too: they are asked for where the task says so, or once a spare has taken the
    place of another piece.
    """
    asked = list(pieces)
    members = {piece.id: f"{task.id}/{piece.short}" for piece in asked}
    tasks = {
        members[piece.id]: task._replace(
            id=members[piece.id],
            title=f"{task.title}: {piece.name}",
            series=task.id,
            pieces=(piece.id,),
        )
        for piece in asked
    }
    return Series(task, members, sum(not piece.spare for piece in asked)), tasks
