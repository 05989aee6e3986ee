"""Work days against dateutil's recurrence rules (RFC 5545, section 3.3.10)."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest
from dateutil.rrule import FR, MO, MONTHLY, SA, SU, TH, TU, WE, WEEKLY, rrule
from hypothesis import given
from hypothesis import strategies as st

from crewboard.plan.workdays import WEEKDAYS, NotARule, Opening, WorkDays, parse_rule
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
    assert [d for d in asked if ours.openings_on(d)] == within(standard, first, 400)


@cases(60, 3000)
@given(st.integers(2, 9), dates, dates)
def test_every_few_weeks_counts_from_its_first_day(weeks: int, start: date, first: date) -> None:
    day = WEEKDAYS[start.weekday()]
    ours = WorkDays((parse_rule(f"{day} every {weeks} weeks from {start}"),))
    standard = rrule(WEEKLY, interval=weeks, dtstart=datetime.combine(start, time()))
    asked = [first + timedelta(days=n) for n in range(401)]
    assert [d for d in asked if ours.openings_on(d)] == within(standard, first, 400)


@cases(60, 3000)
@given(st.integers(0, 6), dates)
def test_a_weekday_alone_is_every_week(weekday: int, first: date) -> None:
    ours = WorkDays((parse_rule(f"every {WEEKDAYS[weekday]}s"),))
    standard = rrule(WEEKLY, byweekday=DAYS[weekday], dtstart=datetime(2019, 1, 1))
    assert list(ours.coming(first, 100)) == within(standard, first, 99)


SATURDAYS = (parse_rule("first saturday"), parse_rule("third saturday"))
MORNING = Opening(time(10), time(13))
EVENING = Opening(time(18), time(21))
SECOND_OF_MAY = date(2026, 5, 2)


def test_a_day_left_out_is_closed_even_where_it_was_added() -> None:
    days = WorkDays(
        SATURDAYS,
        also=((date(2026, 5, 9), MORNING), (date(2026, 5, 16), None), (date(2026, 4, 11), None)),
        closed=((SECOND_OF_MAY, ""), (date(2026, 5, 16), "the hall is let")),
        since=date(2026, 4, 18),
    )
    assert list(days.coming(date(2026, 3, 1), 100)) == [
        date(2026, 4, 11),  # added by name: `since` bounds the rule only
        date(2026, 4, 18),
        date(2026, 5, 9),
        date(2026, 6, 6),
    ]
    assert days.openings_on(date(2026, 5, 9)) == (MORNING,)
    assert days.openings_on(date(2026, 5, 16)) == ()
    assert days.called_off(date(2026, 5, 16)) == "the hall is let"
    assert days.called_off(date(2026, 5, 9)) is None
    assert days.next_after(datetime(2026, 5, 9, 11)) == datetime(2026, 6, 6, 9)


@pytest.mark.parametrize(
    ("added", "openings"),
    [
        ([None], ["09:00 to 16:00"]),  # it is a work day anyway
        ([EVENING], ["09:00 to 16:00", "18:00 to 21:00"]),
        ([MORNING], ["10:00 to 13:00"]),  # that day's own hours instead of the usual ones
        ([EVENING, Opening(time(6), time(8))], ["06:00 to 08:00", "09:00 to 16:00",
                                                "18:00 to 21:00"]),
        ([EVENING, EVENING], ["09:00 to 16:00", "18:00 to 21:00"]),
        ([EVENING, Opening(time(20), time(22))], ["09:00 to 16:00", "18:00 to 22:00"]),
    ],
)  # fmt: skip
def test_an_evening_added_to_a_regular_day_opens_the_shop_twice(
    added: list[Opening | None], openings: list[str]
) -> None:
    days = WorkDays(SATURDAYS, also=tuple((SECOND_OF_MAY, each) for each in added))
    assert list(map(str, days.openings_on(SECOND_OF_MAY))) == openings
    assert list(days.coming(SECOND_OF_MAY, 1)) == [SECOND_OF_MAY]


def test_a_day_added_twice_without_a_rule_keeps_both_openings() -> None:
    days = WorkDays(also=((SECOND_OF_MAY, EVENING), (SECOND_OF_MAY, MORNING)))
    assert days.openings_on(SECOND_OF_MAY) == (MORNING, EVENING)


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
