"""What finished tasks tell of the hours of others."""

from __future__ import annotations

from math import log
from random import Random
from statistics import NormalDist

import pytest

from crewboard.order.forecast.hours_fit import HoursFit, fitted, practised
from crewboard.order.forecast.tail_table import tail_table


@pytest.mark.parametrize(
    ("freedom", "nine_in_ten", "nineteen_in_twenty"),
    [(3, 2.353, 3.182), (6, 1.943, 2.447), (30, 1.697, 2.042)],
)
def test_the_table_of_a_tail_is_students(
    freedom: int, nine_in_ten: float, nineteen_in_twenty: float
) -> None:
    """Two-sided points of Student's t, as any table of statistics prints them."""
    table = tail_table(freedom)
    assert table[int(0.95 * len(table))] == pytest.approx(nine_in_ten, rel=0.01)
    assert table[int(0.975 * len(table))] == pytest.approx(nineteen_in_twenty, rel=0.01)
    assert list(table) == sorted(table)
    assert table[0] == pytest.approx(-table[-1])


def _heavy(of: HoursFit) -> float:
    return of.tails[0].chance


def test_little_is_believed_of_little() -> None:
    none, few = fitted([]), fitted([0.7, 0.5])
    assert none.mean == pytest.approx(0.1)
    assert none.doubt == pytest.approx(0.4)
    assert 0.2 < few.mean < 0.5
    assert few.doubt < none.doubt
    assert sum(tail.chance for tail in few.tails) == pytest.approx(1)


def test_the_mean_and_the_scatter_come_out() -> None:
    chance = Random(2)
    found = fitted([chance.gauss(0.4, 0.3) for _ in range(200)])
    assert found.mean == pytest.approx(0.4, abs=0.05)
    assert found.doubt == pytest.approx(0.3 / 200**0.5, rel=0.2)
    assert found.tails[-1].scatter == pytest.approx(0.3, rel=0.15)
    assert _heavy(found) < 0.02


def test_a_heavy_tail_is_seen_where_there_is_one() -> None:
    table = tail_table(3)
    logs = [[0.3 * chance.choice(table) for _ in range(200)] for chance in map(Random, range(8))]
    assert sum(_heavy(fitted(log_)) for log_ in logs) / 8 > 0.6


def test_one_slip_of_the_pen_does_not_set_the_pace() -> None:
    """One task of thirty with ten times its hours."""
    ratios = [NormalDist(0.0, 0.2).inv_cdf((n + 0.5) / 30) for n in range(30)]
    Random(1).shuffle(ratios)
    plain, slip = fitted(ratios), fitted([*ratios[:-1], log(10)])
    assert abs(slip.mean - plain.mean) < 0.04
    assert _heavy(slip) > _heavy(plain)


def test_practice_is_what_the_log_shows_and_it_may_be_none_or_less() -> None:
    chance = Random(6)
    flat = [chance.gauss(0.1, 0.25) for _ in range(60)]
    for slope in (0.3, 0.0, -0.2):
        bent = [r - slope * practised(number) for number, r in enumerate(flat)]
        found = fitted(bent)
        assert found.practice == pytest.approx(slope, abs=0.08)
        assert found.practice_doubt < 0.06


def test_practice_levels_off() -> None:
    assert practised(5) - practised(0) > practised(60) - practised(50)
    assert practised(5000) == practised(500)
