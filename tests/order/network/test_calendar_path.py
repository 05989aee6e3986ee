"""Work keeps to the calendar, waiting does not."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from math import ceil, floor

from hypothesis import given

from tests.order.network import worked_examples as published
from tests.order.network.engine.calendar_path import Span, along_calendar
from tests.order.network.engine.critical_path import critical_path
from tests.order.network.engine.precedence import network
from tests.order.network.random_networks import Plain, acyclic, examples

Pass = Callable[[int, float], Span]


def weekdays(durations: Sequence[float]) -> tuple[Pass, Pass]:
    """Days are numbered from Monday 0; work of whole days passes Monday to Friday only."""

    def worked(day: float) -> int:
        """Working days before the day with this number."""
        weeks, rest = divmod(int(day), 7)
        return 5 * weeks + min(rest, 5)

    def morning(work_day: int) -> int:
        return work_day // 5 * 7 + work_day % 5

    def evening(work_day: int) -> int:
        """The end of the working day before: Friday's evening is 5, not Monday's morning 7."""
        return morning(work_day - 1) + 1 if work_day > 0 else 0

    def onward(i: int, ready: float) -> Span:
        first = worked(ceil(ready))
        last = first + int(durations[i])
        return Span(morning(first), evening(last) if durations[i] else morning(first))

    def back(i: int, latest: float) -> Span:
        last = worked(floor(latest))
        return Span(morning(last - int(durations[i])), evening(last))

    return onward, back


def test_winstons_twenty_working_days_from_monday_1_june_end_on_friday_26_june() -> None:
    # Data read on lecture slides; 1 June was a Monday in 2026.
    plan = published.WEEKDAYS
    onward, back = weekdays(plan.durations)
    found = along_calendar(network(len(plan.durations), plan.links), onward, back)
    last_day = date(2026, 6, 1) + timedelta(days=int(found.end) - 1)
    assert last_day == date(2026, 6, 26)
    room = plan.at(found.waiting_room)
    assert {name for name, days in room.items() if days} == {"C", "F", "I"}


def test_glue_that_sets_over_the_weekend_costs_no_working_day() -> None:
    onward, back = weekdays([5, 1])
    for days_of_setting, monday_or_later in ((2, 7), (3, 8)):
        found = along_calendar(network(2, [(0, 1, days_of_setting)]), onward, back)
        assert found.earliest[0] == Span(0, 5)
        assert found.earliest[1].start == monday_or_later
    assert found.waiting_room == [0, 0]


def test_a_release_and_a_due_time_bound_both_passes() -> None:
    onward, back = weekdays([2, 2])
    found = along_calendar(network(2, [(0, 1, 0)]), onward, back, release=[0, 7], due=12)
    assert found.earliest[1] == Span(7, 9)
    assert found.latest[1] == Span(10, 12)
    assert found.latest[0] == Span(8, 10)


@examples(150, 5_000)
@given(acyclic())
def test_a_calendar_without_gaps_gives_the_plain_critical_path(plan: Plain) -> None:
    durations, links = plan
    net = network(len(durations), links)
    plain = critical_path(durations, net)
    found = along_calendar(
        net,
        lambda i, ready: Span(ready, ready + durations[i]),
        lambda i, latest: Span(latest - durations[i], latest),
    )
    assert [span.start for span in found.earliest] == plain.earliest_start
    assert [span.start for span in found.latest] == plain.latest_start
    assert found.waiting_room == plain.total_float
