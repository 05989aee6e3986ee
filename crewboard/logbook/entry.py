"""One line of a day's file: what happened, when, and who wrote it down."""

from datetime import datetime
from typing import NamedTuple

from crewboard.logbook.acts import Act
from crewboard.logbook.kinds import KINDS_OF_ENTRY


class Entry(NamedTuple):
    """An entry as it stands in the file.

    `at` is when it happened, `written` when it was put down where that was another time,
    `by` the person who wrote it. `replaces` names the entry that this one corrects.
    """

    id: str
    at: datetime
    act: Act
    by: str = ""
    written: datetime | None = None
    replaces: str = ""

    @property
    def kind(self) -> str:
        """The word in the file."""
        return KINDS_OF_ENTRY[type(self.act)].word
