"""The work days ahead in minutes, and how long holds take from each: shared by all courses."""

from __future__ import annotations

from datetime import date

from crewboard.order.ahead.waits import HoldLengths
from crewboard.order.ahead.work_time import DAY, WorkTime
from crewboard.order.forecast.model import Model
from crewboard.plan.duration import Duration


class WorkDayTable:
    """Opening and closing minutes by the number of the work day; the first may have begun.

    `needs`: of each task who is allowed, the fewest people, who must be among them, the bits of its
    place and of the jigs that it uses. `longest` are the minutes of the longest usual day.
    """

    def __init__(self, model: Model) -> None:
        self.time = WorkTime(model.work_days, model.start, model.today)
        self.now = self.time.now
        self.needs = [(w.allowed, w.least, w.covers, w.place | w.uses) for w in model.work]
        self.in_one_go = [task for task, work in enumerate(model.work) if work.in_one_go]
        days = model.work_days
        usual = (days.usual, *(opening for _, opening in days.also if opening is not None))
        self.longest = 60 * max(opening.length for opening in (*usual, *model.today))
        self._lengths = HoldLengths(model.clock, self.time)
        self._hours: list[tuple[int, int]] = []
        self._dates: list[date] = []

    def day_from(self, minute: float) -> int:
        """The first work day that closes after the minute."""
        return self.time.day_from(int(minute))

    def hours(self, day: int) -> tuple[int, int]:
        """When work can begin and must end on that day: not before now."""
        if day >= len(self._hours):
            self._reach(day)
        return self._hours[day]

    def date(self, day: int) -> date:
        """The day's date, which is known once its hours are."""
        return self._dates[day]

    def hold_length(self, span: Duration, finish: float) -> int:
        """Minutes of a hold that starts at that moment of a work day."""
        return self._lengths.length(span, self.time.day_from(int(finish) - 1))

    def open_from(self, minute: float) -> int:
        """The first minute from then on at which the shop is open."""
        up = -int(-minute // 1)
        return self.time.open_from(up)

    def next_day(self, minute: float) -> int:
        return self.time.next_day(int(minute))

    def _reach(self, day: int) -> None:
        time = self.time
        while len(time.opens) <= day:
            time.day_from(time.closes[-1] if time.closes else DAY)
        for number in range(len(self._hours), len(time.opens)):
            opens, closes = time.opens[number], time.closes[number]
            self._hours.append((max(self.now, opens), max(self.now, closes)))
            self._dates.append(time.moment(opens).date())
