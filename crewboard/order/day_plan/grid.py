"""The blocks of time in which a day is planned: on the clock from the opening on, breaks left out.

They are counted anew from the end of each break, and the last one before a break lasts until it: in
the few minutes that may be left there nobody begins anything. The grid does not move with the
moment at which the plan is asked for, so that asked again it is the same.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from crewboard.order.day_plan.proposal import Pause

# A block of which less than this share has passed is still begun: now.
LATE = 1 / 3


class Grid(NamedTuple):
    """`starts` and `ends` of each block that is still to come; `pauses` all breaks of the day."""

    starts: tuple[datetime, ...]
    ends: tuple[datetime, ...]
    block: timedelta
    pauses: tuple[Pause, ...] = ()

    @property
    def blocks(self) -> int:
        return len(self.starts)

    def first_from(self, moment: datetime) -> int:
        """The first block that begins then or later."""
        return bisect_left(self.starts, moment)

    def first_after(self, moment: datetime) -> int:
        """The first block that begins after it."""
        return bisect_right(self.starts, moment)

    def ended_by(self, moment: datetime) -> int:
        """How many blocks are over by then."""
        return bisect_right(self.ends, moment)

    def passed_since(self, start: datetime) -> int:
        """How many blocks' time has been worked from then until the first of these."""
        now = self.starts[0]
        breaks = (min(now, pause.end) - max(start, pause.start) for pause in self.pauses)
        worked = now - start - sum((max(timedelta(), each) for each in breaks), timedelta())
        return max(0, worked // self.block)

    @property
    def cuts(self) -> tuple[int, ...]:
        """The blocks that begin after a break: what is not to be interrupted ends before one of
        them, or begins with it or later."""
        ahead = (self.first_from(pause.end) for pause in self.pauses)
        return tuple(dict.fromkeys(block for block in ahead if 0 < block < self.blocks))

    def is_cut(self, start: int, end: int) -> bool:
        """Whether a break lies within these blocks."""
        return any(start < block < end for block in self.cuts)


def grid_of(
    opens: datetime,
    closes: datetime,
    block: timedelta,
    pauses: Sequence[Pause],
    now: datetime,
) -> Grid:
    """The blocks from `opens` to `closes` that are not begun before `now`, or only just."""
    blocks = [
        (start, end)
        for start, end in _blocks(opens, closes, block, pauses)
        if now < start + block * LATE
    ]
    return Grid(tuple(b[0] for b in blocks), tuple(b[1] for b in blocks), block, tuple(pauses))


def _blocks(
    opens: datetime, closes: datetime, block: timedelta, pauses: Sequence[Pause]
) -> Iterator[tuple[datetime, datetime]]:
    start = opens
    for pause in pauses:
        end = min(pause.start, closes)
        count = max(0, (end - start) // block)
        for number in range(count):
            begins = start + number * block
            yield begins, begins + block if number < count - 1 else end
        start = max(start, pause.end)
    for number in range(max(0, (closes - start) // block)):
        yield start + number * block, start + (number + 1) * block
