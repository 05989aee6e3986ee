"""What a piece is now, and where it and the old one are, follows from the entries."""

from __future__ import annotations

import pytest

from crewboard.fabric.thing import ThingId
from crewboard.logbook.acts import Act, DoneTo, Gone, PieceMade, Reused, Stored, TakenOff
from tests.fabric.bodies import body, piece, record

ARCH, BOARD, LOST_ARCH = "roof/arch", "deck/board", "roof/lost-arch"
PLAN = body(piece(ARCH), piece(BOARD), piece(LOST_ARCH, "missing"))


@pytest.mark.parametrize(
    ("acts", "state", "where"),
    [
        ([], "original", "on the vehicle"),
        ([DoneTo(ARCH, "cleaned")], "original", "on the vehicle"),
        ([DoneTo(ARCH, "moved")], "original, moved", "on the vehicle"),
        ([TakenOff(ARCH)], "original", "off the vehicle"),
        ([TakenOff(ARCH), Stored(ARCH, "shelf 3")], "original", "put away: shelf 3"),
        ([Stored(ARCH, "shelf 3"), DoneTo(ARCH, "fitted")], "original", "on the vehicle"),
        ([DoneTo(ARCH, "repaired in place")], "repaired in place", "on the vehicle"),
        ([DoneTo(ARCH, "spliced"), DoneTo(ARCH, "cleaned")], "spliced", "on the vehicle"),
        ([DoneTo(ARCH, "replaced in kind")], "replaced in kind", "on the vehicle"),
        ([PieceMade(ARCH), DoneTo(ARCH, "fitted")], "replaced, not said how", "on the vehicle"),
        ([DoneTo(ARCH, "copied on evidence", grade="B")], "copied on evidence", "on the vehicle"),
        ([Gone(ARCH, "discarded")], "missing, not replaced", "discarded"),
        ([Gone(ARCH, "lost"), Stored(ARCH, "the loft")], "original", "put away: the loft"),
        ([PieceMade(ARCH)], "original", "on the vehicle"),
    ],
)
def test_the_state_of_a_piece_follows_from_what_was_done(
    acts: list[Act], state: str, where: str
) -> None:
    arch = record(PLAN, *acts).pieces[ARCH]
    assert (arch.state, str(arch.where)) == (state, where)


def test_a_copy_by_conjecture_shows_as_conjecture_whatever_is_done_to_it_later() -> None:
    copied = DoneTo(LOST_ARCH, "copied on evidence", grade="E")
    later = [DoneTo(LOST_ARCH, a) for a in ("repaired in place", "cleaned", "moved", "spliced")]
    assert record(PLAN, copied, *later).pieces[LOST_ARCH].state == "copied by conjecture"


@pytest.mark.parametrize("stored_first", [True, False])
def test_the_old_piece_lies_where_it_was_said_to_lie_typed_before_or_after(
    stored_first: bool,
) -> None:
    acts: list[Act] = [DoneTo(ARCH, "replaced in kind"), Stored(ARCH, "shelf 3", old=True)]
    arch = record(PLAN, *(reversed(acts) if stored_first else acts)).pieces[ARCH]
    assert [str(thing.whereabouts) for thing in arch.things] == [
        "put away: shelf 3",
        "on the vehicle",
    ]


def test_the_wood_of_an_old_piece_is_followed_to_the_new_one_and_back() -> None:
    fabric = record(
        PLAN,
        DoneTo(ARCH, "replaced in kind"),
        Reused(ARCH, BOARD, old=True),
        DoneTo(BOARD, "replaced in kind"),
    )
    assert fabric.thing(ThingId(ARCH, 0)).wood_to == (ThingId(BOARD, 1),)
    assert fabric.thing(ThingId(BOARD, 1)).wood_from == (ThingId(ARCH, 0),)
    assert fabric.thing(ThingId(BOARD, 0)).wood_from == ()
