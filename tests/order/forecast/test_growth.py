"""What is learned of the work that turns up on the way, and when tasks came into the plan."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from math import exp
from random import Random

import pytest

from crewboard.logbook.acts import Act, Arrived, Finished, Found
from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board
from crewboard.order.forecast.came import what_came
from crewboard.order.forecast.gamma import Gamma, below
from crewboard.order.forecast.growth import (
    MOST,
    REFERENCE,
    found_by_component,
    growth_of,
    learned,
)
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer
from tests.order.small_plans import board, logbook, plan, task

DAYS = [date(2026, 1, 3) + timedelta(weeks=2 * n) for n in range(40)]
FIRST, THIRD, LATER = DAYS[0], DAYS[2], DAYS[6]


def on(
    tasks: list[Task], done: dict[str, date] | None = None, said: Logbook | None = None
) -> Board:
    """The board after all of the days, with tasks finished on some of them."""
    lines: list[tuple[datetime, Act]] = [(_at(day, 9), Arrived("ada")) for day in DAYS]
    lines += [(_at(day, 12), Finished(name)) for name, day in (done or {}).items()]
    book = said or logbook(*sorted(lines, key=lambda line: line[0]))
    of = plan(tasks, crew=[Volunteer("ada", "Ada")])
    return board(of, _at(DAYS[-1], 18), book)


def _at(day: date, hour: int) -> datetime:
    return datetime.combine(day, time(hour))


def crew_of(growth: float, seed: int = 1, count: int = 60) -> Board:
    """A crew that finishes one task of five hours after the other from the fourth day on, and
    finds others for each hour as `growth` says."""
    rnd = Random(seed)
    tasks = [task(f"c/t{n}", 5.0, added=FIRST) for n in range(count)]
    done = {f"c/t{n}": DAYS[3 + n * (len(DAYS) - 3) // count] for n in range(count)}
    tasks += [
        task(f"c/f{n}", 5.0, added=done[f"c/t{n}"]) for n in range(count) if rnd.random() < growth
    ]
    return on(tasks, done)


# --- the Gamma distribution --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shape", "x", "share"),
    [  # of a chi-square with 2 * shape degrees of freedom, at 2 * x: common printed tables
        (0.5, 3.841 / 2, 0.95),
        (1, 5.991 / 2, 0.95),
        (5, 18.307 / 2, 0.95),
        (5, 3.940 / 2, 0.05),
        (15, 43.773 / 2, 0.95),
        (50, 124.342 / 2, 0.95),
    ],
)
def test_the_gamma_distribution_is_that_of_the_tables(shape: float, x: float, share: float) -> None:
    assert below(shape, x) == pytest.approx(share, abs=2e-5)
    assert Gamma(shape, 1).quantile(share) == pytest.approx(x, rel=2e-4)


def test_of_shape_one_it_is_exponential() -> None:
    for x in (0.01, 0.5, 1.0, 2.0, 9.0):
        assert below(1, x) == pytest.approx(1 - exp(-x), rel=1e-12)


def test_an_interval_leaves_as_much_below_as_above_it() -> None:
    """Printed chi-square table: of 10 degrees of freedom a tenth lies below 4.865, and above
    15.987."""
    assert Gamma(5.0, 0.5).interval(0.8) == pytest.approx((4.865, 15.987), abs=1e-3)


def test_what_is_cut_off_is_never_drawn_and_lowers_the_mean() -> None:
    rate, chance = Gamma(2.0, 3.0, MOST), Random(1)
    drawn = [rate.draw(chance) for _ in range(20_000)]
    assert max(drawn) <= MOST
    assert sum(drawn) / len(drawn) == pytest.approx(rate.mean, rel=0.02)
    assert rate.mean < 2 / 3 < Gamma(2.0, 3.0).mean + 1e-9
    assert sum(r < rate.quantile(0.3) for r in drawn) / len(drawn) == pytest.approx(0.3, abs=0.02)


# --- what is believed before, and after --------------------------------------------------------


def test_before_the_log_says_anything_plans_grow_as_was_published() -> None:
    """38 % on average, 19 % in the middle (Mott MacDonald 2002, see the module)."""
    chance = Random(4)
    rate = Gamma(1.0, 1 / REFERENCE, MOST)
    grown = sorted(r / (1 - r) for r in (rate.draw(chance) for _ in range(40_000)))
    assert sum(grown) / len(grown) == pytest.approx(0.38, abs=0.02)
    assert grown[len(grown) // 2] == pytest.approx(0.19, abs=0.015)


def test_counts_of_one_size_are_learned_as_in_the_textbook() -> None:
    """A Gamma(a, b) belief and n events in the exposure e leave Gamma(a + n, b + e): the conjugate
    pair of any textbook (Gelman et al., Bayesian Data Analysis, 2.6). Tasks all of five hours are
    such events; here 12 of them turned up, each on its day, while 60 such tasks were finished."""
    tasks = [task(f"c/t{n}", 5.0, added=FIRST) for n in range(60)]
    tasks += [task(f"c/f{n}", 5.0, added=DAYS[4 + n]) for n in range(12)]
    rate = learned(what_came(on(tasks, {f"c/t{n}": DAYS[4] for n in range(60)}))).rate
    assert rate.shape == pytest.approx(1 + 12)
    assert rate.per == pytest.approx(1 / REFERENCE + 60)


def test_nothing_found_for_long_leaves_nothing_to_expect() -> None:
    means = [growth_of(crew_of(0.0, count=count)).rate for count in (5, 40, 1000)]
    assert means == sorted(means, reverse=True)
    assert means[-1] < 0.002


def test_the_interval_begins_at_nothing_where_nothing_was_found() -> None:
    assert growth_of(crew_of(0.0)).low == 0


def test_what_is_found_is_learned() -> None:
    grown = growth_of(crew_of(0.4, count=400))
    assert grown.low < 0.4 < grown.high
    assert grown.rate == pytest.approx(0.4, abs=0.08)
    assert grown.found_hours == 5 * grown.found


def test_unlike_sizes_say_less_than_as_many_alike() -> None:
    def width(sizes: list[float]) -> float:
        tasks = [task(f"c/t{n}", 5.0, added=FIRST) for n in range(60)]
        tasks += [task(f"c/f{n}", size, added=DAYS[6 + n]) for n, size in enumerate(sizes)]
        grown = growth_of(on(tasks, {f"c/t{n}": DAYS[4] for n in range(60)}))
        return grown.high - grown.low

    assert width([5.0] * 12) < width([1.0] * 11 + [49.0])


def test_what_comes_to_a_component_on_one_day_is_one_find() -> None:
    """Four tasks of one opened joint say less than four found one after the other."""
    plan_of = [task(f"{c}/t{n}", 5.0, added=FIRST) for c in "ab" for n in range(30)]
    done = {each.id: DAYS[4] for each in plan_of}

    def doubt(days: list[date]) -> float:
        found = [task(f"a/f{n}", 5.0, added=day) for n, day in enumerate(days)]
        grown = growth_of(on([*plan_of, *found], done))
        return grown.high - grown.low

    assert doubt([LATER] * 4) > doubt([DAYS[5 + n] for n in range(4)])


def test_a_component_that_turns_up_more_is_expected_to_go_on_so() -> None:
    tasks = [task(f"{c}/t{n}", 5.0, added=FIRST) for c in "ab" for n in range(40)]
    tasks += [task(f"a/f{n}", 5.0, added=DAYS[5 + n]) for n in range(16)]
    tasks += [task(f"b/f{n}", 5.0, added=DAYS[5 + n]) for n in range(4)]
    came = what_came(on(tasks, {f"{c}/t{n}": DAYS[4] for c in "ab" for n in range(40)}))
    factors = learned(came).by_component
    assert factors["b"] < 1 < factors["a"] < 16 / 10  # shrunk to the whole
    shares = found_by_component(came.found)
    assert sum(shares.values()) == growth_of(on(tasks)).found_hours


# --- when tasks came ---------------------------------------------------------------------------


def test_what_came_on_the_first_days_is_the_plan_and_the_rest_was_found() -> None:
    tasks = [task("c/old", added=FIRST), task("c/third", added=THIRD), task("c/new", added=LATER)]
    came = what_came(on(tasks))
    assert came.since == THIRD
    assert [each.task.id for each in came.planned] == ["c/old", "c/third"]
    assert [each.task.id for each in came.found] == ["c/new"]


def test_a_component_that_is_written_later_is_planning() -> None:
    tasks = [task("a/first", added=FIRST)]
    tasks += [task(f"b/t{n}", added=LATER + timedelta(days=n)) for n in range(20)]
    tasks += [task("b/late", added=LATER + timedelta(weeks=9)), task("a/more", added=LATER)]
    assert {each.task.id for each in what_came(on(tasks)).found} == {"b/late", "a/more"}


def test_once_something_in_a_component_is_finished_what_comes_is_found() -> None:
    tasks = [task("a/first", added=FIRST), task("b/one", added=LATER)]
    tasks.append(task("b/two", added=LATER + timedelta(days=15)))
    assert not what_came(on(tasks)).found
    came = what_came(on(tasks, {"b/one": LATER + timedelta(days=14)}))
    assert [each.task.id for each in came.found] == ["b/two"]


def test_a_task_from_a_finding_came_with_it_and_was_found() -> None:
    lines: list[tuple[datetime, Act]] = [(_at(day, 9), Arrived("ada")) for day in DAYS]
    lines.insert(7, (_at(LATER, 11), Found("soft", component="b")))
    book = logbook(*lines)
    entry = next(e.id for d in book.days.values() for e in d.entries if isinstance(e.act, Found))
    tasks = [task("a/first", added=FIRST), task("b/from", finding=entry)]
    came = what_came(on(tasks, said=book))
    assert [(each.task.id, each.on) for each in came.found] == [("b/from", LATER)]


def test_what_is_set_aside_or_was_finished_before_the_logbook_is_neither() -> None:
    tasks = [
        task("a/first", added=FIRST),
        task("a/later", added=LATER, set_aside="not now"),
        task("a/before", finished=date(2025, 5, 3)),
    ]
    came = what_came(on(tasks))
    assert [each.task.id for each in (*came.planned, *came.found)] == ["a/first"]


def test_where_nothing_says_when_tasks_came_nothing_is_learned() -> None:
    tasks = [task(f"a/t{n}") for n in range(9)]
    grown = growth_of(on(tasks, {"a/t1": DAYS[5]}))
    assert (grown.since, grown.found, grown.tasks_without_date) == (None, 0, 9)
    assert grown.rate == pytest.approx(Gamma(1.0, 1 / REFERENCE, MOST).mean)


def test_dates_that_begin_late_are_learned_from_when_they_begin() -> None:
    """An old folder: what came before the first date is not known, so neither is how much of it
    was found, and work finished till then says nothing."""
    tasks = [task(f"a/t{n}") for n in range(9)]
    tasks += [task("a/x", added=DAYS[10]), task("a/y", added=DAYS[12])]
    came = what_came(on(tasks, {"a/t1": DAYS[5], "a/t2": DAYS[11]}))
    assert (came.since, [each.task.id for each in came.found]) == (DAYS[10], ["a/y"])
    assert sum(came.finished.values()) == 1.0
