"""Holds that were started: since when they run, until when, and whether they are due for a look."""

from datetime import datetime, timedelta
from typing import Literal, NamedTuple

from crewboard.logbook.acts import Extended, Released
from crewboard.logbook.entry import Entry
from crewboard.order.history import Started
from crewboard.order.holds.shop_air import Age, NoReading, Outside, ShopAir
from crewboard.order.said import day_in_words
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.plan.hold import KINDS, Conditions, Hold, Release

Stage = Literal["running", "due", "over"]


class Extension(NamedTuple):
    """A hold made longer: by whom, when, why, and the end that this gave."""

    entry: str
    at: datetime
    by: str
    why: str
    until: datetime


class HoldEnd(NamedTuple):
    """When a hold ends, as far as is known.

    `moment` is None where only a person's word ends it. While `stopped` names what is wrong with
    the shop's air the clock stands still, and `moment` is the earliest end there can be. `look`:
    somebody has to look then; `no_reading` is why, where the plan did not ask for it. While
    something is `unread` that may have made it longer, all that is known is that it does not end
    before `not_before`. What was `refused` goes on waiting: when, and why.
    """

    moment: datetime | None
    stopped: Outside | None
    look: bool
    no_reading: NoReading | None
    unread: str = ""
    not_before: datetime | None = None
    refused: str = ""


class StandingHold(NamedTuple):
    """One started hold as it stands at a moment.

    `id` is the id of the logbook entry that started it. `until` is None where only a person's
    word ends it; while the shop is outside the conditions it is the earliest end there can be.
    `unread` says what cannot be read and may have made it longer: then it runs on, and ends
    `not_before` that moment.
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
    outside: Outside | None = None  # what is wrong with the air while the clock stands still
    no_reading: NoReading | None = None  # hours for which no reading speaks, up to its end
    extended: tuple[Extension, ...] = ()
    released_at: datetime | None = None
    released_by: str = ""
    released_why: str = ""
    pieces: tuple[str, ...] = ()  # that it is on
    unread: str = ""
    not_before: datetime | None = None
    refused: str = ""  # of an approval: when it was refused last, and why

    @property
    def stops_work(self) -> bool:
        return self.stage != "over"

    @property
    def keeps_pieces(self) -> bool:
        """Whether nothing else is done to its pieces meanwhile: what is awaited for a task keeps
        only what comes after the task."""
        return bool(self.pieces) and not (self.task and KINDS[self.kind].awaited)

    @property
    def end(self) -> HoldEnd:
        return HoldEnd(
            self.until,
            self.outside,
            self.asks,
            self.no_reading,
            self.unread,
            self.not_before,
            self.refused,
        )

    @property
    def ended(self) -> datetime:
        """When one that is over was released, or its time was up."""
        return self.released_at or self.until or self.since

    @property
    def last_moved(self) -> datetime:
        """When it was started or last made longer."""
        return self.extended[-1].at if self.extended else self.since

    @property
    def asks(self) -> bool:
        """Whether it ends with a look: the plan says so, or no reading speaks for all its hours."""
        return self.release == "look" or self.no_reading is not None

    @property
    def stood_still(self) -> bool:
        """Whether at least a minute outside the conditions did not count."""
        return self.lost >= timedelta(minutes=1)

    def share(self, at: datetime) -> float | None:
        """How far the hold is, 0 to 1, by the time that counts; None where it has no clock."""
        if self.until is None:
            return None
        whole, passed = (end - self.since - self.lost for end in (self.until, at))
        return min(1.0, max(0.0, passed / whole)) if whole > timedelta() else 1.0


class Elapsed(NamedTuple):
    """Where a clock that counts only good hours stands."""

    ends: datetime
    lost: timedelta
    outside: Outside | None


def counted(
    clock: ShopClock,
    since: datetime,
    needed: timedelta,
    air: ShopAir,
    conditions: Conditions,
    at: datetime,
) -> Elapsed:
    """When `needed` hours within the conditions have passed since `since`, as is known at `at`.

    Hours outside do not count, so the end only ever moves later.
    """
    mark, lost, left = since, timedelta(), needed
    while conditions:
        soonest = clock.elapse(mark, left)
        bad = air.bad(conditions, mark, min(soonest, at), at)
        if not bad and soonest <= at:
            break
        reached = max([min(soonest, at), mark, *(stretch.end for stretch in bad)])
        gone = sum((clock.between(*stretch) for stretch in bad), timedelta())
        lost += gone
        left -= clock.between(mark, reached) - gone
        mark = reached
        if reached >= at:
            outside = air.outside(conditions, at) if left else None
            return Elapsed(clock.elapse(mark, left), lost, outside)
    return Elapsed(clock.elapse(mark, left), lost, None)


class Rules(NamedTuple):
    """What the hours of every hold are counted by."""

    clock: ShopClock
    air: ShopAir
    good_for: Duration  # how long a shop reading speaks for the shop

    def will_ask(self, hold: Hold) -> bool:
        """Whether a hold that starts with a fresh reading will end with a look, for all that is
        known then: the plan says so, or the reading will be too old."""
        if hold.release == "look" or not hold.conditions or hold.lasts is None:
            return hold.release == "look"
        short = hold.lasts.about <= SHORT_HOLD.about
        good_for = min(self.good_for.about, A_DAY.about) if short else self.good_for.about
        return hold.lasts.about > good_for

    def age_for(self, lasts: Duration, since: datetime) -> Age:
        """How old a reading may be for a hold: a day at most where that is two days or less."""
        short = self.clock.add(since, lasts) <= self.clock.add(since, SHORT_HOLD)
        longer = self.clock.add(since, self.good_for) > self.clock.add(since, A_DAY)
        return Age(self.clock, A_DAY if short and longer else self.good_for)


A_DAY, SHORT_HOLD = Duration(days=1), Duration(days=2)


class _Run(NamedTuple):
    """A hold's clock with every extension in it: since when so many good hours are needed."""

    since: datetime
    needed: timedelta
    lost: timedelta  # before `since`
    extensions: tuple[Extension, ...]
    released: Entry | None


