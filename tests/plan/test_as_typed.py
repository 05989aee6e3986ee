"""What was typed means the same wherever it is typed."""

from __future__ import annotations

from datetime import date, datetime, time

import pytest

from crewboard.plan import as_typed
from crewboard.plan.as_typed import Today, Unread
from crewboard.plan.units import as_kept, read_temperature, shown, temperature
from crewboard.plan.workdays import MeetingRule, Opening, WorkDays

SATURDAYS = WorkDays((MeetingRule(5),), Opening(time(8, 30), time(16)))
TODAY = Today(date(2026, 5, 2), SATURDAYS)


@pytest.mark.parametrize(
    ("typed", "hours"),
    [
        *(("2:30", 2.5), ("2,5", 2.5), ("2.5", 2.5), ("2.5 h", 2.5), ("2.5h", 2.5), ("2,5 h", 2.5)),
        *(("2 h 30 min", 2.5), ("2h30", 2.5), ("150 min", 2.5), ("2 hours 30 minutes", 2.5)),
        *(("10:05", 10.0833), ("0:45", 0.75), ("3", 3.0), ("1 hour", 1.0), (".5", 0.5)),
    ],
)
def test_hours_can_be_typed_as_people_write_them(typed: str, hours: float) -> None:
    assert as_typed.hours(typed) == hours


NO_HOURS = ["", "2:75", "12:5", "two", "2;30", "1e5", "nan", "inf", "2:30:10", "٣"]


@pytest.mark.parametrize("typed", NO_HOURS)
def test_what_is_no_number_of_hours_is_said(typed: str) -> None:
    with pytest.raises(Unread, match=r"write 2\.5, 2,5, 2:30"):
        as_typed.hours(typed)


@pytest.mark.parametrize(
    ("typed", "moment"),
    [
        ("2026-05-05T10:05", datetime(2026, 5, 5, 10, 5)),
        ("2026-05-05 10:05", datetime(2026, 5, 5, 10, 5)),
        ("2026-05-05T10:05:30", datetime(2026, 5, 5, 10, 5, 30)),
        ("5 May 10:05", datetime(2026, 5, 5, 10, 5)),
        ("Tue 5 May 2026 10:05", datetime(2026, 5, 5, 10, 5)),
        ("5 May, 10.05", datetime(2026, 5, 5, 10, 5)),
        ("10:05", datetime(2026, 5, 2, 10, 5)),
        ("9:05", datetime(2026, 5, 2, 9, 5)),
        ("5 May", datetime(2026, 5, 5, 8, 30)),
        ("may 5", datetime(2026, 5, 5, 8, 30)),
        ("2026-05-05", datetime(2026, 5, 5, 8, 30)),
        ("28 Dec", datetime(2025, 12, 28, 8, 30)),
    ],
)
def test_a_moment_can_be_typed_as_people_write_it(typed: str, moment: datetime) -> None:
    assert as_typed.moment(typed, TODAY) == moment


@pytest.mark.parametrize(
    "typed", ["", "soon", "2026-02-30", "1 May 25:00", "31 Feb", "5 Maybe", "5"]
)
def test_what_is_no_moment_is_said(typed: str) -> None:
    with pytest.raises(Unread, match="is not a moment: write 2026-05-02T09:00"):
        as_typed.moment(typed, TODAY)


def test_a_moment_with_an_offset_is_not_the_shops_clock() -> None:
    with pytest.raises(Unread, match="offset from UTC"):
        as_typed.moment("2026-05-02T09:00+02:00", TODAY)


def test_a_date_without_a_year_is_the_nearest() -> None:
    assert as_typed.day("5 May", date(2026, 5, 2)) == date(2026, 5, 5)
    assert as_typed.day("28 December 2027", date(2026, 5, 2)) == date(2027, 12, 28)
    assert as_typed.day("28 dec", date(2027, 1, 3)) == date(2026, 12, 28)
    assert as_typed.day("3 Jan", date(2026, 12, 28)) == date(2027, 1, 3)
    assert as_typed.day("29 Feb", date(2026, 5, 2)) == date(2028, 2, 29)


def test_an_imperial_folder_shows_and_takes_fahrenheit_inches_and_pounds() -> None:
    assert temperature(18.5, "metric") == "18.5 °C"
    assert temperature(18.5, "imperial") == "65.3 °F"
    assert shown(25.4, "mm", "imperial") == "1 in"
    assert shown(10, "kg", "imperial") == "22 lb"
    assert read_temperature("68", "imperial") == 20
    assert read_temperature("20 C", "imperial") == 20
    assert read_temperature("68°F", "metric") == 20
    assert read_temperature("-4,5", "metric") == -4.5
    assert as_kept("2 in", "mm", "metric") == 50.8
    assert as_kept("2", "mm", "imperial") == 50.8
    assert as_kept("55 %", "%", "imperial") == 55


@pytest.mark.parametrize("typed", range(-40, 130))
def test_a_temperature_typed_in_whole_degrees_is_shown_as_it_was_typed(typed: int) -> None:
    assert temperature(read_temperature(str(typed), "imperial"), "imperial") == f"{typed} °F"


@pytest.mark.parametrize("typed", ["", "warm", "C", "°F", "1 2"])
def test_what_is_no_temperature_is_said(typed: str) -> None:
    with pytest.raises(Unread):
        read_temperature(typed, "metric")
