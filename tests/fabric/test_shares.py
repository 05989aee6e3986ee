"""How much is original: exact, by one measure at a time, a range where a share was not said."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.fabric.shares import shares
from crewboard.logbook.acts import Act, DoneTo, Gone, Stored, TakenOff
from crewboard.logbook.record.done import REPLACED
from crewboard.telling.shares import original_in_words, share_in_words, whole_percents
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
            "93 to 95 %",
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
    words = share_in_words(shares(record(plan))[0], "metric")
    assert words == (
        "25 to 50 % original by pieces (4 pieces); 25 % missing; 25 % later change; "
        "of 25 % nobody said"
    )


def test_a_share_is_whole_or_nothing_only_where_it_is() -> None:
    plan = body(piece("deck/long", extent="99.9 m"), piece("deck/short", extent="0.1 m"))
    told = [
        share_in_words(shares(record(plan, DoneTo(f"deck/{which}", "replaced in kind")))[0], "")
        for which in ("short", "long")
    ]
    assert told[0].startswith("more than 99 % original by length")
    assert told[1].startswith("less than 1 % original by length")
    assert [one.partition("; ")[2] for one in told] == [
        "less than 1 % replaced in kind",
        "more than 99 % replaced in kind",
    ]


def test_amounts_are_told_in_the_units_of_the_folder() -> None:
    plan = body(piece("deck/sill", extent="10 ft 3 in"), piece("deck/hatch", extent="9 sq ft"))
    told = [share_in_words(one, "imperial") for one in shares(record(plan))[:2]]
    assert [one.partition("(")[2] for one in told] == ["10.25 ft, 1 piece)", "9 sq ft, 1 piece)"]


@pytest.mark.parametrize("sizes", [(1, 1, 1), (2, 2, 3), (1, 1, 1, 1, 1, 1, 1), (90, 5, 4, 1)])
def test_what_is_shown_adds_up_to_a_hundred(sizes: tuple[int, ...]) -> None:
    plan = body(*(piece(f"deck/{n}", extent=f"{size} m") for n, size in enumerate(sizes)))
    acts = [DoneTo(f"deck/{n}", how) for n, how in enumerate(REPLACED) if n < len(sizes) - 1]
    words = share_in_words(shares(record(plan, *acts))[0], "metric")
    told = [int(figure) for figure in re.findall(r"(?<!less than )(?<!\d)(\d+) % ", words)]
    assert sum(told) == 100


@given(st.lists(st.integers(0, 1000), min_size=1, max_size=9).filter(any))
def test_whole_percents_add_up_and_keep_the_order(sizes: list[int]) -> None:
    parts = {str(n): Fraction(size, sum(sizes)) for n, size in enumerate(sizes)}
    whole = whole_percents(parts)
    assert sum(whole.values()) == 100
    assert all(abs(whole[one] - parts[one] * 100) < 1 for one in parts)
    assert all(
        whole[one] <= whole[other] for one in parts for other in parts if parts[one] < parts[other]
    )


def test_a_later_change_that_was_removed_is_not_missing() -> None:
    plan = body(piece("deck/floor", extent="3 m"), piece("deck/rack", "later change", extent="1 m"))
    there, gone, lost = (
        record(plan, *acts)
        for acts in ([], [Gone("deck/rack", "discarded")], [Gone("deck/rack", "lost")])
    )
    assert [original_in_words(shares(of)[0]) for of in (there, gone, lost)] == [
        "75 %",
        "100 %",
        "75 %",
    ]
    assert gone.pieces["deck/rack"].state == "later change, removed"
    assert lost.pieces["deck/rack"].state == "missing, not replaced"
