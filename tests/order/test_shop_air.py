"""What readings say of the time between them, worked out by hand; and that a worse reading never
makes an end earlier."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Finished, Reading
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.logged import Logged
from crewboard.order.assess import assess
from crewboard.order.holds.running import StandingHold, counted
from crewboard.order.holds.shop_air import NoReading, Outside, ShopAir
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import parse_duration
from crewboard.plan.hold import Conditions, Hold
from crewboard.plan.plan import Plan
from tests.long_form import cases
from tests.order.small_plans import logbook, plan, task

WARM = Conditions(at_least_c=10)
DRY = Conditions(at_least_c=10, at_most_humidity=85)
SATURDAY = datetime(2026, 5, 2, 16)  # when the work was finished


def on(day: int, hour: int = 16, minute: int = 0) -> datetime:
    return datetime(2026, 5, day, hour, minute)


def glued(lasts: str, conditions: Conditions = WARM, release: str = "time") -> Plan:
    hold = Hold("glue", parse_duration(lasts), release, conditions=conditions)  # type: ignore[arg-type]
    return plan([task("rail/glue", hold=hold), task("rail/fit", after=("rail/glue",))])


def standing(
    of: Plan, at: datetime, *said: tuple[datetime, Any], logged: Logged | None = None
) -> StandingHold:
    book = logbook((SATURDAY, Finished("rail/glue")), *said)
    if logged is not None:
        book = Logbook(book.days, logged)
    return assess(of, book, at).holds["e0"]


# --- the lowest and highest since the last reading -----------------------------------------------


def test_a_warm_morning_does_not_speak_for_a_cold_night() -> None:
    """Read 15 °C on Saturday at 16:00 and on Sunday at 08:00, with a lowest of 4: sixteen hours
    count nothing, so a day's clamp time ends on Monday at 08:00."""
    said = [(SATURDAY, Reading(15.0)), (on(3, 8), Reading(15.0, lowest_c=4.0))]
    hold = standing(glued("24 hours"), on(3, 9), *said)
    assert hold.until == on(4, 8)
    assert hold.lost == timedelta(hours=16)
    assert hold.outside is None


def test_a_night_that_stayed_warm_counts() -> None:
    said = [(SATURDAY, Reading(15.0)), (on(3, 8), Reading(15.0, lowest_c=11.0))]
    assert standing(glued("24 hours"), on(3, 9), *said).until == on(3)


def test_a_hold_that_seemed_over_runs_again_when_the_lowest_tells_of_a_cold_night() -> None:
    said = [(SATURDAY, Reading(15.0)), (on(4, 9), Reading(15.0, lowest_c=4.0))]
    of = glued("24 hours")
    assert standing(of, on(3, 17), *said).stage == "over"
    assert standing(of, on(4, 9), *said).until == on(5, 9)
    assert standing(of, on(4, 9), *said).stage == "running"


def test_the_highest_speaks_as_the_lowest_does() -> None:
    cool = Conditions(at_most_c=25)
    said = [(SATURDAY, Reading(20.0)), (on(3, 8), Reading(20.0, highest_c=31.0))]
    assert standing(glued("24 hours", cool), on(3, 9), *said).until == on(4, 8)
    damp = (on(3, 8), Reading(15.0, 60.0, highest_humidity=95.0))
    assert standing(glued("24 hours", DRY), on(3, 9), (SATURDAY, Reading(15.0, 60.0)), damp).until


def test_the_lowest_speaks_only_since_the_last_reading() -> None:
    """Read warm on Sunday at 08:00, a lowest of 4 on Monday at 08:00: only that day is lost."""
    said = [
        (SATURDAY, Reading(15.0)),
        (on(3, 8), Reading(15.0)),
        (on(4, 8), Reading(15.0, lowest_c=4.0)),
    ]
    assert standing(glued("48 hours"), on(4, 9), *said).until == on(5, 16)


def test_a_lowest_told_first_of_all_speaks_for_all_the_time_before() -> None:
    said = [(on(3, 8), Reading(15.0, lowest_c=4.0))]
    assert standing(glued("24 hours"), on(3, 9), *said).until == on(4, 8)


