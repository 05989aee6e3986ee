"""Hours that the entries of a day speak of, proposed to be looked over."""

from datetime import date, datetime

from crewboard.logbook.acts import Act, Begun, Finished, SignIn, SignOut, Stopped
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.hours.proposed import proposed_hours
from crewboard.plan.clock import ShopClock


def at(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 5, 2, hour, minute)


def proposed(*lines: tuple[datetime, Act]) -> dict[tuple[str, str], float]:
    entries = tuple(Entry(f"e{place}", moment, act) for place, (moment, act) in enumerate(lines))
    return proposed_hours(Day(date(2026, 5, 2), entries), at(16), ShopClock())


def test_the_time_from_begin_to_finish_is_proposed_in_quarters() -> None:
    hours = proposed((at(9, 10), Begun("sand", ("ada", "ben"))), (at(11), Finished("sand")))
    assert hours == {("ada", "sand"): 1.75, ("ben", "sand"): 1.75}


def test_who_begins_another_task_leaves_the_one_before() -> None:
    hours = proposed(
        (at(9), Begun("sand", ("ada", "ben"))),
        (at(10), Begun("prime", ("ben",))),
        (at(12), Stopped("prime")),
    )
    assert hours == {("ada", "sand"): 7, ("ben", "sand"): 1, ("ben", "prime"): 2}


def test_who_leaves_is_on_nothing_any_more() -> None:
    hours = proposed(
        (at(9), SignIn("ada")), (at(9), Begun("sand", ("ada",))), (at(12, 30), SignOut("ada"))
    )
    assert hours == {("ada", "sand"): 3.5}


def test_who_watches_or_stays_beside_is_there_as_long() -> None:
    hours = proposed(
        (at(9), Begun("weld", ("ada",), watch=("ben",), adult="dov")), (at(10), Finished("weld"))
    )
    assert set(hours) == {("ada", "weld"), ("ben", "weld"), ("dov", "weld")}


def test_nothing_is_proposed_of_a_day_without_entries() -> None:
    assert proposed_hours(None, at(16), ShopClock()) == {}
