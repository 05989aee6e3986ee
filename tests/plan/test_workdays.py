"""Work days against dateutil's recurrence rules (RFC 5545, section 3.3.10)."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest
from dateutil.rrule import FR, MO, MONTHLY, SA, SU, TH, TU, WE, WEEKLY, rrule
from hypothesis import given
from hypothesis import strategies as st

from crewboard.plan.workdays import WEEKDAYS, Hours, NotARule, WorkDays, parse_rule
from tests.long_form import cases

DAYS = (MO, TU, WE, TH, FR, SA, SU)
COUNTS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "last": -1}
dates = st.dates(date(2020, 1, 1), date(2040, 1, 1))


def within(rule: rrule, first: date, days: int) -> list[date]:
    start = datetime.combine(first, time())
    return [each.date() for each in rule.between(start, start + timedelta(days=days), inc=True)]


@cases(60, 3000)
@given(st.sampled_from(sorted(COUNTS)), st.integers(0, 6), dates)
def test_the_nth_weekday_of_a_month_is_the_one_of_the_calendar_standard(
    nth: str, weekday: int, first: date
) -> None:
    ours = WorkDays((parse_rule(f"{nth} {WEEKDAYS[weekday]}"),))
    standard = rrule(MONTHLY, byweekday=DAYS[weekday](COUNTS[nth]), dtstart=datetime(2019, 1, 1))
    asked = [first + timedelta(days=n) for n in range(401)]
    assert [d for d in asked if ours.hours_on(d)] == within(standard, first, 400)


@cases(60, 3000)
@given(st.integers(2, 9), dates, dates)
def test_every_few_weeks_counts_from_its_first_day(weeks: int, start: date, first: date) -> None:
    day = WEEKDAYS[start.weekday()]
    ours = WorkDays((parse_rule(f"{day} every {weeks} weeks from {start}"),))
    standard = rrule(WEEKLY, interval=weeks, dtstart=datetime.combine(start, time()))
    asked = [first + timedelta(days=n) for n in range(401)]
    assert [d for d in asked if ours.hours_on(d)] == within(standard, first, 400)


@cases(60, 3000)
@given(st.integers(0, 6), dates)
def test_a_weekday_alone_is_every_week(weekday: int, first: date) -> None:
    ours = WorkDays((parse_rule(f"every {WEEKDAYS[weekday]}s"),))
    standard = rrule(WEEKLY, byweekday=DAYS[weekday], dtstart=datetime(2019, 1, 1))
    assert list(ours.coming(first, 100)) == within(standard, first, 99)


def test_a_day_added_goes_before_a_day_left_out_and_brings_its_own_hours() -> None:
    short = Hours(time(10), time(13))
    days = WorkDays(
        (parse_rule("first saturday"), parse_rule("third saturday")),
        also=((date(2026, 5, 9), short), (date(2026, 5, 16), None)),
        closed=(date(2026, 5, 2), date(2026, 5, 16)),
        since=date(2026, 4, 18),
    )
    assert list(days.coming(date(2026, 3, 1), 100)) == [
        date(2026, 4, 18),
        date(2026, 5, 9),
        date(2026, 5, 16),
        date(2026, 6, 6),
    ]
    assert days.hours_on(date(2026, 5, 9)) == short
    assert days.next_after(datetime(2026, 5, 9, 11)) == datetime(2026, 5, 16, 9)


@pytest.mark.parametrize(
    "written",
    ["someday", "sixth saturday", "saturday every 0 weeks from 2026-01-03", "",
     "saturday every 2 weeks from 2026-01-04", "saturday every 2 weeks from 2026-02-30",
     "first saturday every 2 weeks from 2026-01-03", "saturday every 2 weeks"],
)  # fmt: skip
def test_what_is_no_rule_for_work_days_is_refused(written: str) -> None:
    with pytest.raises(NotARule) as refused:
        parse_rule(written)
    assert len(str(refused.value)) > 20
