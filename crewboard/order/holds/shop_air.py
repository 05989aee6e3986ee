"""What is known of the shop's air, and when it was outside what a hold wants.

A reading holds good until the next one; before the first the shop is taken to be as asked. Where a
reading tells the lowest or highest since the last one, and that is outside, nothing of the time
since then counts, but for hours of which a data logger says more. A reading that is itself outside
and tells no lowest and highest ends no such time: what a later one tells reaches back past it, so
that one more bad reading never makes an end earlier.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from typing import Literal, NamedTuple

from crewboard.logbook.acts import Reading
from crewboard.logbook.logged import Logged
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.plan.hold import Conditions

# Rows of a data logger that are no further apart than this speak for the time between them.
LOGGED_TOGETHER = timedelta(hours=3)
_EVER = datetime.min


class Outside(NamedTuple):
    """A value that is outside what is wanted: °C, or % relative humidity."""

    what: str  # "too cold", "too warm", "too dry", "too damp"
    value: float
    limit: float

    @property
    def is_temperature(self) -> bool:
        return self.what in ("too cold", "too warm")


class Stretch(NamedTuple):
    """A time in which the air was outside, or may have been for all that is known."""

    start: datetime
    end: datetime


class NoReading(NamedTuple):
    """A hold has hours for which no reading speaks. `since` is the last reading's moment before
    them, None where there was none. `to_come`: these hours are still ahead, and a reading taken
    before them would speak for them."""

    since: datetime | None
    to_come: bool = False


class Age(NamedTuple):
    """How long a reading speaks for the shop."""

    clock: ShopClock
    good_for: Duration

    def too_old(self, read: datetime | None, at: datetime) -> bool:
        """Whether a reading of `read` says nothing of `at` any more; None: there was none."""
        if read is None:
            return True
        return at - read > self.least and self.clock.add(read, self.good_for) < at

    @property
    def least(self) -> timedelta:
        """No calendar makes a reading old sooner than this: most need no calendar."""
        months, days, minutes = self.good_for
        return timedelta(days=months * 28 + days, minutes=minutes - 180)


class Point(NamedTuple):
    """One measure at a moment; it stands until the next point.

    `lowest` and `highest` are of the time from then on, `lowest_before` and `highest_before` of the
    time since the reading before, None where they were not told. `logged_until`: the data logger
    itself speaks up to there.
    """

    at: datetime
    lowest: float
    highest: float
    lowest_before: float | None = None
    highest_before: float | None = None
    logged_until: datetime = _EVER

    @property
    def looks_back(self) -> bool:
        return self.lowest_before is not None or self.highest_before is not None


class Limits(NamedTuple):
    """What a measure must be within, and the words for a value that is not."""

    least: float | None
    most: float | None
    below: str
    above: str

    def broken(self, lowest: float, highest: float) -> Outside | None:
        """What is wrong with air that was from lowest to highest."""
        if self.least is not None and lowest < self.least:
            return Outside(self.below, lowest, self.least)
        if self.most is not None and highest > self.most:
            return Outside(self.above, highest, self.most)
        return None

    def broken_before(self, point: Point) -> bool:
        """Whether what a point tells of the time before it is outside."""
        values = [point.lowest_before, point.lowest, point.highest, point.highest_before]
        known = [value for value in values if value is not None]
        return self.broken(min(known), max(known)) is not None

    def answered_by(self, point: Point) -> bool:
        """Whether a point tells all of the time before it that these limits ask."""
        return (self.least is None or point.lowest_before is not None) and (
            self.most is None or point.highest_before is not None
        )


def limits_of(conditions: Conditions) -> tuple[Limits | None, Limits | None]:
    """The limits of temperature and of humidity; None where the conditions name none."""
    low_c, high_c, low_humidity, high_humidity = conditions
    warm = Limits(low_c, high_c, "too cold", "too warm")
    damp = Limits(low_humidity, high_humidity, "too dry", "too damp")
    return (
        warm if (low_c, high_c) != (None, None) else None,
        damp if (low_humidity, high_humidity) != (None, None) else None,
    )


class Measure:
    """Temperature or humidity, as the readings and the data logger tell it."""

    __slots__ = ("_logged", "_measure", "_moments", "_points", "_reaching")

    def __init__(
        self, points: list[Point], logged: Logged, measure: Literal["temperature", "humidity"]
    ) -> None:
        self._points = points
        self._moments = [point.at for point in points]
        self._logged = logged
        self._measure = measure
        self._reaching: dict[Limits, tuple[list[datetime], list[datetime]]] = {}

    def points(self, since: datetime, at: datetime) -> Iterator[Point]:
        """The points up to `at` in order of time, from the one that stands at `since` on."""
        first = max(0, bisect_right(self._moments, since) - 1)
        last = bisect_right(self._moments, at)
        if self._logged:
            return self._among_logged(self._points[first:last], since, at)
        # Not cut out: of years of readings the first few mostly answer what is asked.
        return map(self._points.__getitem__, range(first, last))

    def _among_logged(
        self, readings: list[Point], since: datetime, at: datetime
    ) -> Iterator[Point]:
        """The readings and the logger's points together, in order of time."""
        number, count = 0, len(readings)
        for point in self._logged_points(since, at):
            while number < count and readings[number].at <= point.at:
                yield readings[number]
                number += 1
            yield point
        yield from readings[number:]

    def _logged_points(self, since: datetime, at: datetime) -> Iterator[Point]:
        before: tuple[datetime, float, float] | None = None
        for row in self._logged.rows(since, at):
            lowest, highest = row.of(self._measure)
            if lowest is None or highest is None:
                continue
            if before is not None:
                moment, low, high = before
                until = row.at if row.at - moment <= LOGGED_TOGETHER else _EVER
                yield Point(moment, low, high, None, None, until)
            before = (row.at, lowest, highest)
        if before is not None:
            yield Point(*before)

    def bad(
        self, limits: Limits, since: datetime, until: datetime, at: datetime
    ) -> Iterator[Stretch]:
        """The times from `since` to `until` that do not count, as is known at `at`, in order; the
        last goes on beyond `until` while the air stays so."""
        start, outside, logged_until = since, False, _EVER
        for point in self.points(since, at):
            if point.at > start:
                bad = outside or (start >= logged_until and self._reached(limits, start, at))
                if bad:
                    yield Stretch(start, point.at)
                elif point.at >= until:
                    return
                start = point.at
            logged_until = max(logged_until, point.logged_until)
            outside = limits.broken(point.lowest, point.highest) is not None
        if outside and start < at:
            yield Stretch(start, at)

    def outside(self, limits: Limits, at: datetime) -> Outside | None:
        """What the last point says at `at`, where that is outside."""
        last = None
        for point in self.points(at, at):
            last = point
        return limits.broken(last.lowest, last.highest) if last is not None else None

    def no_reading(
        self, limits: Limits, age: Age, since: datetime, end: datetime, at: datetime
    ) -> NoReading | None:
        """The first time from `since` to `end` for which no reading speaks as far as is known at
        `at`: each speaks until it is too old, and for all the time since the one before where it
        tells the lowest and the highest. One soon after the start speaks for the start too."""
        before: datetime | None = None
        least = age.least
        for point in self.points(since, at):
            if (
                point.at > since
                and (before is None or point.at - before > least)
                and age.too_old(max(before or since, since), min(point.at, end))
                and not limits.answered_by(point)
            ):
                return NoReading(before)
            before = point.at
            if point.at >= end:
                return None
        if not age.too_old(before, end):
            return None
        return NoReading(before, to_come=not age.too_old(before, min(at, end)))

    def _reached(self, limits: Limits, start: datetime, at: datetime) -> bool:
        """Whether the lowest or highest told later, by `at`, speaks against the time from `start`
        to the point after it."""
        starts, ends = self._reaching.get(limits) or self._reach(limits)
        place = bisect_right(ends, start)
        return place < len(ends) and starts[place] <= start and ends[place] <= at

    def _reach(self, limits: Limits) -> tuple[list[datetime], list[datetime]]:
        starts, ends, boundary = list[datetime](), list[datetime](), _EVER
        for point in self._points:
            if point.looks_back:
                if limits.broken_before(point) and point.at > boundary:
                    starts.append(boundary)
                    ends.append(point.at)
                boundary = point.at
            elif limits.broken(point.lowest, point.highest) is None:
                boundary = point.at
        self._reaching[limits] = (starts, ends)
        return starts, ends


