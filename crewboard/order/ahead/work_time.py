"""Working time: the hours the shop is open, laid end to end.

Moments are whole minutes since midnight before the first day, on the shop's wall clock. Work
happens only while the shop is open; a span of work that does not fit a day goes on with the next.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from datetime import date, datetime, time, timedelta

from crewboard.plan.workdays import Opening, WorkDays

DAY = 1440
# Where the calendar names no work day for this long, one a week is assumed, and told; for less
# where it has no rule, so that nothing more is to come.
SILENT_DAYS = 400
WITHOUT_RULE = 6
# Past this no calendar is looked up: whatever is left counts as one long day.
MOST_DAYS = 366 * 100
_ENDLESS = 10**12


class WorkTime:
    """The work days from the day of `start` on, looked up as far as somebody asks.

    `today` are the openings of the first day, none where the shop stays closed. `opens`, `closes`:
    minutes of each opening; a day that has two counts as two. `worked`: working minutes before
    each. `assumed_from` is the first day that the calendar did not name.
    """

    __slots__ = ("_ahead", "_days", "assumed_from", "base", "closes", "now", "opens", "worked")

    def __init__(self, days: WorkDays, start: datetime, today: Sequence[Opening]) -> None:
        self._days = days
        self._ahead = 1
        self.base = datetime.combine(start.date(), time.min)
        self.now = self.minute(start)
        self.opens: list[int] = []
        self.closes: list[int] = []
        self.worked: list[int] = []
        self.assumed_from: date | None = None
        self._add(0, today)

    def minute(self, moment: datetime) -> int:
        """Minutes since the base, a part of one counted whole."""
        return -int((self.base - moment).total_seconds() // 60)

    def moment(self, minute: float) -> datetime:
        """The moment of a minute; the last there is, where it lies past the calendar."""
        try:
            return self.base + timedelta(minutes=minute)
        except OverflowError:
            return datetime.max.replace(second=0, microsecond=0)

    def day_from(self, minute: int) -> int:
        """Which work day is the first that closes after the minute."""
        while not self.closes or self.closes[-1] <= minute:
            self._grow()
        return bisect_right(self.closes, minute)

    def open_from(self, minute: int) -> int:
        """The first minute from then on at which the shop is open."""
        return max(minute, self.opens[self.day_from(minute)])

    def last_open(self, minute: int) -> int:
        """The last minute up to then at which the shop is open; before the first day, itself."""
        day = self.day_from(minute)
        if minute >= self.opens[day] or not day:
            return minute
        return self.closes[day - 1] - 1

    def next_day(self, minute: int) -> int:
        """When the shop opens on the first work day after the calendar day of the minute."""
        midnight = (minute // DAY + 1) * DAY
        while not self.opens or self.opens[-1] < midnight:
            self._grow()
        return self.opens[bisect_left(self.opens, midnight)]

    def finish(self, start: int, length: int) -> int:
        """When work of `length` minutes begun at `start` ends; at a day's close, not the next
        morning. Work of no length is done as soon as the shop is open."""
        day = self.day_from(start)
        begin = max(start, self.opens[day])
        end = begin + length
        if end <= self.closes[day]:
            return end
        done = self.worked[day] + begin - self.opens[day] + length
        return self._reached(done)

    def latest_start(self, finish: int, length: int) -> int:
        """The latest begin of `length` minutes of work that end by `finish`."""
        done = self.worked_by(finish) - length
        if done < 0:
            return self.opens[0] + done
        day = bisect_right(self.worked, done) - 1
        return self.opens[day] + done - self.worked[day]

    def worked_by(self, minute: int) -> int:
        """Working minutes from the first day's opening until then; below nought before it."""
        if minute < 0:
            return minute
        day = self.day_from(minute)
        return self.worked[day] + max(0, minute - self.opens[day])

    def _reached(self, done: int) -> int:
        """The earliest minute at which so many working minutes are over."""
        while self.worked[-1] < done:
            self._grow()
        day = bisect_left(self.worked, done) - 1
        return self.opens[day] + done - self.worked[day]

    def _grow(self) -> None:
        """Look up the next work day."""
        last = self.opens[-1] // DAY if self.opens else -1
        if last >= MOST_DAYS:
            self._append_endless()
            return
        today = self.base.date()
        while self._ahead <= MOST_DAYS:
            ahead = self._ahead
            self._ahead += 1
            day = today + timedelta(days=ahead)
            openings: Sequence[Opening] = ()
            if self.assumed_from is None:
                openings = self._days.openings_on(day)
                if not openings and ahead - last > self._silent(day):
                    self.assumed_from = day
            if self.assumed_from is not None and (day - self.assumed_from).days % 7 == 0:
                openings = (self._days.usual,)
            before = len(self.opens)
            self._add(ahead, openings)
            if len(self.opens) > before:
                return
        self._append_endless()

    def _silent(self, day: date) -> int:
        """For how many days the calendar may name no work day before one a week is assumed."""
        days = self._days
        more = days.rules or any(extra >= day for extra, _ in days.also)
        return SILENT_DAYS if more else WITHOUT_RULE

    def _append_endless(self) -> None:
        opens = self.closes[-1] if self.closes else self._ahead * DAY
        self._append(opens, opens + _ENDLESS)

    def _add(self, ahead: int, openings: Sequence[Opening]) -> None:
        at = ahead * DAY
        for opens, closes in openings:
            first, last = opens.hour * 60 + opens.minute, closes.hour * 60 + closes.minute
            if last > first or not ahead:
                self._append(at + first, at + last)

    def _append(self, opens: int, closes: int) -> None:
        before = self.worked[-1] + self.closes[-1] - self.opens[-1] if self.worked else 0
        self.opens.append(opens)
        self.closes.append(closes)
        self.worked.append(before)
