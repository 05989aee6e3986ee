"""Lines of a day that move nothing of the work, and are read when somebody asks for them."""

from collections.abc import Callable, Mapping, Set
from typing import NamedTuple

from crewboard.logbook.entry import Entry

Names = Mapping[tuple[str, str], Set[str]]
"""What lines name, by the word of their kind and the thing: ("found", "piece") -> {"arches/3"}."""


class PutOff(NamedTuple):
    """What is known of a day before all of its lines are read.

    `ids` are those of every line of the day; `names` what the lines not read yet name: pieces,
    tasks, components and files; `read` gives every entry of the day, in the order of the file.
    Lines that are put off are of that day, of the record, replace nothing and take nothing back.
    """

    ids: frozenset[str]
    names: Names
    read: Callable[[], tuple[Entry, ...]]

    def naming(self, *things: str) -> set[str]:
        """Everything of these things that the lines not read yet name."""
        return set().union(*(names for (_, thing), names in self.names.items() if thing in things))
