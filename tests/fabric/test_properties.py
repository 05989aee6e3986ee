"""What holds of the fabric of any record, in whatever order its lines were typed."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from fractions import Fraction
from typing import Any, NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.command.json_fabric import fabric_form, gaps_form
from crewboard.fabric.fabric import Fabric, fabric_of
from crewboard.fabric.gaps import gaps
from crewboard.fabric.shares import ALL, shares
from crewboard.fabric.wood import reached
from crewboard.logbook.acts import (
    Act,
    DoneTo,
    PieceMade,
    Reused,
    Stored,
    TakenBack,
    TakenOff,
    TookPlace,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.done import DONE
from crewboard.plan.plan import Plan
from tests.fabric.any_entry import OF_PIECES, RECORD, Names, act_of
from tests.fabric.bodies import LATER, START, body, piece
from tests.long_form import cases

PLAN = body(
    piece("roof/arch", extent="2.4 m"),
    piece("roof/ridge", "unknown", extent="3.1 m"),
    piece("roof/sash", "missing"),
    piece("roof/spare", spare=True),
    piece("deck/board", "later change"),
    piece("deck/rail", keep=True),
)
KINDS = [*RECORD, *OF_PIECES]
# What moves and changes pieces comes more often: of it one entry bears on the next.
OFTEN = [*KINDS, *(kind for kind in KINDS if kind.act in DONE for _ in range(4)), *OF_PIECES]
TWO = body(piece("roof/arch"), piece("roof/ridge"))
OF_WOOD = [KINDS_OF_ENTRY[act] for act in (*[Reused] * 5, DoneTo, PieceMade, TakenOff, TookPlace)]
NAMES = Names(("e0", "e1", "e5", "nowhere"), ("pictures/a.jpg", "pictures/b.jpg"), ("deck/none",))
MENDED = datetime(2026, 11, 1)
any_record = cases(25, 1000)
of_each_kind = cases(6, 200)


class Said(NamedTuple):
    """A line as it is typed: when it happened, what, and how long after it was put down."""

    at: datetime
    act: Act
    put_down: datetime | None


@st.composite
def said(draw: st.DrawFn, kinds: list[KindOfEntry] = OFTEN, plan: Plan = PLAN) -> Said:
    """A line of any of the kinds, on one of two days, at one of few moments."""
    kind = draw(st.sampled_from(kinds))
    names = NAMES if plan is PLAN else Names()
    act = act_of(kind, plan, lambda known: draw(st.sampled_from(known)), names)
    at = START + timedelta(hours=draw(st.sampled_from((0, 1, 2, 24, 25))))
    later = draw(st.sampled_from((None, None, 1, 2)))
    return Said(at, act, at + timedelta(days=later) if later else None)


LINES = st.lists(said(), min_size=2, max_size=14)
each_kind = pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.word.replace(" ", "-"))


class Line(NamedTuple):
    """An entry, and the day in whose file it stands."""

    day: date
    entry: Entry


def as_lines(lines: Iterable[Said]) -> list[Line]:
    return [
        Line(one.at.date(), Entry(f"e{n}", one.at, one.act, "ada", one.put_down))
        for n, one in enumerate(lines)
    ]


def fabric(lines: Iterable[Line], plan: Plan = PLAN) -> Fabric:
    days: dict[date, list[Entry]] = {}
    for day, entry in lines:
        days.setdefault(day, []).append(entry)
    book = Logbook({day: Day(day, of_it) for day, of_it in sorted(days.items())})
    return fabric_of(plan, book, LATER)


def as_said(of: Fabric) -> Any:
    """Everything that the fabric says, without how its lines came to stand there."""
    entries = {
        name: [(entry.id, entry.at, entry.act) for entry in value]
        for name, value in of._asdict().items()
        if name not in ("plan", "waiting", "contradictions") and isinstance(value, tuple)
    }
    entries["temporary"].sort(key=repr)  # those of one moment in whatever order
    captions = {file: [entry.act for entry in of_it] for file, of_it in of.pictures.items()}
    pieces = {name: [e.act for e in one.entries] for name, one in of.pieces.items()}
    taken = {file: of.taken_at(file) for file in of.taken}
    odd = Counter((one.code, one.entry.id, one.piece) for one in of.contradictions)
    form = fabric_form(of, list(of.pieces.values()))
    return form, gaps_form(of, gaps(of)), entries, captions, pieces, odd, of.waiting, taken


@any_record
@given(LINES, st.randoms(use_true_random=False))
def test_shares_add_up_to_one_whatever_the_order_of_the_lines(
    typed: list[Said], chance: random.Random
) -> None:
    lines = as_lines(typed)
    chance.shuffle(lines)
    told = shares(fabric(lines))
    for share in told:
        assert sum(share.sorts.values(), Fraction(0)) + share.open == 1
        assert 0 <= share.open <= 1
        assert all(0 < part <= 1 for part in share.sorts.values())
        assert (
            share.original
            <= share.most_original
            <= share.original + share.sorts.get("unknown", 0) + share.open
        )
    for whole in (share for share in told if share.component == ALL):
        parts = [s for s in told if s.component != ALL and s.basis == whole.basis]
        assert sum(part.amount for part in parts) == whole.amount
        assert sum(part.pieces for part in parts) == whole.pieces
        for sort in {sort for share in told for sort in share.sorts}:
            of_parts = sum(part.sorts.get(sort, Fraction(0)) * part.amount for part in parts)
            assert of_parts == whole.sorts.get(sort, Fraction(0)) * whole.amount


@any_record
@given(LINES, st.randoms(use_true_random=False))
def test_the_order_of_the_lines_in_the_file_changes_nothing_but_ties(
    typed: list[Said], chance: random.Random
) -> None:
    """Each line at a moment of its own: then their order in the files says nothing."""
    apart = [one._replace(at=one.at + timedelta(minutes=n)) for n, one in enumerate(typed)]
    lines = as_lines(apart)
    mixed = list(lines)
    chance.shuffle(mixed)
    assert as_said(fabric(mixed)) == as_said(fabric(lines))


@any_record
@given(LINES)
def test_nothing_is_in_two_places_and_nothing_is_made_of_itself(typed: list[Said]) -> None:
    nothing_twice_nor_round(fabric(as_lines(typed)))


@any_record
@given(st.lists(said(OF_WOOD, TWO), min_size=3, max_size=10))
def test_so_it_is_where_wood_goes_to_and_fro_between_few(typed: list[Said]) -> None:
    nothing_twice_nor_round(fabric(as_lines(typed), TWO))


def nothing_twice_nor_round(of: Fabric) -> None:
    everything = [thing for record in of.pieces.values() for thing in record.things]
    assert len({thing.id for thing in everything}) == len(everything)
    for record in of.pieces.values():
        assert [thing.number for thing in record.things] == list(range(len(record.things)))
        there = [thing for thing in record.things if thing.where == "on the vehicle"]
        assert there in ([], [record.current])
        assert record.current in record.things
        for thing in record.things:
            for into in thing.wood_to:
                assert thing.id not in reached(into, lambda one: of.thing(one).wood_to)
            ways = (*thing.wood_to, *thing.wood_from)
            assert record.piece.id not in [way.piece for way in ways], "none of itself"
            assert len(set(thing.wood_to)) == len(thing.wood_to)
            assert all(thing.id in of.thing(to).wood_from for to in thing.wood_to)
            assert all(thing.id in of.thing(one).wood_to for one in thing.wood_from)


@each_kind
@of_each_kind
@given(data=st.data())
def test_taking_a_line_back_gives_the_fabric_that_never_having_written_it_would(
    kind: KindOfEntry, data: st.DataObject
) -> None:
    typed = data.draw(LINES)
    number = data.draw(st.integers(0, len(typed)))
    typed.insert(number, data.draw(said([kind])))
    lines = as_lines(typed)
    day, entry = lines[number]
    taken_back = Line(day, Entry("back", entry.at, TakenBack(entry.id), "tom"))
    without = [line for line in lines if line.entry.id != entry.id]
    assert as_said(fabric([*lines, taken_back])) == as_said(fabric(without))


@each_kind
@of_each_kind
@given(data=st.data())
def test_correcting_a_line_gives_the_fabric_of_the_right_line_in_its_place(
    kind: KindOfEntry, data: st.DataObject
) -> None:
    """Also where the correction was corrected; and with that taken back all of it is gone."""
    typed = data.draw(LINES)
    number = data.draw(st.integers(0, len(typed)))
    typed.insert(number, data.draw(said([kind])))
    lines = as_lines(typed)
    day, entry = lines[number]
    wrong, right = data.draw(said([kind])), data.draw(st.one_of(said([kind]), said()))
    again = [
        Line(day, Entry("wrong", wrong.at, wrong.act, "ada", MENDED, entry.id)),
        Line(day, Entry("right", right.at, right.act, "tom", MENDED + timedelta(1), "wrong")),
    ]
    at_once = list(lines)
    at_once[number] = Line(day, entry._replace(at=right.at, act=right.act))
    assert as_said(fabric([*lines, *again])) == as_said(fabric(at_once))
    taken_back = Line(day, Entry("back", right.at, TakenBack(entry.id), "tom"))
    without = [line for line in lines if line.entry.id != entry.id]
    assert as_said(fabric([*lines, *again, taken_back])) == as_said(fabric(without))


def test_every_kind_of_the_record_is_among_them() -> None:
    assert len(RECORD) >= 18
    assert set(DONE) <= {kind.act for kind in RECORD}


def test_the_lines_of_one_day_can_stand_in_the_files_of_others() -> None:
    lines = as_lines(
        [
            Said(START, TakenOff("roof/arch"), None),
            Said(START + timedelta(hours=1), Stored("roof/arch", "shelf 1"), None),
        ]
    )
    lines[1] = lines[1]._replace(day=date(2026, 4, 25))
    assert str(fabric(lines).pieces["roof/arch"].where) == "put away: shelf 1"
