"""Amounts of a supply in words: one of it, several, and what nobody knows the plural of."""

import pytest

from crewboard.plan.supply import amount_in_words


@pytest.mark.parametrize(
    ("amount", "unit", "words"),
    [
        (1, "tins of 1 l", "1 tin of 1 l"),
        (2, "tins of 2.5 l", "2 tins of 2.5 l"),
        (3, "tin of 1 l", "3 tins of 1 l"),
        (0.5, "tins", "0.5 tins"),
        (1, "square metres", "1 square metre"),
        (1, "board feet", "1 board foot"),
        (1, "planks of green ash", "1 plank of green ash"),
        (1, "l", "1 l"),
        (1, "glass", "1 glass"),
        (7, "", "7"),
    ],
)
def test_one_and_several_of_a_supply(amount: float, unit: str, words: str) -> None:
    assert amount_in_words(amount, unit) == words
