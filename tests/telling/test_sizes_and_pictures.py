"""A size that is decided on anew supersedes the one before; a page shows each picture once."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.acts import SizeDecided
from crewboard.logbook.entry import Entry, Said
from crewboard.order.reckoning.decided import superseded
from crewboard.order.said import pieces_in_words
from crewboard.telling.book.report import book_of
from crewboard.telling.record_of_task import record_of_task
from crewboard.workbench import Workbench
from tests.terminal.shop import SATURDAY, make_shop

SAMPLE = Path(__file__).parents[2] / "sample_project"
GAP = "gap between the boards"


def decided(day: int, act: SizeDecided) -> Entry:
    return Entry(f"d{day}", datetime(2026, 5, day, 9), act)


@pytest.mark.parametrize(
    ("first", "then", "is_superseded"),
    [
        (SizeDecided(GAP, "3 mm"), SizeDecided("Gap  between the boards", "4 mm"), True),
        (SizeDecided(GAP, "3 mm"), SizeDecided("overhang", "4 mm"), False),
        (SizeDecided(GAP, "3 mm", component="a"), SizeDecided(GAP, "4 mm", component="b"), False),
        (SizeDecided(GAP, "3 mm", piece="a/p"), SizeDecided(GAP, "4 mm", piece="a/q"), False),
        (SizeDecided(GAP, "3 mm", tasks=("a/x",)), SizeDecided(GAP, "4 mm"), True),
        (
            SizeDecided(GAP, "3 mm", tasks=("a/x", "a/y")),
            SizeDecided(GAP, "4 mm", tasks=("a/x",)),
            False,
        ),
        (SizeDecided(GAP, "3 mm"), SizeDecided(GAP, "4 mm", tasks=("a/x",)), True),
    ],
)
def test_the_later_word_on_the_same_thing_supersedes(
    first: SizeDecided, then: SizeDecided, *, is_superseded: bool
) -> None:
    entries = [decided(2, then), decided(1, first)]
    assert superseded(entries) == ({"d1": entries[0]} if is_superseded else {})


def test_of_three_the_last_counts() -> None:
    three = [decided(day, SizeDecided(GAP, f"{day} mm")) for day in (1, 2, 3)]
    assert superseded(three) == {"d1": three[2], "d2": three[2]}


def test_the_sheet_and_the_book_say_so_of_the_older_alone(tmp_path: Path) -> None:
    bench = Workbench(make_shop(tmp_path / "van"))
    (task, *_) = bench.plan.tasks.values()
    for value in ("3 mm", "4 mm"):
        act = SizeDecided(GAP, value, tasks=(task.id,), component=task.component)
        assert bench.record([Said(act, SATURDAY)], by="ada", now=SATURDAY).kept
    board = bench.board(SATURDAY)
    sheet = [line.text for line in record_of_task(board, task) if "mm" in line.text]
    assert ["superseded" in line for line in sheet] == [True, False]
    assert "superseded on Sat 2 May 2026: 4 mm" in sheet[0]
    book = book_of(board, task.component)
    says = [one.says for one in book.every_statement() if GAP in one.says.casefold()]
    assert ["superseded" in one for one in says] == [True, False]


def test_a_page_of_the_book_shows_each_picture_once() -> None:
    bench = Workbench(SAMPLE)
    board = bench.board(datetime(2026, 5, 2, 9))
    several = 0
    for component in ("", *(one.id for one in bench.plan.components.values() if not one.part_of)):
        plates = list(book_of(board, component).every_picture())
        files = [plate.file for plate in plates]
        assert len(files) == len(set(files)), component
        inside = [
            piece
            for piece in board.fabric.pieces.values()
            if component and piece.piece.component in bench.plan.with_parts(component)
        ]
        shown = {file for piece in inside for some in piece.pictures.values() for file in some}
        assert shown <= {*files, *_of_no_use(board.fabric.pictures)}, component
        for plate in plates:
            of = [one.piece.id for one in inside for s in one.pictures.values() if plate.file in s]
            if len(set(of)) > 1:
                several += 1
                assert plate.words.startswith(pieces_in_words(bench.plan, of))
    assert several > 3


def _of_no_use(captions: object) -> set[str]:
    assert isinstance(captions, dict)
    return {
        file for file, said in captions.items() if any(e.act.shows == "of no use" for e in said)
    }