def test_the_hygrometer_alone_does_not_make_the_shop_warm() -> None:
    said = [(SATURDAY, Reading(4.0)), (on(3, 8), Reading(None, 60.0))]
    hold = standing(glued("24 hours"), on(3, 12), *said)
    assert hold.outside == Outside("too cold", 4.0, 10)
    assert hold.lost == timedelta(hours=20)


def test_it_is_said_what_is_wrong_with_the_air() -> None:
    said = [(SATURDAY, Reading(15.0, 92.0))]
    outside = standing(glued("24 hours", DRY), on(3, 12), *said).outside
    assert outside == Outside("too damp", 92.0, 85)
    assert outside is not None
    assert not outside.is_temperature


# --- a data logger -------------------------------------------------------------------------------


def hourly(first: datetime, *celsius: float) -> Logged:
    months: dict[str, str] = {}
    for hour, c in enumerate(celsius):
        at = first + timedelta(hours=hour)
        months[f"{at:%Y-%m}"] = months.get(f"{at:%Y-%m}", "") + f"{at:%Y-%m-%dT%H:%M},{c},{c},,\n"
    return Logged(months)


NIGHT = hourly(on(2, 15), *[15.0] * 7, *[8.0] * 6, *[14.0] * 40)  # cold from 22:00 to 04:00


def test_logged_hours_say_more_than_the_lowest() -> None:
    """The lowest alone would take sixteen hours; the logger shows that six were cold."""
    said = [(SATURDAY, Reading(15.0)), (on(3, 8), Reading(15.0, lowest_c=8.0))]
    hold = standing(glued("24 hours"), on(3, 20), *said, logged=NIGHT)
    assert hold.lost == timedelta(hours=6)
    assert hold.until == on(3, 22)


def test_the_logger_alone_is_enough() -> None:
    hold = standing(glued("24 hours"), on(3, 20), logged=NIGHT)
    assert (hold.lost, hold.until, hold.no_reading) == (timedelta(hours=6), on(3, 22), None)


def test_where_the_logger_was_off_the_lowest_speaks() -> None:
    """Logged until 20:00 and from 06:00 on; between them a lowest of 4: ten hours count nothing."""
    rows = {
        "2026-05": "".join(
            f"2026-05-0{day}T{hour:02}:00,15,15,,\n"
            for day, hours in ((2, range(15, 21)), (3, range(6, 24)), (4, range(12)))
            for hour in hours
        )
    }
    said = (on(3, 8), Reading(15.0, lowest_c=4.0))
    hold = standing(glued("24 hours"), on(4, 9), said, logged=Logged(rows))
    assert hold.lost == timedelta(hours=10)


def test_rows_logged_later_are_not_known_yet() -> None:
    early = standing(glued("24 hours"), on(2, 21), logged=NIGHT)
    assert (early.until, early.lost) == (on(3), timedelta())


# --- readings age --------------------------------------------------------------------------------


def test_a_hold_that_nobody_read_the_shop_for_asks_for_a_look() -> None:
    """A two days' drying time, read at the start only: from the second day on nobody knows."""
    hold = standing(glued("2 days"), on(5), (SATURDAY, Reading(15.0)))
    assert hold.until == on(4)
    assert hold.stage == "due"
    assert hold.no_reading == NoReading(SATURDAY)


def test_a_hold_whose_readings_are_fresh_ends_by_itself() -> None:
    said = [(SATURDAY, Reading(15.0)), (on(3, 16), Reading(14.0))]
    hold = standing(glued("2 days"), on(5), *said)
    assert (hold.until, hold.stage, hold.no_reading) == (on(4), "over", None)


def test_a_longer_hold_wants_a_reading_a_week() -> None:
    of, first = glued("10 days"), (SATURDAY, Reading(15.0))
    assert standing(of, on(13), first).stage == "due"
    assert standing(of, on(13), first, (on(9, 15), Reading(15.0))).stage == "over"
    assert standing(of, on(13), first, (on(9, 17), Reading(15.0))).stage == "due"


def test_a_gap_is_closed_by_whoever_reads_the_lowest_and_highest_since() -> None:
    said = [(SATURDAY, Reading(15.0)), (on(12, 9), Reading(15.0, lowest_c=12.0))]
    assert standing(glued("9 days"), on(12, 10), *said).stage == "over"
    both = Conditions(at_least_c=10, at_most_c=30)  # the highest was not read
    assert standing(glued("9 days", both), on(12, 10), *said).stage == "due"


