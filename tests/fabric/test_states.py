"""What a piece is now, and where it and the old one are, follows from the entries."""

from __future__ import annotations

import pytest

from crewboard.fabric.thing import ThingId
from crewboard.logbook.acts import (
    Act,
    DoneTo,
    Gone,
    PieceFailed,
    PieceMade,
    Reused,
    Stored,
    TakenOff,
    TookPlace,
)
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


def test_what_was_cut_out_lies_elsewhere_while_the_spliced_piece_stays_where_it_is() -> None:
    spliced = DoneTo(ARCH, "spliced", share=80)
    acts: list[Act] = [spliced, Stored(ARCH, "shelf 3", old=True)]
    arch = record(PLAN, *acts).pieces[ARCH]
    assert (arch.state, arch.where.where) == ("spliced", "on the vehicle")
    assert str(arch.current.cut_out) == "put away: shelf 3"
    acts = [spliced, Gone(ARCH, "discarded", old=True), Stored(ARCH, "shelf 3", old=True)]
    assert [odd.code for odd in record(PLAN, *acts).contradictions] == ["gone"]


def test_what_is_said_of_a_spare_in_use_is_said_of_the_place_that_it_took() -> None:
    plan = body(piece(ARCH), piece("roof/spare", spare=True))
    fabric = record(
        plan,
        PieceMade("roof/spare", "ash"),
        TookPlace("roof/spare", ARCH),
        DoneTo("roof/spare", "marked", mark="a notch"),
        TakenOff("roof/spare"),
        Stored(ARCH, "shelf 3", old=True),
    )
    old, new = fabric.pieces[ARCH].things
    assert (str(old.whereabouts), new.where) == ("put away: shelf 3", "off the vehicle")
    assert new.material == "ash"
    assert [type(entry.act) for entry in new.entries][:2] == [TookPlace, DoneTo]
    spare = fabric.pieces["roof/spare"]
    assert spare.state == "spare, in use"
    assert str(spare.where) == f"in other pieces: the place of {ARCH}"
    assert new.wood_from == (ThingId("roof/spare", 0),)


def test_a_spare_for_a_missing_piece_is_not_on_the_vehicle_before_it_is_fitted() -> None:
    plan = body(piece(LOST_ARCH, "missing"), piece("roof/spare", spare=True))
    taken = (PieceMade("roof/spare", "ash"), TookPlace("roof/spare", LOST_ARCH))
    ready = record(plan, *taken).pieces[LOST_ARCH]
    assert (ready.state, [thing.where for thing in ready.things]) == (
        "missing, not replaced",
        ["missing", "made"],
    )
    fitted = record(plan, *taken, DoneTo(LOST_ARCH, "fitted")).pieces[LOST_ARCH]
    assert fitted.current.where == "on the vehicle"
    assert fitted.current.wood_from == (ThingId("roof/spare", 0),)


def test_a_missing_piece_that_was_found_again_is_original() -> None:
    found = record(PLAN, Stored(LOST_ARCH, "the hayloft")).pieces[LOST_ARCH]
    assert (found.state, str(found.where)) == ("original", "put away: the hayloft")
    assert found.current.makeup.least == {"original": 1}


def test_a_new_piece_that_failed_before_it_was_fitted_leaves_the_old_one_in_its_place() -> None:
    arch = record(PLAN, PieceMade(ARCH), PieceFailed(ARCH, "split")).pieces[ARCH]
    assert (arch.state, arch.where.where, arch.things[1].where) == (
        "original",
        "on the vehicle",
        "not said",
    )


def test_why_a_piece_was_replaced_stands_with_the_old_one() -> None:
    arch = record(
        PLAN,
        DoneTo(ARCH, "spliced", why="a split"),
        DoneTo(ARCH, "replaced in kind", why="rotten through"),
        Gone(ARCH, "discarded", old=True, why="nothing to learn from it"),
    ).pieces[ARCH]
    assert [arch.why_gone(thing) for thing in arch.things] == ["rotten through", ""]
    lost = record(PLAN, Gone(ARCH, "lost", why="in the flood")).pieces[ARCH]
    assert lost.why_gone(lost.current) == "in the flood"
