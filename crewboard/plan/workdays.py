"""On which days the crew meets: a rule ("every first and third Saturday") and its exceptions."""

import re
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from crewboard.plan.time_away import TimeAway

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
_NTH = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "last": -1}
_RULE = re.compile(
    r"(?:(?P<nth>first|second|third|fourth|fifth|last)\s+)?(?P<day>[a-z]+?day)s?"
    r"(?:\s+of the month)?"
)


class NotARule(ValueError):
    """The text is no rule for work days; the message says what one looks like."""


class MeetingRule(NamedTuple):
    """A weekday of each month (nth 1 to 5, -1 the last) or of each week (nth 0).

    A week is counted every `weeks` weeks from the day `start` where weeks is more than one.
    """

    weekday: int
    nth: int = 0
    weeks: int = 1
    start: date | None = None

    def holds_on(self, day: date) -> bool:
        if day.weekday() != self.weekday:
            return False
        if self.nth > 0:
            return (day.day - 1) // 7 + 1 == self.nth
        if self.nth < 0:
            return (day + timedelta(days=7)).month != day.month
        if self.weeks > 1 and self.start is not None:
            return day >= self.start and (day - self.start).days // 7 % self.weeks == 0
        return True


def parse_rule(text: str) -> MeetingRule:
    """Read "first saturday", "last friday", "saturday every 2 weeks from 2026-01-03".

    Raises NotARule.
    """
    words = " ".join(text.lower().split()).removeprefix("every ")
    main, gap, spacing = words.partition(" every ")
    match = _RULE.fullmatch(main)
    if match is None or match["day"] not in WEEKDAYS:
        raise NotARule(f'"{text}" is not a rule for work days: write "first saturday" or "friday"')
    weekday, nth = WEEKDAYS.index(match["day"]), _NTH.get(match["nth"] or "", 0)
    if not gap:
        return MeetingRule(weekday, nth)
    spaced = re.fullmatch(r"([1-9]\d?) weeks from (\d{4}-\d\d-\d\d)", spacing)
    if spaced is None or nth:
        raise NotARule(f'"{text}": write "saturday every 2 weeks from 2026-01-03"')
    try:
        start = date.fromisoformat(spaced[2])
    except ValueError:
        raise NotARule(f'"{text}": {spaced[2]} is not a date') from None
    if start.weekday() != weekday:
        raise NotARule(f'"{text}": {spaced[2]} is a {WEEKDAYS[start.weekday()]}')
    return MeetingRule(weekday, 0, int(spaced[1]), start)


class Opening(NamedTuple):
    """From when till when the shop is open, on one day."""

    opens: time
    closes: time

    @property
    def length(self) -> float:
        """Hours the shop is open."""
        return (_minutes(self.closes) - _minutes(self.opens)) / 60

    def __str__(self) -> str:
        return f"{self.opens:%H:%M} to {self.closes:%H:%M}"

    def meets(self, other: "Opening") -> bool:
        """Whether the two have any time in common."""
        return self.opens < other.closes and other.opens < self.closes


def _minutes(moment: time) -> int:
    return moment.hour * 60 + moment.minute


class WorkDays(NamedTuple):
    """The rule and its usual opening, days added (some with an opening of their own), and days
    left out, each with the reason where one was given. A day left out is closed, whatever else
    is said of it; `since` and `holidays` bound the rule only.
    """

    rules: tuple[MeetingRule, ...] = ()
    usual: Opening = Opening(time(9), time(16))
    also: tuple[tuple[date, Opening | None], ...] = ()
    closed: tuple[tuple[date, str], ...] = ()
    since: date | None = None
    holidays: tuple[TimeAway, ...] = ()

    def openings_on(self, day: date) -> tuple[Opening, ...]:
        """When the shop is open on a day, in order; none where the crew does not meet.

        An evening added to a regular day opens the shop twice; an added opening that meets the
        usual one takes its place, as that day's own.
        """
        if self.closed and self.called_off(day) is not None:
            return ()
        added = [opening or self.usual for extra, opening in self.also if extra == day]
        if self.is_regular(day) and not any(own.meets(self.usual) for own in added):
            added.append(self.usual)
        return tuple(_apart(added)) if len(added) > 1 else tuple(added)

    def is_regular(self, day: date) -> bool:
        """Whether the rule alone makes it a work day."""
        if self.since is not None and day < self.since:
            return False
        return any(rule.holds_on(day) for rule in self.rules) and self.holiday(day) is None

    def holiday(self, day: date) -> TimeAway | None:
        """The holidays that the day lies in."""
        return next((away for away in self.holidays if away.holds_on(day)), None)

    def called_off(self, day: date) -> str | None:
        """Why the day is left out: empty where no reason was given, None where it is not."""
        return next((why for left_out, why in self.closed if left_out == day), None)

    def coming(self, day: date, within: int = 366 * 5) -> Iterator[date]:
        """Work days from `day` on, looking at most `within` days ahead."""
        for ahead in range(within):
            if self.openings_on(meeting := day + timedelta(days=ahead)):
                yield meeting

    def next_after(self, moment: datetime) -> datetime | None:
        """When the shop next opens after the day of `moment`."""
        day = next(self.coming(moment.date() + timedelta(days=1)), None)
        return datetime.combine(day, self.openings_on(day)[0].opens) if day else None


def _apart(openings: list[Opening]) -> Iterator[Opening]:
    """In order; those that meet or touch are one."""
    ahead = sorted(openings)
    last = ahead[0]
    for opening in ahead[1:]:
        if opening.opens > last.closes:
            yield last
            last = opening
        else:
            last = Opening(last.opens, max(last.closes, opening.closes))
    yield last
