"""What the vehicle is made of: ribs, sashes, boards, wires, each with an id of its own."""

import re
from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

AsFound = Literal["original", "earlier repair", "later change", "missing", "unknown"]
# A number of one of several, or from one to another: "3", "1-9", "1 to 9".
_NUMBERS = re.compile(r"(\d{1,4})(?:\s*(?:-|to)\s*(\d{1,4}))?")
MOST_OF_A_KIND = 999


class Piece(NamedTuple):
    """One piece of a component: `id` is "roof/ribs/3", or "roof/ridge" where there is only one.

    `component` is the component or part that it belongs to, `several` the id of the table by which
    it is one of several ("roof/ribs"), empty for a single one. `spare` pieces are made beside
    those that the vehicle has, and stand ready to take the place of one.
    """

    id: str
    name: str
    component: str
    several: str = ""
    number: int = 0
    spare: bool = False
    kind: str = ""
    material: str = ""
    size: str = ""
    place: str = ""  # where on the vehicle it sits
    as_found: AsFound = "unknown"
    period: str = ""  # of which time it is
    condition: str = ""  # as found
    intended: str = ""  # what is to be done with it
    why: str = ""  # and why
    keep: bool = False  # kept for ever as it is: never cut, stripped or painted over
    runs_from: str = ""  # of wires and pipes
    runs_to: str = ""
    serves: str = ""  # what a wire or pipe is for
    live: bool | None = None  # whether it carries anything; None: not a wire or pipe, or not known
    pictures: tuple[str, ...] = ()
    extent: str = ""  # its length, area or volume: "2.4 m", "0.8 m2", "0.02 m3"
    finding: str = ""  # the entry of the finding for which it is kept, or intended

    @property
    def short(self) -> str:
        """Its id within its component's file: "ribs/3"."""
        return self.id.partition("/")[2]


def numbers_of(text: str) -> Iterator[int]:
    """The numbers of "3", "1-9", "1 to 9" or "1-3, 7". Raises ValueError for anything else."""
    for part in text.split(","):
        match = _NUMBERS.fullmatch(part.strip())
        if match is None:
            raise ValueError(text)
        first = int(match[1])
        last = int(match[2] or match[1])
        if not first <= last <= MOST_OF_A_KIND:
            raise ValueError(text)
        yield from range(first, last + 1)


def pieces_named(
    text: str, file: str, pieces: Mapping[str, Piece], several: Mapping[str, tuple[str, ...]]
) -> tuple[str, ...]:
    """The ids of the pieces that a name stands for; empty where it stands for none.

    A name is looked up first in its own file, then as a full id: "ribs" are all ribs, "ribs/3" is
    one, "ribs 1 to 9" and "ribs/1-9" are nine of them.
    """
    for full in (f"{file}/{text}", text):
        if full in several:
            return several[full]
        if full in pieces:
            return (full,)
    for mark in ("/", " "):
        name, found, numbers = text.rpartition(mark) if mark == "/" else text.partition(mark)
        for group in (f"{file}/{name}", name) if found else ():
            if group in several:
                try:
                    ids = [f"{group}/{number}" for number in numbers_of(numbers)]
                except ValueError:
                    continue
                if all(one in pieces for one in ids):
                    return tuple(dict.fromkeys(ids))
    return ()
