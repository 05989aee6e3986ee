"""What an operation did, or why nothing was written."""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from crewboard.logbook.entry import Entry
from crewboard.order.admit.refusal import Refusal

if TYPE_CHECKING:
    from crewboard.folder.disk.undo import FileChange


class Outcome(NamedTuple):
    """What an operation did: the entries kept and files written, or why nothing was.

    `remarks` are sentences for a person: what did not go as it should though all was kept, or
    what a shop reading does to the clocks of holds. `line` is the place of the line that is
    refused, among those that were to be written; None where it is none of them.
    """

    entries: tuple[Entry, ...] = ()
    files: tuple[str, ...] = ()
    refused: tuple[Refusal, ...] = ()
    remarks: tuple[str, ...] = ()
    line: int | None = None

    @property
    def kept(self) -> bool:
        return not self.refused


class Done(NamedTuple):
    """One operation of this sitting that can be undone: entries kept, or files of the plan."""

    says: str
    changes: tuple["FileChange", ...]
    entries: tuple[tuple[date, Entry], ...] = ()


class NotAdmitted(Exception):
    """Carries refusals out of the middle of an operation."""

    def __init__(self, refusals: Sequence[Refusal], line: int | None = None) -> None:
        super().__init__(str(refusals[0]))
        self.refusals, self.line = refusals, line


def not_read_back(path: str) -> Refusal:
    """What was written to a file cannot be read there."""
    sentence = f"nothing was saved: what was written to {path} could not be read there"
    return Refusal("not-read", sentence, "look what stands in its way: crewboard check DIR")


def only_shown() -> Refusal:
    """The folder was written by a newer program."""
    sentence = "this folder was written by a newer program and is only shown"
    return Refusal("newer", sentence, "bring this program up to date")
