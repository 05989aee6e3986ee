"""How long what must be waited for will take: holds, deliveries, dates."""

from __future__ import annotations

from datetime import date, timedelta

from crewboard.order.ahead.work_time import DAY, WorkTime
from crewboard.order.board import Board, Standing
from crewboard.order.holds.running import StandingHold
from crewboard.order.supplies import expected_by
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.plan.hold import Hold


class HoldLengths:
    """How long a hold takes that starts on a given day: looked up once for each span and day.

    Months differ in length and clocks change, so a span is no fixed number of minutes. Of the
    lengths that a span has within one work day the longest is taken: a hold is never cut short.
    """

    __slots__ = ("_clock", "_known", "_time")

    def __init__(self, clock: ShopClock, time: WorkTime) -> None:
        self._clock = clock
        self._time = time
        self._known: dict[tuple[Duration, int], int] = {}

    def length(self, span: Duration, day: int) -> int:
        """Minutes of a hold that starts on the work day with that number."""
        known = self._known.get((span, day))
        if known is None:
            known = self._known[(span, day)] = self._look_up(span, day)
        return known

    def _look_up(self, span: Duration, day: int) -> int:
        if self._clock.zone is None and not span.months:
            return span.days * DAY + span.minutes
        lengths = []
        for minute in {self._time.opens[day], self._time.closes[day]}:
            start = self._time.moment(minute)
            try:
                lengths.append(self._time.minute(self._clock.add(start, span)) - minute)
            except OverflowError:
                lengths.append(span.months * 31 * DAY + span.days * DAY + span.minutes)
        return max(lengths)

    def ends(self, hold: Hold, finish: int, *, look: bool) -> int:
        """When nothing stands in the way of the work behind a hold that starts at `finish`.

        What has no span of its own (an inspection, a decision) is taken to be over when the crew
        next meets; what asks for a look is over when the shop is next open.
        """
        if hold.lasts is None:
            return self._time.next_day(finish)
        # Work may end exactly when the shop closes: still that day, not the next.
        end = finish + self.length(hold.lasts, self._time.day_from(finish - 1))
        return self._time.open_from(end) if look else end

    def latest_finish(self, hold: Hold, over_by: int, *, look: bool) -> int:
        """The latest end of the work whose hold is over by then."""
        time = self._time
        if hold.lasts is None:
            day = time.day_from(max(0, over_by))
            while day >= 0 and time.opens[day] > over_by:
                day -= 1
            return time.closes[day - 1] if day > 0 else -1
        if look:
            over_by = time.last_open(over_by)
        span = hold.lasts
        least = span.months * 28 * DAY + span.days * DAY + span.minutes - 120
        day = time.day_from(max(0, over_by - max(0, least)))
        while day > 0 and time.opens[day] + self.length(span, day) > over_by:
            day -= 1
        return min(time.closes[day], over_by - self.length(span, day))


def hold_over(time: WorkTime, hold: StandingHold) -> int:
    """When a running hold lets go, as far as can be known now.

    One that is due ends as soon as the shop is open: somebody must look. One that only a word ends
    is taken to be over when the crew next meets.
    """
    if hold.until is None:
        return time.next_day(time.now)
    end = max(time.now, time.minute(hold.until))
    return time.open_from(end) if hold.asks else end


def free_from(board: Board, time: WorkTime, standing: Standing, supplies: bool = True) -> int:
    """Before when a task cannot begin, whatever work comes before it: now, running holds on it,
    its fixed date and, unless they are left out, deliveries. What is overdue is taken to come when
    the crew next meets."""
    free = time.now
    for hold_id in standing.holds:
        free = max(free, hold_over(time, board.holds[hold_id]))
    for supply_id in standing.short_of if supplies else ():
        day = expected_by(board.plan, board.stock[supply_id], board.at.date())
        if day is None or day <= board.at.date():
            free = max(free, time.next_day(time.now))
        else:
            free = max(free, _midnight(time, day))
    if standing.task.not_before is not None:
        free = max(free, _midnight(time, standing.task.not_before))
    return free


def _midnight(time: WorkTime, day: date) -> int:
    return (day - time.base.date()) // timedelta(days=1) * DAY
