"""What the lead has decided before a plan for the day is proposed."""

from __future__ import annotations

from datetime import time
from typing import NamedTuple


class Fixed(NamedTuple):
    """A part of the plan that the lead has fixed.

    The task is done on the day; `people` are on it (others may join, unless `only`); it begins at
    `start` where one is given.
    """

    task: str
    people: tuple[str, ...] = ()
    start: time | None = None
    only: bool = False


class Wish(NamedTuple):
    """`people` are those to plan for; empty for who is here, else who is expected.

    `fixed` parts stay as they are; tasks in `left_out` are not planned; `apart` are pairs of a
    person and a task that do not go together. Times are planned in blocks of `block` minutes.
    """

    people: tuple[str, ...] = ()
    fixed: tuple[Fixed, ...] = ()
    left_out: tuple[str, ...] = ()
    apart: tuple[tuple[str, str], ...] = ()
    block: int = 30
