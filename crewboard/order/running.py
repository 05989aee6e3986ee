"""Holds that were started: since when they run, until when, and whether they are due for a look."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Literal, NamedTuple

from crewboard.logbook.acts import Extended, Reading, Released
from crewboard.logbook.entry import Entry
from crewboard.order.history import Started
from crewboard.plan.clock import ShopClock
from crewboard.plan.hold import Conditions, Release

Stage = Literal["running", "due", "over"]


class Extension(NamedTuple):
    """A hold made longer: by whom, when, why, and the end that this gave."""

    entry: str
    at: datetime
    by: str
    why: str
    until: datetime


class StandingHold(NamedTuple):
    """One started hold as it stands at a moment.

    `id` is the id of the logbook entry that started it. `until` is None where only a person's
    word ends it; while the shop is outside the conditions it is the earliest end there can be.
    """

    id: str
    kind: str
    task: str
    component: str
    since: datetime
    until: datetime | None
    stage: Stage
    release: Release
    leave_alone: bool = False
    conditions: Conditions = Conditions()
    note: str = ""
    source: str = ""
    by: str = ""
    lost: timedelta = timedelta()  # hours outside the conditions, which do not count
    outside: bool = False  # the last reading is outside the conditions: the clock stands still
    extended: tuple[Extension, ...] = ()
    released_at: datetime | None = None
    released_by: str = ""
    released_why: str = ""

    @property
    def stops_work(self) -> bool:
        return self.stage != "over"

    @property
    def stood_still(self) -> bool:
        """Whether at least a minute outside the conditions did not count."""
        return self.lost >= timedelta(minutes=1)

    def share(self, at: datetime) -> float | None:
        """How far the hold is, 0 to 1; None where it has no clock."""
        if self.until is None:
            return None
        whole = (self.until - self.since).total_seconds()
        return min(1.0, max(0.0, (at - self.since).total_seconds() / whole)) if whole > 0 else 1.0


class Elapsed(NamedTuple):
    """Where a clock that counts only good hours stands."""

    ends: datetime
    lost: timedelta
    outside: bool


def counted(
    clock: ShopClock,
    since: datetime,
    needed: timedelta,
    readings: Sequence[tuple[datetime, Reading]],
    conditions: Conditions,
    at: datetime,
) -> Elapsed:
    """When `needed` hours within the conditions have passed since `since`.

    A reading holds good until the next one; before the first, the shop is taken to be as asked.
    Hours outside do not count, so the end only ever moves later. `readings` are in order of time
    and none is later than `at`.
    """
    if not conditions:
        return Elapsed(clock.elapse(since, needed), timedelta(), False)
    mark, good, lost, left = since, True, timedelta(), needed
    for moment, reading in readings:
        allowed = conditions.allow(reading.celsius, reading.humidity)
        if moment <= since:
            good = allowed
            continue
        passed = clock.between(mark, moment)
        if good and passed >= left:
            break
        if good:
            left -= passed
        else:
            lost += passed
        mark, good = moment, allowed
    if good:
        return Elapsed(clock.elapse(mark, left), lost, False)
    lost += clock.between(mark, at) if at > mark else timedelta()
    return Elapsed(clock.elapse(max(mark, at), left), lost, True)


def as_running(
    started: Started,
    clock: ShopClock,
    readings: Sequence[tuple[datetime, Reading]],
    at: datetime,
) -> StandingHold:
    """The hold as it stands at `at`, with everything that was said of it."""
    hold = started.hold
    extensions: list[Extension] = []
    released: Entry | None = None
    since, lost = started.since, timedelta()
    needed = timedelta()  # stays nought where the hold has no clock
    if hold.lasts is not None:
        needed = clock.between(since, clock.add(since, hold.lasts))
    for entry in started.said:
        if isinstance(entry.act, Released):
            released = entry
            break
        if not isinstance(entry.act, Extended):
            continue
        known = [r for r in readings if r[0] <= entry.at]
        then = counted(clock, since, needed, known, hold.conditions, entry.at) if needed else None
        later = _extended_end(clock, then.ends if then else None, entry)
        if later is None:
            continue
        if then is None or then.ends <= entry.at:
            # It was over, or had no clock: what is given now is counted from now alone.
            lost += then.lost if then else timedelta()
            since, needed = entry.at, clock.between(entry.at, later)
        else:
            needed += clock.between(then.ends, later)
        extensions.append(Extension(entry.id, entry.at, entry.by, entry.act.why, later))
    seen = released.at if released else at  # what the weather does after a release is no matter
    known = [r for r in readings if r[0] <= seen]
    elapsed = counted(clock, since, needed, known, hold.conditions, seen) if needed else None
    until = elapsed.ends if elapsed else None
    return StandingHold(
        started.id,
        hold.kind,
        started.task,
        started.component,
        started.since,
        until,
        _stage(until, hold.release, released, at),
        hold.release,
        hold.leave_alone,
        hold.conditions,
        hold.note,
        hold.source,
        started.by,
        lost + elapsed.lost if elapsed else timedelta(),
        bool(elapsed and elapsed.outside),
        tuple(extensions),
        released.at if released else None,
        released.by if released else "",
        released.act.why if released and isinstance(released.act, Released) else "",
    )


def _extended_end(clock: ShopClock, end: datetime | None, entry: Entry) -> datetime | None:
    """The end an extension gives; None where it would not make the hold longer.

    A span counts from the end that stood, or from the moment it was said where that end had
    passed: who looks at a joint and gives it two more days means two days from now.
    """
    act = entry.act
    assert isinstance(act, Extended)
    base = max(end, entry.at) if end is not None else entry.at
    if act.lasts is not None:
        return clock.add(base, act.lasts)
    if act.until is not None and (end is None or act.until > end):
        return act.until
    return None


def _stage(until: datetime | None, release: Release, released: Entry | None, at: datetime) -> Stage:
    if released is not None:
        return "over"
    if until is None or at < until:
        return "running"
    return "over" if release == "time" else "due"
