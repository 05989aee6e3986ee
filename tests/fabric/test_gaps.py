"""What a museum's reader would miss of a piece that something was done to."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from crewboard.fabric.fabric import fabric_of
from crewboard.fabric.gaps import gaps, new_gaps
from crewboard.logbook.acts import (
    Act,
    DoneTo,
    Finished,
    Found,
    Gone,
    Pictured,
    PieceMade,
    Stored,
    TakenOff,
    TookIn,
)
from crewboard.plan.task import Task
from tests.fabric.bodies import LATER, START, body, entries, logbook, piece, record

ARCH, BOARD = "roof/arch", "deck/board"
PLAN = body(piece(ARCH), piece(BOARD))
BEFORE = Pictured("pictures/a.jpg", "before", (ARCH,))
AFTER = Pictured("pictures/z.jpg", "after", (ARCH,))
REPLACED = DoneTo(
    ARCH,
    "replaced in kind",
    why="rotten through",
    materials=("ash, the sawmill, lot 7",),
    mark="year on the back",
)
OLD_ON_SHELF = Stored(ARCH, "shelf 3", old=True)
WHOLE = (BEFORE, REPLACED, OLD_ON_SHELF, AFTER)


def missing(*acts: Act) -> list[str]:
    return [gap.code for gap in gaps(record(PLAN, *acts)).get(ARCH, ())]


def but(changed: DoneTo) -> tuple[Act, ...]:
    return (BEFORE, changed, OLD_ON_SHELF, AFTER)


def test_nothing_is_missing_of_a_piece_that_nothing_was_done_to() -> None:
    assert missing(Found("a split", piece=ARCH)) == []


def test_nothing_is_missing_where_all_was_said_and_shown() -> None:
    assert missing(*WHOLE) == []


@pytest.mark.parametrize(
    ("acts", "codes"),
    [
        (WHOLE[1:], ["before"]),
        ((Found("split", piece=ARCH, pictures=("pictures/b.jpg",)), *WHOLE[1:]), []),
        (WHOLE[:-1], ["after"]),
        ((AFTER, *WHOLE[:-1]), []),  # of the same day, typed in any order
        ((BEFORE, REPLACED, AFTER), ["where"]),
        (but(REPLACED._replace(why="")), ["why"]),
        (but(REPLACED._replace(materials=())), ["materials"]),
        (but(REPLACED._replace(materials=("none",))), []),
        (but(REPLACED._replace(materials=("ash, the sawmill",))), ["batch"]),
        (but(REPLACED._replace(mark="")), ["mark"]),
        ((*but(REPLACED._replace(mark="")), DoneTo(ARCH, "marked"), AFTER), []),
        ((PieceMade(ARCH, "ash", "sawmill", "7"), *but(REPLACED._replace(materials=()))), []),
        ((PieceMade(ARCH, "ash"), *but(REPLACED._replace(materials=()))), ["batch"]),
        (but(REPLACED._replace(action="copied on evidence")), ["grade"]),
        (but(REPLACED._replace(action="copied on evidence", grade="B")), ["evidence"]),
        (but(REPLACED._replace(action="copied on evidence", grade="B", sources=("e0",))), []),
        ((BEFORE, TakenOff(ARCH)), ["where"]),
        ((BEFORE, TakenOff(ARCH), Stored(ARCH, "loft")), []),
        ((BEFORE, Gone(ARCH, "discarded", why="rotten")), ["agreed"]),
        ((BEFORE, Gone(ARCH, "discarded", agreed=("ada", "tom"), why="rotten")), []),
        ((BEFORE, Gone(ARCH, "given away", why="asked for")), ["to whom"]),
        ((BEFORE, DoneTo(ARCH, "left as found")), ["why"]),
        (but(REPLACED._replace(action="spliced", share=80)), []),
        ((BEFORE, REPLACED._replace(action="spliced"), AFTER), ["share", "cut out"]),
    ],
)
def test_what_is_missing_is_named_and_nothing_else(acts: tuple[Act, ...], codes: list[str]) -> None:
    assert missing(*acts) == codes


def test_what_nobody_signed_for_is_missing_its_name() -> None:
    lines = [line._replace(by="") for line in entries(*WHOLE)]
    codes = [gap.code for gap in gaps(fabric_of(PLAN, logbook(lines), LATER))[ARCH]]
    assert codes == ["who"]


def test_a_piece_that_nobody_described_is_missing_how_it_was_found() -> None:
    plan = body(piece(ARCH, "unknown"))
    fabric = record(plan, *WHOLE)
    assert [gap.code for gap in gaps(fabric)[ARCH]] == ["as found"]
    assert not gaps(record(plan, Found("a split", piece=ARCH), *WHOLE))


def test_a_camera_that_says_when_is_believed_over_the_day_of_the_caption() -> None:
    began = START + timedelta(hours=2)  # when it was replaced
    for taken, codes in (
        (began - timedelta(minutes=5), []),
        (began + timedelta(hours=1), ["before"]),
    ):
        took_in = TookIn("pictures/a.jpg", taken=taken)
        assert missing(took_in, *WHOLE) == codes


@pytest.mark.parametrize("of_task", [True, False])
def test_what_is_closed_in_is_shown_while_it_could_be_seen(of_task: bool) -> None:
    task = Task("roof/canvas", "Stretch the canvas", "roof", changes="closes")
    plan = PLAN._replace(tasks={task.id: task})
    closed = Finished(task.id)
    hidden = Pictured("pictures/h.jpg", "hidden now", () if of_task else (ARCH,), task=task.id)
    fabric = record(plan, *WHOLE, closed)
    assert [gap.code for gap in gaps(fabric)[ARCH]] == ["hidden"]
    assert not gaps(record(plan, *WHOLE, hidden, closed))


def test_the_piece_that_lacks_least_stands_first() -> None:
    fabric = record(PLAN, DoneTo(BOARD, "replaced in kind"), *WHOLE[1:])
    assert list(gaps(fabric)) == [ARCH, BOARD]


def test_what_todays_work_left_open_is_told_from_what_was_open_before() -> None:
    lines = entries(DoneTo(BOARD, "cleaned"), REPLACED, apart=timedelta(days=1))
    book = logbook(lines)
    yesterday = datetime.combine(lines[1].at, datetime.min.time())
    new = new_gaps(fabric_of(PLAN, book, yesterday), fabric_of(PLAN, book, LATER))
    assert {piece: [gap.code for gap in of_it] for piece, of_it in new.items()} == {
        ARCH: ["before", "after", "where"]
    }
