"""The blocks of time in which a day is planned: on the clock from the opening on, breaks left out.

A block is so many minutes of work; a break within it makes it longer by the clock. The grid does
not move with the moment at which the plan is asked for, so that asked again it is the same.
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
    """`starts` and `ends` of each block; `pauses` those of its breaks that are still to come."""

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

    def ended_by(self, moment: datetime) -> int:
        """How many blocks are over by then."""
        return bisect_right(self.ends, moment)

    @property
    def cuts(self) -> tuple[tuple[int, int], ...]:
        """For each break that lies in the day: what is not to be interrupted by it ends by the
        first block of the pair, or begins with the second."""
        return tuple(
            dict.fromkeys(
                (ended, begins)
                for pause in self.pauses
                for ended, begins in [(self.ended_by(pause.start), self.first_from(pause.end))]
                if ended > 0 or begins < self.blocks
            )
        )

    def is_cut(self, start: int, end: int) -> bool:
        """Whether a break lies within these blocks."""
        return any(start < begins and ended < end for ended, begins in self.cuts)


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
    begins = blocks[0][0] if blocks else closes
    ahead = tuple(pause for pause in pauses if pause.end > begins and pause.start < closes)
    return Grid(tuple(b[0] for b in blocks), tuple(b[1] for b in blocks), block, ahead)


def _blocks(
    opens: datetime, closes: datetime, block: timedelta, pauses: Sequence[Pause]
) -> Iterator[tuple[datetime, datetime]]:
    start = _past(opens, pauses)
    while True:
        end, left = start, block
        for pause in pauses:
            if start < pause.start < end + left:
                left -= pause.start - end
                end = pause.end
        end += left
        if end > closes:
            return
        yield start, end
        start = _past(end, pauses)


def _past(moment: datetime, pauses: Sequence[Pause]) -> datetime:
    """The moment, or the end of the break that it lies in."""
    for pause in pauses:
        if pause.start <= moment < pause.end:
            moment = pause.end
    return moment
