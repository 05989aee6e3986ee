"""How much is original: exact, by one measure at a time, a range where a share was not said."""

from __future__ import annotations

from fractions import Fraction

import pytest

from crewboard.fabric.shares import shares
from crewboard.logbook.acts import Act, DoneTo, Gone, Stored, TakenOff
from crewboard.telling.shares import original_in_words, percent, share_in_words
from tests.fabric.bodies import body, piece, record

LONG_ARCH, SHORT_ARCH, SASH, PANE = "roof/long", "roof/short", "side/sash", "side/pane"
SPLICED_TWICE: list[Act] = [DoneTo(SHORT_ARCH, "spliced", share=share) for share in (80, 90)]
PLAN = body(
    piece(LONG_ARCH, extent="3 m"),
    piece(SHORT_ARCH, extent="1 m"),
    piece(SASH),
    piece(PANE, extent="0.5 m2"),
)


def told(*acts: Act) -> dict[tuple[str, str], str]:
    return {
        (one.component, one.basis): original_in_words(one) for one in shares(record(PLAN, *acts))
    }


def test_pieces_lengths_and_areas_are_never_added_up_together() -> None:
    assert told(DoneTo(SHORT_ARCH, "replaced in kind")) == {
        ("roof", "length"): "75 %",
        ("side", "pieces"): "100 %",
        ("side", "area"): "100 %",
        ("", "length"): "75 %",
        ("", "pieces"): "100 %",
        ("", "area"): "100 %",
    }


@pytest.mark.parametrize(
    ("acts", "original"),
    [
        ([DoneTo(SHORT_ARCH, "spliced", share=88)], "97 %"),
        ([DoneTo(SHORT_ARCH, "spliced")], "75 to 100 %"),
        (
            SPLICED_TWICE,
            "92 to 95 %",
        ),
        ([DoneTo(SHORT_ARCH, "repaired in place")], "100 %"),
        ([DoneTo(SHORT_ARCH, "repaired in place", share=60)], "90 %"),
        ([TakenOff(SHORT_ARCH), Stored(SHORT_ARCH, "shelf 3")], "100 %"),
        ([Gone(SHORT_ARCH, "lost")], "75 %"),
        ([Gone(SHORT_ARCH, "lost"), Stored(SHORT_ARCH, "loft")], "100 %"),
        ([DoneTo(SHORT_ARCH, "spliced"), DoneTo(SHORT_ARCH, "replaced in kind")], "75 %"),
    ],
)
def test_how_much_of_the_roof_is_original(acts: list[Act], original: str) -> None:
    assert told(*acts)["roof", "length"] == original


def test_thirds_stay_exact_whatever_is_typed() -> None:
    plan = body(*(piece(f"deck/{n}", extent="1/3 ft") for n in range(3)))
    fabric = record(plan, DoneTo("deck/0", "spliced", share=33.3))
    assert shares(fabric)[0].original == Fraction(2, 3) + Fraction(333, 3000)


def test_missing_later_and_unknown_fabric_are_told_apart_and_spares_not_counted() -> None:
    plan = body(
        *(piece(f"deck/{n}", sort) for n, sort in enumerate(("original", "missing", "unknown"))),
        piece("deck/later", "later change"),
        piece("deck/spare", spare=True),
    )
    words = share_in_words(shares(record(plan))[0])
    assert words == (
        "25 % original by pieces (4 pieces); 25 % missing; 25 % later change; of 25 % nobody said"
    )


def test_a_share_is_whole_or_nothing_only_where_it_is() -> None:
    few, most = Fraction(1, 1000), Fraction(999, 1000)
    assert [percent(s) for s in (Fraction(0), few, most, Fraction(1))] == [
        "0 %",
        "less than 1 %",
        "more than 99 %",
        "100 %",
    ]
