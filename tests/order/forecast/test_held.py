"""Which work days take place: habits that change, long stops, and days off the calendar."""

from __future__ import annotations

from datetime import date, timedelta

from crewboard.order.forecast.held import Held, held_as
from crewboard.plan.workdays import WorkDays, parse_rule

WEEKLY = WorkDays((parse_rule("saturday"),))
TODAY = date(2026, 1, 5)
SATURDAYS = list(WEEKLY.coming(date(2025, 1, 4), 366))


def _mean(of: tuple[float, float]) -> float:
    return of[0] / sum(of)


def _share(of: Held) -> float:
    return _mean(of.habit) * _mean(of.open)


def test_nearly_every_day_is_believed_to_take_place_where_nothing_is_known() -> None:
    assert 0.9 < _share(held_as(WEEKLY, (), TODAY)) < 0.96


def test_a_new_habit_outweighs_an_older_one() -> None:
    """Half a year every second Saturday, then every one; and the other way about."""
    more = [*SATURDAYS[:26:2], *SATURDAYS[26:]]
    fewer = [*SATURDAYS[:26], *SATURDAYS[26::2]]
    assert _share(held_as(WEEKLY, more, TODAY)) > 0.8
    assert _share(held_as(WEEKLY, fewer, TODAY)) < 0.7


def test_a_winter_without_anybody_is_one_stop_and_stays_known() -> None:
    """Nobody came for 13 of 52 weeks. What came after it does not let it be forgotten, and it is
    known less surely than 13 days skipped now and then would be."""
    found = held_as(WEEKLY, [*SATURDAYS[:10], *SATURDAYS[23:]], TODAY)
    assert _mean(found.habit) > 0.95
    assert 0.6 < _mean(found.open) < 0.9
    assert sum(found.open) < 10


def test_a_year_without_anybody_does_not_come_every_other_year() -> None:
    days = list(WEEKLY.coming(date(2024, 1, 6), 730))
    found = held_as(WEEKLY, [*days[:20], *days[72:]], date(2026, 1, 5))
    assert _share(found) > 0.7


def test_two_days_a_month_that_are_skipped_now_and_then_are_no_stop() -> None:
    rule = WorkDays((parse_rule("first saturday"), parse_rule("third saturday")))
    days = list(rule.coming(date(2025, 1, 4), 366))
    found = held_as(rule, [day for n, day in enumerate(days) if n % 4], TODAY)
    assert _mean(found.open) > 0.9
    assert 0.7 < _mean(found.habit) < 0.9


def test_days_off_the_calendar_are_told_beside_it() -> None:
    evenings = [day + timedelta(days=4) for day in SATURDAYS[::2]]
    found = held_as(WEEKLY, [*SATURDAYS, *evenings], TODAY)
    assert 0.3 < found.extra < 0.5
    assert _share(found) > 0.9


def test_a_day_held_instead_of_another_is_a_day_held() -> None:
    """The crew moved from Saturday to Sunday, and its calendar says Sunday now."""
    sundays = WorkDays((parse_rule("sunday"),))
    found = held_as(sundays, SATURDAYS, TODAY)
    assert _share(found) > 0.9
    assert found.extra < 0.05


def test_before_the_calendar_says_anything_no_day_is_off_it() -> None:
    for days in (WorkDays(), WEEKLY._replace(since=SATURDAYS[-5])):
        found = held_as(days, SATURDAYS, TODAY)
        assert found.extra == 0
        assert _share(found) > 0.9
