"""Holds after every word said of them: extended, released, reopened, whatever the weather."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Extended, Finished, Released, Reopened
from crewboard.plan.duration import Duration, parse_duration
from crewboard.plan.hold import Hold
from tests.long_form import cases
from tests.order.test_holds import BAD, GOOD, MINUTE, WARM, ZONES, board, plan_with

DONE = datetime(2026, 4, 4, 15, 20)


MONTH = Hold("bend set", Duration(months=1), "look")


def extended(when: datetime, lasts: str) -> tuple[datetime, Extended]:
    return when, Extended("e0", parse_duration(lasts), None, "the strap slipped")


def test_an_extension_counts_from_the_end_that_stood() -> None:
    said = [(DONE, Finished("arches/bend")), extended(datetime(2026, 4, 18, 10), "1 week")]
    hold = board(plan_with(MONTH), datetime(2026, 5, 2, 9), *said).holds["e0"]
    assert hold.until == DONE + relativedelta(months=1, days=7) == datetime(2026, 5, 11, 15, 20)
    assert [each.until for each in hold.extended] == [hold.until]
    assert hold.extended[0].why == "the strap slipped"


def test_an_extension_given_after_the_end_counts_from_when_it_was_said() -> None:
    looked = datetime(2026, 5, 16, 9, 30)
    said = [(DONE, Finished("arches/bend")), extended(looked, "2 days")]
    hold = board(plan_with(MONTH), datetime(2026, 5, 16, 12), *said).holds["e0"]
    assert hold.until == looked + relativedelta(days=2)
    assert hold.stage == "running"


def test_two_extensions_add_up_and_both_stay_readable() -> None:
    said = [
        (DONE, Finished("arches/bend")),
        extended(datetime(2026, 4, 18, 10), "1 week"),
        extended(datetime(2026, 5, 2, 10), "36 hours"),
    ]
    hold = board(plan_with(MONTH, "CET"), datetime(2026, 5, 2, 11), *said).holds["e0"]
    assert hold.until == DONE + relativedelta(months=1, days=7, hours=36)
    assert len(hold.extended) == 2


def test_the_board_before_an_extension_knows_nothing_of_it() -> None:
    said = [(DONE, Finished("arches/bend")), extended(datetime(2026, 4, 18, 10), "1 week")]
    hold = board(plan_with(MONTH), datetime(2026, 4, 18, 9), *said).holds["e0"]
    assert hold.until == DONE + relativedelta(months=1)
    assert hold.extended == ()


def test_a_hold_due_for_a_look_stays_until_somebody_releases_it() -> None:
    plan = plan_with(MONTH)
    said: list[tuple[datetime, Any]] = [(DONE, Finished("arches/bend"))]
    a_year_on = board(plan, datetime(2027, 5, 2), *said)
    assert a_year_on.holds["e0"].stage == "due"
    assert a_year_on["roof/lay"].state == "waiting"
    said.append((datetime(2027, 5, 2, 9, 5), Released("e0", "held its curve")))
    released = board(plan, datetime(2027, 5, 2, 9, 5), *said)
    assert released.holds["e0"].stage == "over"
    assert released["roof/lay"].state == "ready"
    assert released["arches/bend"].state == "finished"


def test_a_reopened_task_voids_its_hold_and_a_new_finish_starts_a_new_one() -> None:
    plan = plan_with(MONTH)
    said: list[tuple[datetime, Any]] = [
        (DONE, Finished("arches/bend")),
        (datetime(2026, 4, 18, 10), Reopened("arches/bend", "a crack")),
    ]
    open_again = board(plan, datetime(2026, 4, 18, 11), *said)
    assert open_again.holds == {}
    assert open_again["arches/bend"].state == "ready"
    assert open_again["roof/lay"].state == "waiting"
    said.append((datetime(2026, 4, 18, 15), Finished("arches/bend")))
    again = board(plan, datetime(2026, 4, 18, 16), *said)
    assert again.holds["e2"].until == datetime(2026, 5, 18, 15)


@pytest.mark.parametrize("clock", [datetime(2026, 4, 4, 11, 45), datetime(2026, 4, 3, 9)])
def test_a_clock_started_earlier_than_it_was_logged_runs_from_then(clock: datetime) -> None:
    hold = board(plan_with(MONTH), DONE, (DONE, Finished("arches/bend", clock))).holds["e0"]
    assert hold.since == clock
    assert hold.until == clock + relativedelta(months=1)


@cases(80, 3000)
@given(
    st.lists(
        st.tuples(
            st.integers(0, 60_000),
            st.sampled_from(("1 week", "36 hours", "1 month", "20 min")),
        ),
        max_size=5,
    )
)
def test_any_number_of_extensions_is_dateutils_sum(given_later: list[tuple[int, str]]) -> None:
    end = DONE + relativedelta(months=1)
    said: list[tuple[datetime, Any]] = [(DONE, Finished("arches/bend"))]
    for minutes, lasts in sorted(given_later):
        when = DONE + minutes * MINUTE
        span = parse_duration(lasts)
        end = max(end, when) + relativedelta(
            months=span.months, days=span.days, minutes=span.minutes
        )
        said.append(extended(when, lasts))
    hold = board(plan_with(MONTH), datetime(2027, 1, 1), *said).holds["e0"]
    assert hold.until == end
    assert len(hold.extended) == len(given_later)


def test_cold_hours_between_the_end_and_an_extension_do_not_make_it_longer() -> None:
    """Two more days given after the time was up are two days from then, not more."""
    hold = Hold("clamp", parse_duration("2 days"), "look", conditions=WARM)
    said: list[tuple[datetime, Any]] = [
        (datetime(2026, 2, 7, 15), Finished("arches/bend")),
        (datetime(2026, 2, 12, 15), BAD),  # the two days were over on the 9th
        (datetime(2026, 2, 14, 9), GOOD),
        extended(datetime(2026, 2, 14, 10), "2 days"),
    ]
    again = board(plan_with(hold), datetime(2026, 2, 14, 11), *said).holds["e0"]
    assert again.until == datetime(2026, 2, 16, 10)
    assert again.extended[0].until == again.until


@st.composite
def courses(draw: st.DrawFn) -> list[tuple[datetime, Any]]:
    """A hold finished at DONE, then readings and extensions over some weeks."""
    said: list[tuple[datetime, Any]] = [(DONE, Finished("arches/bend"))]
    at = DONE
    for _ in range(draw(st.integers(0, 8))):
        at += draw(st.integers(1, 12_000)) * MINUTE
        span = parse_duration(draw(st.sampled_from(("1 week", "36 hours", "20 min"))))
        act = draw(st.sampled_from((GOOD, BAD, Extended("e0", span, None, "more"))))
        said.append((at, act))
    return said


@cases(150, 6000)
@given(courses(), st.integers(0, 60_000), st.integers(0, 60_000), st.sampled_from(ZONES))
def test_as_time_goes_on_the_end_of_a_hold_only_ever_moves_later(
    said: list[tuple[datetime, Any]], first: int, more: int, zone: str | None
) -> None:
    plan = plan_with(Hold("cure", parse_duration("10 days"), "look", conditions=WARM), zone)
    early = DONE + first * MINUTE
    late = early + more * MINUTE
    before, after = (board(plan, at, *said).holds["e0"] for at in (early, late))
    assert before.until is not None
    assert after.until is not None
    assert before.until <= after.until
    for each in (before, after):
        assert all(given.until <= (each.until or given.until) for given in each.extended)


@cases(150, 6000)
@given(courses())
def test_what_an_extension_promised_holds_while_the_shop_stays_warm(
    said: list[tuple[datetime, Any]],
) -> None:
    warm = [each for each in said if each[1] != BAD]
    plan = plan_with(Hold("cure", parse_duration("10 days"), "look", conditions=WARM), "CET")
    hold = board(plan, datetime(2027, 1, 1), *warm).holds["e0"]
    if hold.extended:
        assert hold.until == hold.extended[-1].until
    assert hold.lost == timedelta()


def test_cold_weather_after_a_release_is_not_counted_against_the_hold() -> None:
    hold = Hold("cure", parse_duration("10 days"), "look", conditions=WARM)
    said: list[tuple[datetime, Any]] = [
        (DONE, Finished("arches/bend")),
        (datetime(2026, 4, 8, 9), Released("e0", "hard enough to sand")),
        (datetime(2026, 4, 9, 9), BAD),
    ]
    long_after = board(plan_with(hold), datetime(2026, 6, 6, 9), *said).holds["e0"]
    assert long_after.lost == timedelta()
    assert not long_after.outside
    assert long_after.until == DONE + relativedelta(days=10)
