"""Holds of the sample's own tasks at odd moments: mid-day, clock changes, leap days, second looks.

The shop keeps CET. Calendar arithmetic against python-dateutil.
"""

from __future__ import annotations

from datetime import datetime

from dateutil import tz
from dateutil.relativedelta import relativedelta

from crewboard.logbook.acts import Act, Extended, Finished, Reading, Released, Reopened
from crewboard.order.board import Board
from crewboard.plan.duration import parse_duration
from tests.sample.marigold import AT, board, plan, when

CET = tz.gettz("CET")


def real_hours_later(moment: datetime, hours: int) -> datetime:
    """dateutil's word for a span of real time on the shop's clock."""
    start = moment.replace(tzinfo=CET).astimezone(tz.UTC)
    return (start + relativedelta(hours=hours)).astimezone(CET).replace(tzinfo=None)


def after(at: datetime, *said: tuple[datetime, Act]) -> Board:
    return when(at, *said)


def test_a_hold_begun_in_the_middle_of_a_work_day_ends_at_that_minute() -> None:
    noon = datetime(2026, 4, 18, 11, 37)
    said = (noon, Finished("mouldings/glue-first"))
    assert after(noon, said).holds["e0"].until == datetime(2026, 4, 20, 11, 37)
    assert after(datetime(2026, 4, 20, 11, 36), said).holds["e0"].stage == "running"
    assert after(datetime(2026, 4, 20, 11, 37), said).holds["e0"].stage == "due"


def test_hours_in_clamps_across_the_spring_change_are_hours() -> None:
    glued = datetime(2026, 3, 28, 15)
    end = after(glued, (glued, Finished("mouldings/glue-first"))).holds["e0"].until
    assert end == real_hours_later(glued, 48) == datetime(2026, 3, 30, 16)


def test_hours_in_clamps_across_the_autumn_change_are_hours() -> None:
    glued = datetime(2026, 10, 24, 15)
    end = after(glued, (glued, Finished("mouldings/glue-first"))).holds["e0"].until
    assert end == real_hours_later(glued, 48) == datetime(2026, 10, 26, 14)


def test_a_month_on_the_form_across_both_changes_keeps_the_time_of_day() -> None:
    for bent in (datetime(2026, 3, 7, 15, 20), datetime(2026, 10, 3, 15, 20)):
        end = after(bent, (bent, Finished("arches/bend/arches/1"))).holds["e0"].until
        assert end == bent + relativedelta(months=1)


def test_two_weeks_of_soaking_pass_over_a_leap_day() -> None:
    soaked = datetime(2028, 2, 19, 12)
    end = after(soaked, (soaked, Finished("rods/soak-nuts"))).holds["e0"].until
    assert end == soaked + relativedelta(weeks=2) == datetime(2028, 3, 4, 12)


def test_an_arch_extended_twice_ends_when_both_say_and_keeps_both_reasons() -> None:
    bent = datetime(2026, 4, 4, 12, 36)
    said: list[tuple[datetime, Act]] = [
        (bent, Finished("arches/bend/arches/6")),
        (datetime(2026, 4, 18, 9), Extended("e0", parse_duration("1 week"), None, "slipped")),
        (datetime(2026, 5, 2, 9), Extended("e0", None, datetime(2026, 6, 6, 9), "still springs")),
    ]
    hold = after(datetime(2026, 5, 2, 9), *said).holds["e0"]
    assert [each.why for each in hold.extended] == ["slipped", "still springs"]
    assert hold.extended[0].until == bent + relativedelta(months=1, weeks=1)
    assert hold.until == datetime(2026, 6, 6, 9)


def test_the_extended_arch_of_the_sample_is_due_a_week_after_their_month() -> None:
    hold = next(h for h in board().stopping() if h.extended)
    assert hold.until == hold.since + relativedelta(months=1, weeks=1)
    assert hold.extended[0].by == "aiko"


def test_a_reopened_task_of_the_sample_takes_its_hold_along() -> None:
    coated = datetime(2026, 4, 4, 11)
    said: list[tuple[datetime, Act]] = [
        (coated, Finished("boards/coat-deck-hidden")),
        (datetime(2026, 4, 5, 9), Reopened("boards/coat-deck-hidden", "two bare backs")),
    ]
    again = after(datetime(2026, 4, 5, 10), *said)
    assert not again["boards/coat-deck-hidden"].work_done
    assert not [h for h in again.stopping() if h.task == "boards/coat-deck-hidden"]
    said.append((datetime(2026, 4, 18, 12), Finished("boards/coat-deck-hidden")))
    hold = after(datetime(2026, 4, 18, 12), *said).holds["e2"]
    assert hold.until == datetime(2026, 4, 20, 12)


def test_a_cold_shop_stops_the_cure_of_the_epoxy() -> None:
    filled = datetime(2026, 2, 7, 15)
    said: list[tuple[datetime, Act]] = [
        (datetime(2026, 2, 7, 9), Reading(14.0, 70.0)),
        (filled, Finished("body-frame/epoxy-fill")),
        (datetime(2026, 2, 8, 15), Reading(6.0, 80.0)),
        (datetime(2026, 2, 10, 15), Reading(13.0, 70.0)),
    ]
    hold = after(datetime(2026, 2, 10, 15), *said).holds["e1"]
    assert hold.until == filled + relativedelta(days=3 + 2)
    assert not hold.outside


def test_rear_doors_on_the_bench_forbid_all_other_work_on_them() -> None:
    at_nine = board()["doors/rear-ironwork"]
    assert at_nine.state == "on hold"
    assert at_nine.until is not None
    assert at_nine.until.date() == AT.date()


def test_a_look_releases_one_arch_and_lets_the_rest_go_on_waiting() -> None:
    bent = datetime(2026, 3, 21, 13, 47)
    said: list[tuple[datetime, Act]] = [
        (bent, Finished("arches/bend/arches/3")),
        (datetime(2026, 5, 2, 9, 15), Released("e0", "held its curve")),
    ]
    looked = after(datetime(2026, 5, 2, 9, 15), *said)
    assert looked["arches/bend/arches/3"].state == "finished"
    assert looked["arches/true-up/arches/3"].state == "ready"
    assert looked["arches/true-up/arches/4"].state == "waiting"
    assert looked["arches/cut-ends"].state == "waiting"


def test_the_shop_of_the_sample_keeps_cet() -> None:
    assert plan().vehicle.timezone == "CET"
    assert plan().clock.zone is not None
