"""Draws from three-point estimates, and the chance of a date."""

from __future__ import annotations

from random import Random
from statistics import fmean, pvariance

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.order.network import worked_examples as published
from tests.order.network.engine.critical_path import critical_path
from tests.order.network.engine.pert import ThreePoint, chance_by
from tests.order.network.random_networks import LONG, examples
from tests.order.network.worked_examples import with_means

THREE = st.tuples(*[st.floats(0, 1000)] * 3).map(lambda three: ThreePoint(*sorted(three)))


@examples(200, 5_000)
@given(THREE, st.integers())
def test_draws_stay_within_the_estimate(three: ThreePoint, seed: int) -> None:
    assert three.optimistic <= three.draw(Random(seed)) <= three.pessimistic


@pytest.mark.parametrize("three", [(1, 2, 3), (1, 2, 9), (0, 0, 6), (2, 8, 8)])
def test_draws_have_the_mean_of_the_textbook_and_the_variance_of_the_beta(
    three: tuple[float, float, float],
) -> None:
    # Variance of a beta distribution with alpha + beta = 6: (mean - a)(b - mean) / 7.
    estimate = ThreePoint(*three)
    chance = Random(5)
    drawn = [estimate.draw(chance) for _ in range(40_000)]
    expected = (estimate.mean - three[0]) * (three[2] - estimate.mean) / 7
    assert fmean(drawn) == pytest.approx(estimate.mean, rel=0.01)
    assert pvariance(drawn) == pytest.approx(expected, rel=0.03)


def test_a_certain_estimate_is_always_drawn_as_it_is() -> None:
    assert ThreePoint(4, 4, 4).draw(Random(1)) == 4


def test_estimates_out_of_order_are_refused() -> None:
    with pytest.raises(ValueError, match="not in order"):
        ThreePoint(3, 2, 4).draw(Random(1))


def test_a_path_without_spread_is_done_on_its_day_and_not_before() -> None:
    assert (chance_by(7, 7, 0), chance_by(6.9, 7, 0)) == (1, 0)


def test_draws_of_reliable_construction_show_that_one_path_alone_is_too_hopeful() -> None:
    # A million trials of another program: mean 44.33, chance of 47 weeks 0.816 (the normal
    # approximation along the one path says 44 and 0.841).
    plan = with_means(published.RELIABLE, published.RELIABLE_AFTER)
    threes = [ThreePoint(*three) for three in published.RELIABLE.values()]
    chance = Random(11)
    trials = 60_000 if LONG else 6_000
    lengths = [
        critical_path([three.draw(chance) for three in threes], plan.links).length
        for _ in range(trials)
    ]
    assert fmean(lengths) == pytest.approx(44.33, abs=0.15)
    assert sum(length <= 47 for length in lengths) / trials == pytest.approx(0.816, abs=0.02)
