"""The sample's record: what was found and done, where it all lies, and what it lacks on purpose."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import TypeVar

import pytest

from crewboard.fabric.fabric import Fabric, fabric_of
from crewboard.fabric.gaps import gaps
from crewboard.fabric.shares import ALL, shares
from crewboard.fabric.thing import Thing
from crewboard.logbook.acts import (
    Departure,
    Found,
    SignIn,
    SignOut,
    Temporary,
    TookIn,
)
from crewboard.logbook.entry import Entry
from tests.sample.draw_pictures import PICTURES
from tests.sample.marigold import AT, SAMPLE, board, book, plan

Kind = TypeVar("Kind")
LARGEST = 8_000  # bytes of a sketch
# What is left out on purpose, so that there is something to find: one thing a piece, and nothing
# else of any.
LEFT_OUT = {
    "body-frame/cant-rails/2": ["why"],  # why a new piece was let in
    "body-frame/crate-hooks/2": ["evidence"],  # that it was copied from the other hook
    "body-frame/posts/4": ["share"],  # how much of it was kept: its share stays open
    "body-frame/posts/6": ["mark"],  # where the new foot bears its year
    "body-frame/posts/7": ["batch"],  # of which batch the glue was
    "body-frame/scuff-plate": ["after"],  # a picture of the new plate
    "body-frame/sills/2": ["hidden"],  # a picture of the pocket before it was filled
    "deck/old-boards/5": ["to whom"],  # who was given the board
    "lamps/lamps/2": ["materials"],  # whether anything was put on it
    "lamps/lamps/3": ["as found"],  # how it was found
    "panels/panels/3": ["where"],  # where the old hardboard lies
    "rods/rods/2": ["before"],  # a picture of the rod that was thrown away
    "windows/sashes/5": ["cut out"],  # where its soft rail went
}


@cache
def record() -> Fabric:
    return fabric_of(plan(), book(), AT)


def things() -> list[Thing]:
    return [thing for piece in record().pieces.values() for thing in piece.things]


def said(kind: type[Kind]) -> list[Kind]:
    acts = [entry.act for day in book().days.values() for entry in day.entries]
    return [act for act in acts if isinstance(act, kind)]


def test_she_is_some_pieces_and_findings_large() -> None:
    there = [p for p in plan().pieces.values() if p.as_found != "missing" and not p.spare]
    assert 60 <= len(there) <= 75
    assert len({piece.component for piece in there}) >= 12
    assert 80 <= len(record().findings) <= 95
    places = Counter(act.piece for act in said(Found) if act.piece)
    assert max(places.values()) <= 4, "not all on one piece"


def test_no_two_findings_say_the_same() -> None:
    seen = [act.seen for act in said(Found)]
    thought = [act.thought for act in said(Found) if act.thought]
    assert len(set(seen)) == len(seen)
    assert len(set(thought)) == len(thought)
    assert len(thought) < len(seen), "of some nobody thought anything"


def test_what_was_left_out_on_purpose_is_all_that_is_missing() -> None:
    missing = {piece: [gap.code for gap in of_it] for piece, of_it in gaps(record()).items()}
    assert missing == LEFT_OUT


def test_nothing_on_record_contradicts_anything() -> None:
    assert record().contradictions == ()


def test_everything_on_record_was_written_by_somebody_who_was_there() -> None:
    for day in book().days.values():
        for entry in day.record:
            assert was_there(entry), entry


def was_there(entry: Entry) -> bool:
    visits = [
        (line.at, type(line.act))
        for line in book().days[entry.at.date()].counting
        if isinstance(line.act, SignIn | SignOut) and line.act.who == entry.by
    ]
    came = [at for at, kind in visits if kind is SignIn and at <= entry.at]
    went = [at for at, kind in visits if kind is SignOut and at < entry.at]
    return len(came) > len(went)


def test_what_came_off_lies_somewhere_but_for_one_panel() -> None:
    lost = [t.id.piece for t in things() if t.where in ("off the vehicle", "not said", "lost")]
    assert lost == ["panels/panels/3"]


def test_a_split_deck_board_holds_in_a_rail_and_a_sill_in_a_post() -> None:
    ways = {(old.id.piece, new.piece) for old in things() for new in old.wood_to}
    assert ways >= {
        ("deck/old-boards/3", "body-frame/waist-rails/1"),
        ("body-frame/sills/2", "body-frame/posts/3"),
        ("windows/sashes/7", "windows/sashes/5"),
    }


def test_the_wheelwrights_patch_is_kept_as_it_is() -> None:
    patch = record().pieces["body-frame/wheelwright-patch"]
    assert patch.piece.keep
    assert patch.state == "earlier repair"
    assert patch.where.where == "on the vehicle"


def test_two_departures_say_why_and_whether_they_can_be_undone() -> None:
    assert len(said(Departure)) == 2
    assert all(act.why and act.reversible for act in said(Departure))


def test_three_temporary_things_each_stand_before_a_task_that_waits() -> None:
    stand = [e.act for e in record().temporary if isinstance(e.act, Temporary)]
    assert len(stand) == 3
    before = [task for act in stand for task in act.before]
    assert len(before) == 3
    assert {board()[task].state for task in before} == {"waiting"}


def test_one_approval_is_awaited() -> None:
    awaited = [hold for hold in board().holds.values() if hold.kind == "approval"]
    assert [hold.stage for hold in awaited] == ["running"]


def test_how_much_is_original_can_be_believed() -> None:
    """Two sills with new ends, six posts with new feet: of their length most is old."""
    known = {(one.component, one.basis): one for one in shares(record())}
    body = known["body-frame", "length"]
    assert 0.8 < body.original < 0.95
    assert body.original < body.most_original, "nobody said how much of post 4 was kept"
    assert known["panels", "area"].original < 0.5
    assert known["deck", "area"].original < known["body-frame", "length"].original
    assert {basis for component, basis in known if component == ALL} == {"pieces", "length", "area"}


@pytest.mark.parametrize("path", PICTURES)
def test_the_sketches_are_what_their_script_draws(path: str) -> None:
    """`python -m tests.sample.draw_pictures` draws them; then the hash in the logbook is due."""
    drawn = str(PICTURES[path]()).encode()
    assert (SAMPLE / "pictures" / path).read_bytes() == drawn
    assert len(drawn) < LARGEST
    assert not re.search(rb"<script|<image|href|url\(", drawn)
    (taken_in,) = (act for act in said(TookIn) if act.file == f"pictures/{path}")
    assert taken_in.hash == sha256(drawn).hexdigest()


def test_there_are_no_pictures_but_the_sketches_and_two_wait_to_be_sorted() -> None:
    files = {p.relative_to(SAMPLE / "pictures") for p in (SAMPLE / "pictures").rglob("*.*")}
    assert files == set(map(Path, PICTURES))
    assert 12 <= len(files) <= 20
    waiting = [waits.act.file for waits in record().waiting]
    assert waiting == ["pictures/2026/lamp.svg", "pictures/2026/moulding.svg"]


def test_each_picture_was_taken_before_it_was_taken_in() -> None:
    for day in book().days.values():
        for entry in day.entries:
            if isinstance(entry.act, TookIn):
                assert entry.act.taken is not None
                assert entry.act.taken <= entry.at
