"""A row of a list: one thing with its cells and the lines below it, and the headings between.

The state of a task stands first in its row, in the tone of that state.
"""

from typing import NamedTuple

from crewboard.logbook.state import State
from crewboard.telling.line import Tone

STATE_TONE: dict[State, Tone] = {
    "ready": "safe",
    "under way": "strong",
    "on hold": "caution",
    "needs supplies": "caution",
    "waiting": "faint",
    "finished": "faint",
    "set aside": "faint",
}


class Row(NamedTuple):
    """One thing in the list. `id` empty: a heading, which the cursor passes over.

    The first cell is the word of its state and takes `tone`; `below` are further lines of the row.
    `pinned` rows stay when a filter leaves others out.
    """

    id: str
    cells: tuple[str, ...]
    tone: Tone = "plain"
    below: tuple[str, ...] = ()
    marked: bool | None = None  # in a list to mark several: whether it is
    find: str = ""  # further text that a filter looks at
    body_tone: Tone = "plain"
    struck: int = 0  # so many of its lines are struck through: they do not count any more
    below_in_full: tuple[str, ...] = ()  # what a command adds below; screens tell it beside
    handle: str = ""  # by what a command calls it; the screens, which have a cursor, do not show it
    depth: int = 0  # levels below the top of a tree
    share: float | None = None  # how much of it has passed, 0 to 1, where that is known
    # The tasks that the keys take with it, where it can be marked; of a row of holds, the holds.
    tasks: tuple[str, ...] = ()
    folded: bool | None = None  # of what can be opened: whether it is folded
    below_tone: Tone = "faint"
    planned: str = ""  # when it is to begin by the plan of the day: "now", "11:00"


def heading(text: str, tone: Tone = "faint", tail: str = "") -> Row:
    """A line between rows. The `tail` behind its text stays where a narrow list cuts that."""
    return Row("", (text, tail) if tail else (text,), tone)


def percent(share: float) -> int:
    """A share of 0 to 1 in whole percent: 100 only at the end, so that nothing seems over early."""
    return 100 if share >= 1 else min(99, int(share * 100))