def as_standing(started: Started, rules: Rules, at: datetime) -> StandingHold:
    """The hold as it stands at `at`, with everything that was said of it."""
    hold, run = started.hold, _run(started, rules)
    released = run.released
    seen = released.at if released else at  # what the weather does after a release is no matter
    until, lost, outside, no_reading = None, run.lost, None, None
    if run.needed:
        elapsed = counted(rules.clock, run.since, run.needed, rules.air, hold.conditions, seen)
        until, lost, outside = elapsed.ends, run.lost + elapsed.lost, elapsed.outside
        if hold.conditions and not outside and not started.taken_over:
            no_reading = _no_reading(started, rules, run.since, until, seen)
    return StandingHold(
        started.id,
        hold.kind,
        started.task,
        started.component,
        started.since,
        until,
        _stage(until, hold.release == "look" or no_reading is not None, released, at),
        hold.release,
        hold.leave_alone,
        hold.conditions,
        hold.note,
        hold.source,
        started.by,
        lost,
        outside,
        no_reading,
        run.extensions,
        released.at if released else None,
        released.by if released else "",
        released.act.why if released and isinstance(released.act, Released) else "",
        started.pieces,
        refused=_refused(started),
    )


def _refused(started: Started) -> str:
    """The answer to what was asked, where that was no."""
    said = [(e, e.act) for e in started.said if isinstance(e.act, Released) and e.act.refused]
    if not said:
        return ""
    entry, act = said[-1]
    return f"refused on {day_in_words(entry.at)}{f': {act.why}' if act.why else ''}"


def _no_reading(
    started: Started, rules: Rules, since: datetime, until: datetime, seen: datetime
) -> NoReading | None:
    hold = started.hold
    assert hold.lasts is not None or since != started.since
    age = rules.age_for(hold.lasts or A_DAY, started.since)
    return rules.air.no_reading(hold.conditions, age, since, until, seen)


def _run(started: Started, rules: Rules) -> _Run:
    """The clock after every word said of the hold, until it was released."""
    clock, hold = rules.clock, started.hold
    extensions: list[Extension] = []
    since, lost = started.since, timedelta()
    needed = timedelta()  # stays nought where the hold has no clock
    if hold.lasts is not None:
        needed = clock.between(since, clock.add(since, hold.lasts))
    for entry in started.said:
        if isinstance(entry.act, Released) and not entry.act.refused:
            return _Run(since, needed, lost, tuple(extensions), entry)
        if not isinstance(entry.act, Extended):
            continue
        then = None
        if needed:
            then = counted(clock, since, needed, rules.air, hold.conditions, entry.at)
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
    return _Run(since, needed, lost, tuple(extensions), None)


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


def _stage(until: datetime | None, look: bool, released: Entry | None, at: datetime) -> Stage:
    if released is not None:
        return "over"
    if until is None or at < until:
        return "running"
    return "due" if look else "over"
