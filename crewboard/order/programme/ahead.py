"""The next work days as blocks of time, and who is expected on each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from crewboard.order.ahead.work_time import DAY
from crewboard.order.assess import assess
from crewboard.order.board import Board, openings_of
from crewboard.order.presence import closed_at, coming, expected_on, of_the_day
from crewboard.plan.workdays import Opening

BLOCK = 30
"""Minutes of a block."""
# So many calendar days ahead a work day is looked for.
_FAR = 366


class Sitting(NamedTuple):
    """One opening of a day: its blocks from `first` to before `end`, and when it closes (minutes
    since midnight before the first day)."""

    day: int
    first: int
    end: int
    closes: int


class DayAhead(NamedTuple):
    """A work day to come. `board`: as of when its work begins, were nothing done until then.
    `people` are here or expected, in the order of the crew list; `said`: those who are here or said
    that they come."""

    board: Board
    openings: tuple[Opening, ...]
    people: tuple[str, ...]
    said: tuple[str, ...]

    @property
    def date(self) -> date:
        return self.board.at.date()


class DaysAhead(NamedTuple):
    """The days, their sittings, and when each block begins, in minutes since `base`."""

    base: datetime
    days: tuple[DayAhead, ...]
    sittings: tuple[Sitting, ...]
    starts: tuple[int, ...]

    def moment(self, minute: int) -> datetime:
        return self.base + timedelta(minutes=minute)

    def minute(self, moment: datetime) -> int:
        return int((moment - self.base).total_seconds() // 60)

    @property
    def ends(self) -> int:
        """The minute at which the last of the days is over: midnight after it."""
        if not self.days:
            return 0
        return ((self.days[-1].date - self.base.date()).days + 1) * DAY


def work_days_ahead(board: Board, count: int) -> DaysAhead:
    """The next `count` work days from the board's moment on, today's rest among them."""
    base = datetime.combine(board.at.date(), time.min)
    days: list[DayAhead] = []
    sittings: list[Sitting] = []
    starts: list[int] = []
    for far in range(closed_at(board) is not None, _FAR):
        if len(days) == count:
            break
        day = base.date() + timedelta(days=far)
        openings = openings_of(board.plan, board.logbook, day)
        before = len(starts)
        for opening in openings:
            first = len(starts)
            closes = _minute(opening.closes) + far * DAY
            starts += _blocks(board, base, far * DAY + _minute(opening.opens), closes)
            if len(starts) > first:
                sittings.append(Sitting(len(days), first, len(starts), closes))
        if len(starts) > before:
            begins = max(board.at, base + timedelta(minutes=starts[before]))
            days.append(_day_ahead(board, begins, openings))
    return DaysAhead(base, tuple(days), tuple(sittings), tuple(starts))


def _blocks(board: Board, base: datetime, opens: int, closes: int) -> Iterator[int]:
    """The beginnings of the blocks from the opening on that are not begun yet, round the breaks."""
    now = -int((base - board.at).total_seconds() // 60)
    midnight = opens // DAY * DAY
    breaks = [
        (midnight + _minute(each.begins), midnight + _minute(each.ends))
        for each in board.plan.vehicle.shop.breaks
    ]
    start = opens
    while start + BLOCK <= closes:
        over = [ends for begins, ends in breaks if begins < start + BLOCK and start < ends]
        if over:
            start = max(over)
            continue
        if start >= now:
            yield start
        start += BLOCK


def after_a_break(starts: Sequence[int], block: int) -> bool:
    """Whether a break lies between a block and the one before it."""
    return starts[block] != starts[block - 1] + BLOCK


def _minute(moment: time) -> int:
    return moment.hour * 60 + moment.minute


def _day_ahead(board: Board, begins: datetime, openings: tuple[Opening, ...]) -> DayAhead:
    there = board
    if begins.date() != board.at.date():
        there = assess(board.plan, board.logbook, begins, board.order, board.unreadable)
    answers = expected_on(board.logbook, begins.date())
    people = of_the_day(board) if there is board else coming(there)
    here = {visit.who for visit in there.present}
    said = tuple(w for w in people if w in here or (w in answers and answers[w].coming))
    return DayAhead(there, openings, tuple(people), said)


def free_blocks(ahead: DaysAhead, bit: dict[str, int]) -> list[int]:
    """Of each block the bits of those who are there all of it."""
    free = [0] * len(ahead.starts)
    for sitting in ahead.sittings:
        day = ahead.days[sitting.day]
        answers = expected_on(day.board.logbook, day.date)
        midnight = (day.date - ahead.base.date()).days * DAY
        for who in day.people:
            answer = answers.get(who)
            since = _minute(answer.arrives) if answer and answer.arrives else 0
            until = _minute(answer.leaves) if answer and answer.leaves else DAY
            for block in range(sitting.first, sitting.end):
                begins = ahead.starts[block] - midnight
                if since <= begins and begins + BLOCK <= until:
                    free[block] |= bit[who]
    return free
