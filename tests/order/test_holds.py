"""Holds: when they end, across clock changes and bad weather, and after every word said of them.

Calendar arithmetic is checked against python-dateutil, conditions against a counter that goes
through the time minute by minute.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from dateutil import tz
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Finished, Reading
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.holds.running import counted
from crewboard.order.holds.shop_air import ShopAir
from crewboard.plan.clock import ShopClock
from crewboard.plan.component import Component
from crewboard.plan.duration import Duration
from crewboard.plan.hold import Conditions, Hold
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Vehicle
from tests.long_form import cases

WARM = Conditions(at_least_c=10)
GOOD, BAD = Reading(celsius=15.0), Reading(celsius=4.0)
ZONES = (None, "CET", "America/New_York", "Australia/Lord_Howe")
MINUTE = timedelta(minutes=1)


def plan_with(hold: Hold, zone: str | None = None) -> Plan:
    tasks = {
        "arches/bend": Task("arches/bend", "Bend", "arches", hold=hold),
        "roof/lay": Task("roof/lay", "Lay", "roof", after=("arches/bend",)),
    }
    components = {"arches": Component("arches", "Arches"), "roof": Component("roof", "Roof")}
    clock = ShopClock(ZoneInfo(zone) if zone else None)
    return Plan(Vehicle("A vehicle"), components, tasks, {}, {}, {}, clock)


def board(plan: Plan, at: datetime, *said: tuple[datetime, Any]) -> Board:
    """The board after these acts; their ids are e0, e1, ..."""
    days: dict[Any, list[Entry]] = {}
    for number, (when, act) in enumerate(said):
        days.setdefault(when.date(), []).append(Entry(f"e{number}", when, act, "ada"))
    return assess(plan, Logbook({d: Day(d, days[d]) for d in sorted(days)}), at)


# --- calendar time -----------------------------------------------------------------------------


@cases(150, 10_000)
@given(
    st.datetimes(datetime(2000, 1, 1), datetime(2036, 1, 1)),
    st.builds(Duration, st.integers(0, 14), st.integers(0, 60), st.integers(0, 5000)),
    st.sampled_from(ZONES),
    st.sampled_from(("look", "time")),
)
def test_a_hold_ends_when_dateutil_says_and_stands_as_it_should_around_that_minute(
    done: datetime, lasts: Duration, zone: str | None, release: Any
) -> None:
    done = done.replace(second=0, microsecond=0)
    there = tz.gettz(zone) if zone else None
    if lasts == Duration() or (there and not _plain(done, there)):
        return
    end = done + relativedelta(months=lasts.months, days=lasts.days)
    if there is not None:
        if not _plain(end, there):
            return  # what a skipped or doubled hour means is checked with the clock itself
        real = end.replace(tzinfo=there).astimezone(UTC) + timedelta(minutes=lasts.minutes)
        end = real.astimezone(there).replace(tzinfo=None)
        if not _plain(end, there):
            return
    else:
        end += relativedelta(minutes=lasts.minutes)
    plan = plan_with(Hold("glue", lasts, release), zone)
    before = board(plan, end - MINUTE, (done, Finished("arches/bend")))
    then = board(plan, end, (done, Finished("arches/bend")))
    assert then.holds["e0"].until == end
    if end - MINUTE >= done and (there is None or _plain(end - MINUTE, there)):
        assert before.holds["e0"].stage == "running"
        assert before["roof/lay"].state == "waiting"
        assert before["roof/lay"].until == end
    assert then.holds["e0"].stage == ("over" if release == "time" else "due")
    assert then["roof/lay"].state == ("ready" if release == "time" else "waiting")


def _plain(moment: datetime, there: Any) -> bool:
    """Whether the wall clock shows that time once, no more and no less."""
    return tz.datetime_exists(moment, there) and not tz.datetime_ambiguous(moment, there)


@cases(80, 3000)
@given(st.integers(0, 60 * 24 * 70), st.integers(0, 60 * 24 * 70))
def test_a_hold_only_ever_gets_further(minutes: int, more: int) -> None:
    done = datetime(2026, 3, 21, 15, 20)
    plan = plan_with(Hold("bend set", Duration(months=1), "look"), "CET")
    early = done + minutes * MINUTE
    shares = [
        board(plan, at, (done, Finished("arches/bend"))).holds["e0"].share(at)
        for at in (early, early + more * MINUTE)
    ]
    assert 0.0 <= (shares[0] or 0.0) <= (shares[1] or 0.0) <= 1.0


# --- conditions --------------------------------------------------------------------------------


@st.composite
def weather(draw: st.DrawFn) -> list[tuple[datetime, Reading]]:
    """Readings from before the hold's start to after its end, good and bad, in order of time."""
    at = datetime(2026, 3, 28, 12)
    found = []
    for _ in range(draw(st.integers(0, 6))):
        at += draw(st.integers(0, 900)) * MINUTE
        found.append((at, draw(st.sampled_from((GOOD, BAD, Reading(humidity=50.0))))))
    return found


