"""The shop's clock against python-dateutil: relativedelta for months, its zones for clock changes.

dateutil reads the same IANA zones through its own code, so the two agree only if both are right.
"""

from __future__ import annotations

import time
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil import tz
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.wall_clock import running_from
from tests.long_form import cases

# Zones with a change of an hour on both hemispheres, of half an hour, and at midnight.
ZONES = ("CET", "America/New_York", "Australia/Lord_Howe", "America/Santiago", "Asia/Kolkata")
moments = st.datetimes(datetime(1996, 1, 1), datetime(2037, 1, 1)).map(
    lambda at: at.replace(second=0, microsecond=0)
)
# Moments near a clock change are rare among random ones, so some are drawn beside one.
CHANGES = [datetime(2026, 3, 29, 2), datetime(2026, 10, 25, 2), datetime(2025, 11, 2, 1)]
near_changes = st.builds(
    lambda change, minutes: change + timedelta(minutes=minutes),
    st.sampled_from(CHANGES),
    st.integers(-3 * 1440, 3 * 1440),
)
spans = st.builds(Duration, st.integers(0, 30), st.integers(0, 400), st.integers(0, 60 * 24 * 40))
zones = st.sampled_from(ZONES)


def later_by_dateutil(moment: datetime, span: Duration, zone: str | None) -> datetime:
    """Months, then days, on the wall clock; then minutes of real time."""
    wall = moment + relativedelta(months=span.months) + relativedelta(days=span.days)
    if zone is None:
        return wall + relativedelta(minutes=span.minutes)
    there = tz.gettz(zone)
    assert there is not None
    local = tz.resolve_imaginary(wall.replace(tzinfo=there))  # a skipped time moves by the gap
    if tz.datetime_ambiguous(local):
        local = tz.enfold(local, 1)  # of a time that comes twice, the later
    real = local.astimezone(tz.UTC) + timedelta(minutes=span.minutes)
    return real.astimezone(there).replace(tzinfo=None, fold=0)


@cases(200, 20_000)
@given(st.one_of(moments, near_changes), spans)
def test_a_clock_that_never_changes_adds_as_dateutil_does(at: datetime, span: Duration) -> None:
    assert ShopClock().add(at, span) == later_by_dateutil(at, span, None)


@cases(300, 40_000)
@given(st.one_of(moments, near_changes), spans, zones)
def test_months_days_and_hours_across_clock_changes_agree_with_dateutil(
    at: datetime, span: Duration, zone: str
) -> None:
    clock = ShopClock(ZoneInfo(zone))
    assert clock.add(at, span) == later_by_dateutil(at, span, zone)


@cases(200, 20_000)
@given(st.one_of(moments, near_changes), st.integers(0, 5000), zones)
def test_the_time_between_two_moments_is_what_elapsed(
    at: datetime, minutes: int, zone: str
) -> None:
    there = tz.gettz(zone)
    assert there is not None
    if tz.datetime_ambiguous(at.replace(tzinfo=there)) or not tz.datetime_exists(at, there):
        return
    clock = ShopClock(ZoneInfo(zone))
    end = clock.elapse(at, timedelta(minutes=minutes))
    if not tz.datetime_ambiguous(end, there):
        assert clock.between(at, end) == timedelta(minutes=minutes)
    real = end.replace(tzinfo=there).astimezone(tz.UTC) - at.replace(tzinfo=there).astimezone(UTC)
    assert clock.between(at, end) >= real  # of a time that comes twice, the later is meant


@cases(200, 20_000)
@given(st.one_of(moments, near_changes), spans, zones)
def test_a_hold_is_never_cut_short_by_a_clock_change(
    at: datetime, span: Duration, zone: str
) -> None:
    """Hours asked for are hours got, whatever the clock does meanwhile."""
    only_hours = Duration(minutes=span.minutes)
    clock = ShopClock(ZoneInfo(zone))
    assert clock.between(clock.settled(at), clock.add(at, only_hours)) >= timedelta(
        minutes=span.minutes
    )


@pytest.mark.parametrize(
    ("since", "ends"),
    [
        (datetime(2026, 1, 31, 15), datetime(2026, 2, 28, 15)),
        (datetime(2028, 1, 31, 15), datetime(2028, 2, 29, 15)),
        (datetime(2026, 3, 31, 15), datetime(2026, 4, 30, 15)),
        (datetime(2026, 12, 31, 15), datetime(2027, 1, 31, 15)),
        (datetime(2026, 2, 28, 15), datetime(2026, 3, 28, 15)),
    ],
)
def test_a_month_after_the_last_of_a_month_stays_within_the_next(
    since: datetime, ends: datetime
) -> None:
    assert since + relativedelta(months=1) == ends  # dateutil's word
    assert ShopClock().add(since, Duration(months=1)) == ends


def test_thirty_six_hours_across_the_spring_change_end_an_hour_later_on_the_wall() -> None:
    clock = ShopClock(ZoneInfo("CET"))
    end = clock.add(datetime(2026, 3, 28, 16), Duration(minutes=36 * 60))
    assert end == datetime(2026, 3, 30, 5)


def test_two_days_across_the_autumn_change_end_at_the_same_time_of_day() -> None:
    clock = ShopClock(ZoneInfo("CET"))
    end = clock.add(datetime(2026, 10, 24, 16), Duration(days=2))
    assert end == datetime(2026, 10, 26, 16)


def test_of_an_hour_that_comes_twice_the_later_is_meant() -> None:
    """Two to three on 25 October comes twice: half an hour after 02:30 it is three o'clock."""
    clock, twice = ShopClock(ZoneInfo("CET")), datetime(2026, 10, 25, 2, 30)
    three = datetime(2026, 10, 25, 3)
    assert clock.add(twice, Duration(minutes=30)) == three
    assert clock.between(twice, three) == timedelta(minutes=30)
    assert clock.between(datetime(2026, 10, 25, 1, 30), twice) == timedelta(hours=2)


def test_a_clock_that_runs_on_does_not_jump_with_the_zone_of_this_computer(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """As on the morning on which summer time begins, while the screens are open."""
    start = datetime(2026, 3, 29, 1, 59)
    monkeypatch.setenv("TZ", "Etc/GMT")
    time.tzset()
    try:
        clock = running_from(start)
        monkeypatch.setenv("TZ", "Etc/GMT-1")
        time.tzset()
        assert clock() - start < timedelta(minutes=1)
    finally:
        monkeypatch.undo()
        time.tzset()
