"""One line of a day's file: what happened, when, and who wrote it down; and one to be written."""

from datetime import date, datetime
from typing import Any, NamedTuple, cast

from crewboard.logbook.acts import Act
from crewboard.logbook.fields import has_own_reason
from crewboard.logbook.kinds import KINDS_OF_ENTRY


class Entry(NamedTuple):
    """An entry as it stands in the file.

    `at` is when it happened, `written` when it was put down where that was another time,
    `by` the person who wrote it. `replaces` names the entry that this one corrects. `despite` is
    why it was written although it was doubted; `by` answers for it.
    """

    id: str
    at: datetime
    act: Act
    by: str = ""
    written: datetime | None = None
    replaces: str = ""
    despite: str = ""

    @property
    def kind(self) -> str:
        """The word in the file."""
        return KINDS_OF_ENTRY[type(self.act)].word


class Said(NamedTuple):
    """An act, the moment it happened and, for a correction, the entry that it replaces.

    `day` is the work day in whose file it goes, where that is not the day it happened on. `despite`
    is the reason to write it although something stands against it that yields to one. `by` answers
    for it, where that is not who writes it down along with others.
    """

    act: Act
    at: datetime
    replaces: str = ""
    day: date | None = None
    despite: str = ""
    by: str = ""

    @property
    def insisted(self) -> Act:
        """The act, with the reason in it where it has room for one."""
        if self.despite and has_own_reason(self.act):
            return cast("Act", cast("Any", self.act)._replace(despite=self.despite))
        return self.act

    @property
    def reason(self) -> str:
        """Why it is written although something stands against it, empty where nobody said."""
        return (self.despite or getattr(self.act, "despite", "")).strip()

    @property
    def file_day(self) -> date:
        return self.day or self.at.date()


def on_day(day: date, now: datetime) -> datetime:
    """Now, or that time of that day where it is another one."""
    return now if now.date() == day else datetime.combine(day, now.time())


def written_down(at: datetime, put_down: datetime) -> datetime | None:
    """When an entry of the moment `at` was put down; None where that was in the same minute."""
    same = abs((put_down - at).total_seconds()) < 60
    return None if same else put_down.replace(microsecond=0)