def minute_by_minute(
    since: datetime,
    needed: int,
    readings: list[tuple[datetime, Reading]],
    at: datetime,
    there: Any,
) -> tuple[datetime, int, bool]:
    """The end, the minutes lost and whether the clock stands still, counted out one by one.

    After the last reading the shop is taken to stay as it was then until `at`, and to be good
    from `at` on: the earliest end there can be.
    """

    def real(moment: datetime) -> datetime:
        return moment.replace(tzinfo=there).astimezone(UTC) if there else moment

    # A reading of the humidity alone says nothing of the temperature.
    marks = [(real(moment), r.celsius) for moment, r in readings if r.celsius is not None]
    now, asked = real(since), real(at)
    counted_minutes = lost = 0
    while counted_minutes < needed:
        last = [warmth for moment, warmth in marks if moment <= now]
        good = not last or last[-1] >= 10
        if now >= asked and not good:
            good = all(moment <= asked for moment, _ in marks)
        if good:
            counted_minutes += 1
        else:
            lost += 1
        now += MINUTE
    then = [warmth for moment, warmth in marks if moment <= asked]
    still = bool(then) and then[-1] < 10
    outside = still and now > asked
    end = now.astimezone(there).replace(tzinfo=None) if there else now
    return end, lost, outside


@cases(80, 3000)
@given(weather(), st.integers(1, 2500), st.integers(0, 5000), st.sampled_from(ZONES))
def test_only_hours_within_the_conditions_count(
    readings: list[tuple[datetime, Reading]], needed: int, later: int, zone: str | None
) -> None:
    since = datetime(2026, 3, 28, 16)  # the night before the clocks go forward in CET
    at = since + later * MINUTE
    there = tz.gettz(zone) if zone else None
    if there is not None and any(
        not _plain(each, there) for each in (at, *(moment for moment, _ in readings))
    ):
        return
    known = [each for each in readings if each[0] <= at]
    clock = ShopClock(ZoneInfo(zone) if zone else None)
    said = counted(clock, since, needed * MINUTE, ShopAir(known), WARM, at)
    end, lost, outside = minute_by_minute(since, needed, known, at, there)
    assert (said.ends, said.lost, said.outside is not None) == (end, lost * MINUTE, outside)


@cases(80, 3000)
@given(weather(), st.integers(1, 2500), st.integers(0, 5000))
def test_nothing_ever_shortens_the_time_on_the_label(
    readings: list[tuple[datetime, Reading]], needed: int, later: int
) -> None:
    since = datetime(2026, 3, 28, 16)
    at = since + later * MINUTE
    known = [each for each in readings if each[0] <= at]
    ends = counted(ShopClock(), since, needed * MINUTE, ShopAir(known), WARM, at).ends
    assert ends >= since + needed * MINUTE


def test_a_cold_night_stops_the_clock_and_a_warm_morning_lets_it_go_on() -> None:
    hold = Hold("cure", Duration(minutes=24 * 60), "time", conditions=WARM)
    done = datetime(2026, 2, 7, 16)
    said = [
        (done, Finished("arches/bend")),
        (datetime(2026, 2, 7, 20), BAD),
        (datetime(2026, 2, 8, 8), GOOD),
    ]
    plan = plan_with(hold)
    night = board(plan, datetime(2026, 2, 8, 2), *said).holds["e0"]
    assert night.outside
    assert night.lost == timedelta(hours=6)
    assert night.until == datetime(2026, 2, 8, 22)  # at the earliest: twenty hours from now
    noon = board(plan, datetime(2026, 2, 8, 12), *said).holds["e0"]
    assert not noon.outside
    assert noon.lost == timedelta(hours=12)
    assert noon.until == datetime(2026, 2, 9, 4)


def test_of_an_hour_that_comes_twice_the_later_is_meant() -> None:
    """On 25 October the hour from two to three comes twice: a hold is never cut short."""
    hour = Hold("cure", Duration(minutes=60), "time")
    twice = datetime(2026, 10, 25, 2, 30)
    of = plan_with(hour, "CET")
    assert board(of, twice, (twice, Finished("arches/bend"))).holds["e0"].until == datetime(
        2026, 10, 25, 3, 30
    )
    day = plan_with(Hold("cure", Duration(days=1, minutes=60), "time"), "CET")
    before = datetime(2026, 10, 24, 2, 30)
    held = board(day, before, (before, Finished("arches/bend"))).holds["e0"]
    assert held.until == datetime(2026, 10, 25, 3, 30)
