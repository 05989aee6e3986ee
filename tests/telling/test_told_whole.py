"""Nothing that somebody writes into the record is left out where it is told."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from crewboard.fabric.fabric import fabric_of
from crewboard.logbook.acts import (
    Bent,
    DoneTo,
    Found,
    Measured,
    Pictured,
    Reckoned,
    Reused,
    TakenOff,
    TookIn,
)
from crewboard.logbook.entry import Entry, Said
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.telling.book.report import book_of
from crewboard.telling.book.statement import said_by
from crewboard.telling.entry_words import EntryWords
from crewboard.workbench import Workbench
from tests.fabric.bodies import body, logbook, piece
from tests.terminal.shop import SATURDAY, make_shop

DOORS = 'name = "Doors"\n[pieces.door]\nname = "Door"\ncount = 2\nas_found = "original"\n'
SILL, POST = "frame/sill", "frame/post"
PLAN = body(piece(SILL), piece(POST))
KINDS = [kind for kind in KINDS_OF_ENTRY if KINDS_OF_ENTRY[kind].of_record]
OWN_WORDS = (TookIn, Reckoned, Bent)  # kept by the program, and told by rules of their own


def value_of(field: EntryField) -> Any:
    known: dict[str, Any] = {"piece": SILL, "component": "", "number": 77.5, "flag": True}
    value = known.get(field.names or field.kind, f"<{field.name}>")
    if field.kind == "one of":
        value = next(iter(field.words))
    return (value,) if field.many and value else value


@pytest.mark.parametrize("kind", [one for one in KINDS if one not in OWN_WORDS])
def test_each_text_of_an_entry_stands_in_its_sentence(kind: type) -> None:
    values = {field.name: value_of(field) for field in fields_of(kind)}
    says = EntryWords(PLAN).of(Entry("id", SATURDAY, kind(**values)))
    texts = [v for one in values.values() for v in (one if isinstance(one, tuple) else (one,))]
    left_out = [
        text
        for text in texts
        if str(text).startswith("<") and str(text) not in says and text not in ("<task>",)
        # Pictures are shown in the book; of the work by which it was done the task's sheet tells.
        if kind is Found or text != "<pictures>"
    ]
    assert left_out == []


def test_the_book_shows_what_an_entry_cites_and_when_it_was_taken(tmp_path: Path) -> None:
    bench = Workbench(make_shop(tmp_path / "van", components={"doors": DOORS}))
    (some, *_) = bench.plan.pieces
    files = [f"pictures/2026/{name}.jpg" for name in ("found", "done", "taken-off", "both", "none")]
    for file in files:
        path = tmp_path / "van" / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"\xff\xd8\xff\xe0" + file.encode())
    found, done, off, both, none = files
    moment = datetime(2026, 5, 2, 8, 15)
    acts = (
        TookIn(found, taken=moment),
        TookIn(done, taken=moment, taken_by="its file's time"),
        Found("soft at the foot", piece=some, pictures=(found, both, none)),
        DoneTo(some, "cleaned", pictures=(done,)),
        TakenOff(some, pictures=(off,)),
        Pictured(both, "before", (some,), words="the foot"),
        Pictured(none, "of no use", (some,)),
    )
    for act in acts:
        assert bench.record([Said(act, SATURDAY)], by="ada", now=SATURDAY).kept
    board = bench.board(SATURDAY)
    home = bench.plan.main_of(bench.plan.pieces[some].component).id
    shown = {plate.file: plate.words for plate in book_of(board, home).every_picture()}
    assert list(shown) == [both, found, done, off]
    assert shown[both].startswith("before: the foot (")
    assert shown[found].startswith("found: soft at the foot (taken Sat 2 May 2026 08:15; Sat 2 May")
    assert "taken Sat" not in shown[done]


def test_whose_wood_it_holds_is_signed_by_who_wrote_that(tmp_path: Path) -> None:
    bench = Workbench(make_shop(tmp_path / "van", components={"doors": DOORS}))
    one, other, *_ = bench.plan.pieces
    later = SATURDAY.replace(hour=SATURDAY.hour + 1)
    for act, at, by in (
        (DoneTo(one, "spliced", share=80), SATURDAY, "ada"),
        (Reused(other, one), later, "ben"),
    ):
        assert bench.record([Said(act, at)], by=by, now=later).kept
    board = bench.board(later)
    home = bench.plan.main_of(bench.plan.pieces[one].component).id
    (wood,) = (s for s in book_of(board, home).every_statement() if s.word == "wood")
    (entry,) = (e for e in board.logbook.record() if isinstance(e.act, Reused))
    assert wood.entries == (entry.id,)
    assert wood.said == said_by(board, entry)


def test_a_picture_that_only_its_file_dates_is_dated_by_its_entry() -> None:
    """A copy's time is that of the copying: it makes no picture of before one of after."""
    copied = datetime(2026, 6, 1, 20)
    for by, known in (("", copied), ("its name", copied), ("its file's time", None)):
        entry = Entry("in", SATURDAY, TookIn("pictures/a.jpg", taken=copied, taken_by=by))
        assert fabric_of(PLAN, logbook([entry]), SATURDAY).taken_at("pictures/a.jpg") == known


def test_measured_tells_its_ends_and_how_exactly() -> None:
    act = Measured("60 1/8 in", "foot", "top", SILL, tolerance="1/16 in", tool="tape")
    says = EntryWords(PLAN).of(Entry("id", SATURDAY, act))
    assert says == f"{PLAN.pieces[SILL].name}, foot to top: 60 1/8 in ± 1/16 in, with tape"
