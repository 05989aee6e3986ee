"""The shop's clock: calendar arithmetic on local wall-clock times.

Moments are local times without an offset, as people write them. Where the shop has a time zone,
hours and minutes are elapsed time across a clock change; days and months keep the wall-clock time.
"""

from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import NamedTuple

from crewboard.plan.duration import Duration

# The years that a date or a moment of a crew can lie in; what is written further off is mistyped,
# and at the ends of the calendar nothing can be reckoned any more.
FIRST_YEAR, LAST_YEAR = 1800, 2200
FAR = datetime(9000, 1, 1)


class ShopClock(NamedTuple):
    """Adds durations to moments; `zone` None means a clock that never changes."""

    zone: tzinfo | None = None

    def add(self, moment: datetime, span: Duration) -> datetime:
        """The moment `span` later. 31 January + 1 month is the last day of February.

        Months first, then days, then elapsed minutes. A wall-clock time that a change skips moves
        forward by the gap, one that comes twice means the later: a hold is never cut short.
        What no calendar can reckon any more counts as `FAR`.
        """
        try:
            later = self.settled(_months_later(moment, span.months) + timedelta(days=span.days))
            return min(self.elapse(later, timedelta(minutes=span.minutes)), FAR)
        except OverflowError:
            return FAR

    def elapse(self, moment: datetime, elapsed: timedelta) -> datetime:
        """The wall-clock time after `elapsed` real time."""
        if self.zone is None or not elapsed:
            return moment + elapsed
        return (self.instant(moment) + elapsed).astimezone(self.zone).replace(tzinfo=None, fold=0)

    def between(self, start: datetime, end: datetime) -> timedelta:
        """Real time from start to end."""
        if self.zone is None:
            return end - start
        return self.instant(end) - self.instant(start)

    def instant(self, moment: datetime) -> datetime:
        """The moment in UTC; of a time that comes twice the later. Without a zone as typed."""
        if self.zone is None:
            return moment.replace(tzinfo=UTC)
        return moment.replace(tzinfo=self.zone, fold=self._fold(moment)).astimezone(UTC)

    def settled(self, moment: datetime) -> datetime:
        """The moment itself, or past the gap where a clock change skips it."""
        if self.zone is None:
            return moment
        there = moment.replace(tzinfo=self.zone, fold=0)
        return there.astimezone(UTC).astimezone(self.zone).replace(tzinfo=None, fold=0)

    def _fold(self, moment: datetime) -> int:
        # Of a time that comes twice the later is meant, of a skipped one either does.
        assert self.zone is not None
        first = moment.replace(tzinfo=self.zone, fold=0).utcoffset()
        second = moment.replace(tzinfo=self.zone, fold=1).utcoffset()
        return 1 if first is not None and second is not None and first > second else 0


def year_amiss(day: date) -> tuple[str, str]:
    """That a date or a moment lies in no year of a crew, and what to write; empty where it does."""
    if FIRST_YEAR <= day.year <= LAST_YEAR:
        return "", ""
    return f"in the year {day.year}", f"write a year from {FIRST_YEAR} to {LAST_YEAR}"


def _months_later(moment: datetime, months: int) -> datetime:
    if not months:
        return moment
    years, month = divmod(moment.month - 1 + months, 12)
    year, month = moment.year + years, month + 1
    if year > 9999:
        raise OverflowError("past the year 9999")
    return moment.replace(year=year, month=month, day=min(moment.day, _days_in(year, month)))


def _days_in(year: int, month: int) -> int:
    """Days of a month of the proleptic Gregorian calendar."""
    if month == 2:
        leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
        return 29 if leap else 28
    return 30 if month in (4, 6, 9, 11) else 31
