"""What holds of the fabric of any record, in whatever order its lines were typed."""

from __future__ import annotations

import random
from collections import Counter
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from crewboard.command.json_fabric import fabric_form, gaps_form
from crewboard.fabric.fabric import Fabric, fabric_of
from crewboard.fabric.gaps import gaps
from crewboard.fabric.shares import shares
from crewboard.fabric.wood import reached
from crewboard.logbook.acts import (
    Act,
    DoneTo,
    Found,
    Gone,
    PieceMade,
    Reused,
    Stored,
    TakenBack,
    TakenOff,
    TookPlace,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.record.done import ACTIONS, GRADES, HOW_GONE
from tests.fabric.bodies import LATER, START, body, logbook, piece
from tests.long_form import cases

PLAN = body(
    piece("roof/arch", extent="2.4 m"),
    piece("roof/ridge", "unknown", extent="3.1 m"),
    piece("roof/sash", "missing"),
    piece("roof/spare", spare=True),
    piece("deck/board", "later change"),
    piece("deck/rail", keep=True),
)
NAMES = st.sampled_from((*PLAN.pieces, "deck/unknown"))
SHARES = st.one_of(st.none(), st.sampled_from((0.0, 33.3, 50.0, 99.9, 100.0)))
ACTS: st.SearchStrategy[Act] = st.one_of(
    st.builds(
        DoneTo,
        NAMES,
        st.sampled_from(ACTIONS),
        share=SHARES,
        grade=st.sampled_from(("", *GRADES)),
    ),
    st.builds(PieceMade, NAMES),
    st.builds(TakenOff, NAMES),
    st.builds(Stored, NAMES, st.sampled_from(("shelf 1", "shelf 2")), st.booleans()),
    st.builds(Gone, NAMES, st.sampled_from(HOW_GONE), old=st.booleans()),
    st.builds(Reused, NAMES, NAMES, old=st.booleans(), all_of_it=st.booleans()),
    st.builds(TookPlace, st.just("roof/spare"), NAMES),
    st.builds(Found, st.just("a split"), piece=NAMES),
)
LINES = st.lists(st.tuples(st.integers(0, 3), ACTS), min_size=2, max_size=14)
any_record = cases(25, 1000)


def as_lines(acts: list[tuple[int, Act]]) -> list[Entry]:
    moments = [START + timedelta(hours=hour) for hour, _ in acts]
    return [Entry(f"e{n}", moments[n], act, "ada") for n, (_, act) in enumerate(acts)]


def fabric(lines: list[Entry]) -> Fabric:
    return fabric_of(PLAN, logbook(lines), LATER)


def as_said(of: Fabric) -> Any:
    """Everything that the fabric says, without how its lines came to stand there."""
    said = {piece: [entry.act for entry in one.entries] for piece, one in of.pieces.items()}
    odd = Counter((one.code, one.entry.id, one.piece) for one in of.contradictions)
    return fabric_form(of, list(of.pieces.values())), gaps_form(of, gaps(of)), said, odd


@any_record
@given(LINES, st.randoms(use_true_random=False))
def test_shares_add_up_to_one_whatever_the_order_of_the_lines(
    acts: list[tuple[int, Act]], chance: random.Random
) -> None:
    lines = as_lines(acts)
    chance.shuffle(lines)
    for share in shares(fabric(lines)):
        assert sum(share.sorts.values(), Fraction(0)) + share.open == 1
        assert 0 <= share.open <= 1
        assert all(0 < part <= 1 for part in share.sorts.values())
        assert share.original <= share.most_original <= share.original + share.open


@any_record
@given(LINES)
def test_nothing_is_in_two_places_and_no_wood_goes_round(acts: list[tuple[int, Act]]) -> None:
    of = fabric(as_lines(acts))
    for record in of.pieces.values():
        assert [thing.number for thing in record.things] == list(range(len(record.things)))
        there = [thing for thing in record.things if thing.where == "on the vehicle"]
        assert there in ([], [record.current])
        for thing in record.things:
            for into in thing.wood_to:
                assert thing.id not in reached(into, lambda one: of.thing(one).wood_to)
            assert all(thing.id in of.thing(to).wood_from for to in thing.wood_to)
            assert all(thing.id in of.thing(one).wood_to for one in thing.wood_from)


@any_record
@given(LINES, st.integers(0, 13))
def test_taking_a_line_back_gives_the_fabric_that_never_having_written_it_would(
    acts: list[tuple[int, Act]], number: int
) -> None:
    lines = as_lines(acts)
    line = lines[number % len(lines)]
    taken_back = Entry("back", line.at, TakenBack(line.id), "tom")
    without = [other for other in lines if other is not line]
    assert as_said(fabric([*lines, taken_back])) == as_said(fabric(without))


@any_record
@given(LINES, st.integers(0, 13), ACTS, st.integers(0, 3))
def test_correcting_a_line_gives_the_fabric_of_the_right_line_in_its_place(
    acts: list[tuple[int, Act]], number: int, right: Act, hour: int
) -> None:
    lines = as_lines(acts)
    number %= len(lines)
    line = lines[number]
    moment = START + timedelta(hours=hour)
    corrected = Entry("right", moment, right, "ada", replaces=line.id)
    at_once = [*lines[:number], line._replace(at=moment, act=right), *lines[number + 1 :]]
    assert as_said(fabric([*lines, corrected])) == as_said(fabric(at_once))


def test_the_lines_of_one_day_can_stand_in_the_files_of_others() -> None:
    lines = as_lines([(0, TakenOff("roof/arch")), (1, Stored("roof/arch", "shelf 1"))])
    book = logbook(lines[:1]).with_entry(date(2026, 4, 25), lines[1])
    assert str(fabric_of(PLAN, book, LATER).pieces["roof/arch"].where) == "put away: shelf 1"
