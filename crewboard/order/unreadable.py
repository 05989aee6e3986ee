"""What could not be read, as values: nobody knows what stood there, so it may hold work back."""

from collections.abc import Sequence
from datetime import date
from typing import Literal, NamedTuple

from crewboard.order.said import day_in_words, listed
from crewboard.plan.plan import Plan

# "task" is one table of a component's file, "folder" one of the folders that hold the files.
Unread = Literal[
    "vehicle", "crew", "supplies", "hazards", "component", "task", "day", "readings", "folder"
]


class Unreadable(NamedTuple):
    """A file, or a part of one, that cannot be read, or that is gone and was known before.

    `file` is relative to the folder, with `/` ("./" for the whole). `why` says what is wrong
    ("line 60: this text has no end"), `mend` what to do. `about` is the id of the component or task
    of which it speaks, `day` the day, `named_by` are tasks that name what would stand in it.
    `remembered`: what it said when it was last read is still shown, so only what was added since is
    unknown. `partly`: the rest of the file can be read.
    """

    file: str
    kind: Unread
    why: str
    mend: str = ""
    about: str = ""
    day: date | None = None
    remembered: bool = False
    named_by: tuple[str, ...] = ()
    partly: bool = False

    @property
    def name(self) -> str:
        """ "Sat 25 Apr 2026", "crew.toml", "the task deck/lay-boards"."""
        if self.day is not None:
            return day_in_words(self.day)
        return f"the task {self.about}" if self.kind == "task" else self.file

    @property
    def says(self) -> str:
        """ "Sat 25 Apr 2026 cannot be read: line 60: this text has no end"."""
        return f"{self.name} cannot be read: {self.why}"

    @property
    def with_mend(self) -> str:
        """The same, and what to do."""
        return f"{self.says}; {self.mend}" if self.mend else self.says

    @property
    def in_full(self) -> str:
        """The same, with what follows from it."""
        shown = "; what it said when it was last read is shown" if self.remembered else ""
        return f"{self.says}; nothing that it may hold back begins{shown}"


def of_the_files(unreadable: Sequence[Unreadable], files: Sequence[str]) -> list[Unreadable]:
    """Those of these files, in their order."""
    return [one for one in unreadable if one.file in files]


def not_to_be_told(unreadable: Sequence[Unreadable]) -> list[Unreadable]:
    """Those of which nothing is known: without them no date can be told."""
    return [one for one in unreadable if not (one.partly or one.remembered)]


def unread_mend(plan: Plan, day: date, unread: Sequence[Unreadable]) -> str:
    """How work is begun all the same: the files are mended, or a lead answers for it."""
    mends = list(dict.fromkeys(one.mend for one in unread if one.mend))
    leads = [volunteer.name for volunteer in plan.crew.values() if volunteer.leads_on(day)]
    first = "; ".join(mends) or f"mend {listed(dict.fromkeys(one.file for one in unread))}"
    if not leads:
        return f"{first}; nobody is known as a lead, who could answer for it"
    return f"{first}, or let a lead ({' or '.join(leads)}) say why it is begun all the same"
