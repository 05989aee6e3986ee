"""Lines of a day that move nothing of the work, and are read when somebody asks for them."""

from collections.abc import Callable, Collection, Mapping

from crewboard.logbook.entry import Entry

Names = Mapping[tuple[str, str], Collection[str]]
"""What lines name, by the word of their kind and the thing: ("found", "piece") -> {"arches/3"}."""


class PutOff:
    """What is known of a day before all of its lines are read.

    `ids` are those of every line of the day, in order, with a blank between; `names` what the lines
    not read yet name: pieces, tasks, components and files, or what gives that when it is asked for;
    `read` gives every entry of the day, in the order of the file. Lines that are put off are of
    that day, of the record, replace nothing and take nothing back.
    """

    __slots__ = ("_names", "ids", "read")

    def __init__(
        self, ids: str, names: Names | Callable[[], Names], read: Callable[[], tuple[Entry, ...]]
    ) -> None:
        self.ids = ids
        self._names = names
        self.read = read

    @property
    def names(self) -> Names:
        """What the lines that are not read yet name."""
        if callable(self._names):
            self._names = self._names()
        return self._names

    def naming(self, *things: str) -> set[str]:
        """Everything of these things that the lines not read yet name."""
        return set().union(*(names for (_, thing), names in self.names.items() if thing in things))