def test_the_crew_sets_how_long_a_reading_is_good_for() -> None:
    of = glued("10 days")
    vehicle = of.vehicle
    fortnight = vehicle.shop._replace(readings_good_for=parse_duration("2 weeks"))
    of = of._replace(vehicle=vehicle._replace(shop=fortnight))
    assert standing(of, on(13), (SATURDAY, Reading(15.0))).stage == "over"
    hours = vehicle.shop._replace(readings_good_for=parse_duration("6 hours"))
    short = glued("8 hours")._replace(vehicle=vehicle._replace(shop=hours))
    assert standing(short, on(3, 1), (SATURDAY, Reading(15.0))).stage == "due"


def test_a_hold_without_conditions_needs_no_readings() -> None:
    assert standing(glued("10 days", Conditions()), on(13)).stage == "over"


def test_a_shop_that_was_never_read_ends_no_conditioned_hold_by_itself() -> None:
    hold = standing(glued("2 hours"), on(2, 18, 1))
    assert (hold.stage, hold.no_reading) == ("due", NoReading(None))


def test_a_reading_soon_after_the_finish_speaks_for_the_start() -> None:
    hold = standing(glued("2 hours"), on(2, 18, 1), (on(2, 16, 20), Reading(15.0)))
    assert hold.stage == "over"


def test_whoever_began_the_work_behind_it_has_looked() -> None:
    from crewboard.logbook.acts import Begun

    said = [(SATURDAY, Reading(15.0)), (on(5), Begun("rail/fit", ("ada",), "dry: I looked"))]
    assert standing(glued("2 days"), on(5), *said).stage == "over"
    look = glued("2 days", release="look")
    assert standing(look, on(5), *said).stage == "due"


# --- never earlier -------------------------------------------------------------------------------

_CELSIUS = st.sampled_from((2.0, 9.9, 10.0, 15.0))
_LIKELY = st.one_of(st.none(), _CELSIUS)


@st.composite
def told(draw: st.DrawFn) -> Reading:
    celsius = draw(_LIKELY)
    lowest = draw(_LIKELY)
    if celsius is not None and lowest is not None:
        lowest = min(celsius, lowest)
    return Reading(celsius, draw(st.sampled_from((None, 50.0, 95.0))), "", lowest)


@st.composite
def moments(draw: st.DrawFn) -> list[tuple[datetime, Reading]]:
    times = sorted(draw(st.lists(st.integers(-2000, 6000), max_size=7)))
    return [(SATURDAY + timedelta(minutes=minute), draw(told())) for minute in times]


def end(readings: list[tuple[datetime, Reading]], conditions: Conditions) -> datetime:
    at = SATURDAY + timedelta(minutes=6000)
    readings = sorted(readings, key=lambda pair: pair[0])
    needed = timedelta(minutes=2000)
    return counted(ShopClock(), SATURDAY, needed, ShopAir(readings), conditions, at).ends


@cases(150, 5000)
@given(moments(), st.integers(-2000, 6000), st.sampled_from((2.0, 9.9)), st.booleans())
def test_one_more_bad_reading_never_makes_an_end_earlier(
    readings: list[tuple[datetime, Reading]], minute: int, cold: float, lowest: bool
) -> None:
    at = SATURDAY + timedelta(minutes=minute)
    bad = (at, Reading(cold, 95.0, "", cold if lowest else None))
    for conditions in (WARM, DRY):
        assert end([*readings, bad], conditions) >= end(readings, conditions)


@cases(150, 5000)
@given(moments(), st.integers(0, 6), _CELSIUS)
def test_a_lower_lowest_never_makes_an_end_earlier(
    readings: list[tuple[datetime, Reading]], which: int, lowest: float
) -> None:
    if which >= len(readings):
        return
    at, reading = readings[which]
    if reading.lowest_c is None or lowest > reading.lowest_c:
        return
    worse = [*readings]
    worse[which] = (at, reading._replace(lowest_c=lowest))
    for conditions in (WARM, DRY):
        assert end(worse, conditions) >= end(readings, conditions)


@cases(150, 5000)
@given(moments())
def test_no_reading_ever_shortens_the_time_on_the_label(
    readings: list[tuple[datetime, Reading]],
) -> None:
    for conditions in (WARM, DRY):
        assert end(readings, conditions) >= SATURDAY + timedelta(minutes=2000)
