"""Lines of a day that move nothing of the work, and are read when somebody asks for them."""

from collections.abc import Callable
from typing import NamedTuple

from crewboard.logbook.entry import Entry


class PutOff(NamedTuple):
    """What is known of a day before all of its lines are read.

    `ids` are those of every line of the day; `names` the tasks and components that the lines not
    read yet name; `read` gives every entry of the day, in the order of the file.
    Lines that are put off are of the record, replace nothing and take nothing back.
    """

    ids: frozenset[str]
    names: frozenset[str]
    read: Callable[[], tuple[Entry, ...]]
