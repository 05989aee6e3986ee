"""The same work on several pieces, told as one."""

from datetime import datetime

from crewboard.logbook.acts import Begun, Finished, PieceFailed
from crewboard.logbook.entry import Entry
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.said import pieces_in_words
from crewboard.plan.component import Component
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.plan.series import Series, written_out
from crewboard.plan.task import Estimate, Task
from crewboard.telling.series import (
    FoldedSeries,
    fold,
    series_lines,
    series_of_row,
    series_row,
    so_far,
    states_in_words,
    titled,
)
from tests.order.small_plans import plan
from tests.order.test_readiness import logbook_of

NINE = datetime(2026, 5, 2, 9)
PANES = {
    f"w/panes/{n}": Piece(f"w/panes/{n}", f"Pane {n}", "w", "w/panes", n, spare=n == 7)
    for n in range(1, 8)
}


def windows() -> Plan:
    """Six windows and a spare pane, glazed one by one, then washed together."""
    series: dict[str, Series] = {}
    glaze = Task("w/glaze", "Glaze the sashes", "w", estimate=Estimate(1, 2, 3), each=tuple(PANES))
    series["w/glaze"], tasks = written_out(glaze, PANES.values())
    wash = Task("w/wash", "Wash the glass", "w", after=("w/glaze",))
    bare = plan([*tasks.values(), wash], [Component("w", "Windows")])
    return bare._replace(pieces=PANES, several={"w/panes": tuple(PANES)}, series=series)


def board(*acts: Begun | Finished | PieceFailed) -> Board:
    return assess(
        windows(), logbook_of([Entry(f"e{n}", NINE, act) for n, act in enumerate(acts)]), NINE
    )


def glazed(*numbers: int) -> list[Finished]:
    return [Finished(f"w/glaze/panes/{n}") for n in numbers]


def members(*numbers: int) -> tuple[str, ...]:
    return tuple(f"w/glaze/panes/{n}" for n in numbers)


def test_pieces_of_a_kind_are_told_by_their_numbers() -> None:
    named = PANES | {"w/panes/3": PANES["w/panes/3"]._replace(name="Driver's pane")}
    several = windows()._replace(pieces=named)
    assert pieces_in_words(several, ["w/panes/2"]) == "Pane 2"
    assert pieces_in_words(windows(), ["w/panes/5", "w/panes/2", "w/panes/3"]) == "Panes 2, 3 and 5"
    assert pieces_in_words(windows(), [f"w/panes/{n}" for n in (1, 2, 3, 4, 6)]) == (
        "Panes 1-4 and 6"
    )
    assert pieces_in_words(several, ["w/panes/2", "w/panes/3"]) == "Pane 2, Driver's pane"


def test_tasks_of_one_series_in_a_section_are_one_item_in_the_place_of_the_first() -> None:
    tasks = ["w/glaze/panes/2", "w/wash", "w/glaze/panes/1"]
    assert list(fold(board(), tasks, section="ready")) == [
        FoldedSeries("w/glaze", members(2, 1), "ready"),
        "w/wash",
    ]


def test_one_piece_alone_stands_by_its_own_title() -> None:
    assert list(fold(board(), members(4))) == [*members(4)]


def test_a_series_tells_how_many_of_its_pieces_are_finished() -> None:
    assert so_far(board(*glazed(1, 2, 4, 6)), "w/glaze") == "4 of 6"


def test_a_failed_piece_keeps_its_place_until_something_takes_it() -> None:
    assert so_far(board(PieceFailed("w/panes/2", "cracked")), "w/glaze") == "0 of 6"


def test_a_row_says_which_pieces_are_where_and_how_much_is_left() -> None:
    now = board(Finished("w/glaze/panes/1"), Begun("w/glaze/panes/2"))
    item = FoldedSeries("w/glaze", members(2, 3, 4), "today")
    row = series_row(now, item)
    assert row.cells == ("under way", "Glaze the sashes  1 of 6", "Windows", "6 h")
    assert row.below == ("Pane 2 under way, Panes 3 and 4 ready",)
    assert (row.tasks, row.folded) == (members(2, 3, 4), True)
    assert series_of_row(row.id) == "w/glaze"
    assert titled(now, item) == "Glaze the sashes: Panes 2-4"


def test_beside_the_row_stands_how_every_piece_is() -> None:
    now = board(*glazed(1, 2), PieceFailed("w/panes/3", "cracked"))
    lines = [f"{line.word} {line.text}".strip() for line in series_lines(now, "w/glaze")]
    assert lines[1] == "2 of 6 pieces finished, about 6 h left"
    assert "ready: Panes 4-6" in lines
    assert "set aside: Panes 3 and 7 (Pane 3 failed: cracked; a spare, not needed so far)" in lines
    assert states_in_words(now, members(1, 4)) == "Pane 4 ready, Pane 1 finished"