class ShopAir:
    """Temperature and humidity of the shop, as far as is known."""

    __slots__ = ("_measures",)

    def __init__(
        self, readings: Sequence[tuple[datetime, Reading]] = (), logged: Logged | None = None
    ) -> None:
        rows = logged if logged is not None else Logged()
        warmth = (_point(at, r.celsius, r.lowest_c, r.highest_c) for at, r in readings)
        damp = (_point(at, r.humidity, r.lowest_humidity, r.highest_humidity) for at, r in readings)
        self._measures = (
            Measure([point for point in warmth if point], rows, "temperature"),
            Measure([point for point in damp if point], rows, "humidity"),
        )

    def _asked(self, conditions: Conditions) -> Iterator[tuple[Measure, Limits]]:
        for measure, limits in zip(self._measures, limits_of(conditions), strict=True):
            if limits is not None:
                yield measure, limits

    def bad(
        self, conditions: Conditions, since: datetime, until: datetime, at: datetime
    ) -> list[Stretch]:
        """The times from `since` to `until` that do not count, as known at `at`, apart, in order.
        The last goes on beyond `until` while the air stays so."""
        apart: list[Stretch] = []
        of_measures = (m.bad(limits, since, until, at) for m, limits in self._asked(conditions))
        for bad in sorted(stretch for stretches in of_measures for stretch in stretches):
            if apart and bad.start <= apart[-1].end:
                apart[-1] = Stretch(apart[-1].start, max(apart[-1].end, bad.end))
            else:
                apart.append(bad)
        return apart

    def outside(self, conditions: Conditions, at: datetime) -> Outside | None:
        """What is wrong with the air at `at`, as the last readings say."""
        asked = self._asked(conditions)
        return next((o for m, limits in asked if (o := m.outside(limits, at))), None)

    def no_reading(
        self, conditions: Conditions, age: Age, since: datetime, end: datetime, at: datetime
    ) -> NoReading | None:
        """The first hours of a hold from `since` to `end` for which no reading speaks."""
        asked = (m.no_reading(limits, age, since, end, at) for m, limits in self._asked(conditions))
        return next((no_reading for no_reading in asked if no_reading is not None), None)


def _point(
    at: datetime, value: float | None, lowest: float | None, highest: float | None
) -> Point | None:
    """A reading of one measure; None where it says nothing of it."""
    values = [number for number in (value, lowest, highest) if number is not None]
    if not values:
        return None
    if value is None:  # only what was since the last one: the worst of it goes on
        return Point(at, min(values), max(values), lowest, highest)
    return Point(at, value, value, lowest, highest)
