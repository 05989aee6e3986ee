"""Lists that stay quick however long they are, and what they show of any text."""

from __future__ import annotations

import time
from collections.abc import Iterable
from datetime import datetime
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.row import Row, heading
from crewboard.terminal.cells import fitted, shortened, wrapped
from crewboard.terminal.matching import matches
from crewboard.terminal.page import Page
from crewboard.terminal.widgets.prose import Prose
from crewboard.terminal.widgets.rows import Column, RowList
from tests.terminal.shop import Watch, make_shop, open_app, reads, seen, until

SAMPLE = Path(__file__).parents[2] / "sample_project"
SHOWN_AT = datetime(2026, 5, 2, 9, 0)

NAUGHTY = (
    "[bold]loud[/bold]",
    "[/]",
    "[@click=app.quit]leave[/]",
    "\x1b[31mred\x1b[0m",
    "\u202eright to left",
    "板の下塗り" * 20,
    "x" * 300,
    "tab\tand\nline",
    "e\u0301" * 50,
    "👷🏽‍♀️ at work",
)


class ListPage(Page):
    """A page that is nothing but a list."""

    word = "List"

    def __init__(self, rows: list[Row]) -> None:
        super().__init__()
        self.rows = rows

    def body(self) -> Iterable[Widget]:
        yield RowList((Column(10), Column(), Column(8, right=True)), self.rows)

    def show(self, board: Board) -> None:
        """Nothing of the board."""


def many(count: int) -> list[Row]:
    rows: list[Row] = []
    for number in range(count):
        if number % 10 == 0:
            rows.append(heading(f"group {number // 10}"))
        below = ("why it stands here",) if number % 3 == 0 else ()
        rows.append(Row(f"r{number}", ("ready", f"thing {number}", f"{number} h"), "safe", below))
    return rows


async def key_times(tmp_path: Path, count: int) -> list[float]:
    """Seconds of the processor from a key until the lines of the window are drawn again."""
    app = open_app(make_shop(tmp_path / f"van{count}"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first")
        await app.push_screen(ListPage(many(count)))
        await reads(pilot, "thing 0")
        rows = app.screen.query_one(RowList)
        times = []
        for _ in range(60):
            start = time.process_time()
            rows.action_step(1)
            rows.render_lines(rows.size.region)
            times.append(time.process_time() - start)
        return times


async def test_a_key_is_as_quick_in_5000_rows_as_in_500(tmp_path: Path) -> None:
    # The least of many: another program on the computer can only add to what a key takes.
    short = min(await key_times(tmp_path, 500))
    long = min(await key_times(tmp_path, 5000))
    assert long < 2 * short + 0.002


async def test_the_cursor_passes_over_headings_and_stays_on_its_row(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first")
        await app.push_screen(ListPage(many(30)))
        await reads(pilot, "thing 0")
        rows = app.screen.query_one(RowList)
        assert rows.at == "r0"
        await pilot.press(*["down"] * 10)
        await until(pilot, lambda: rows.at == "r10")
        rows.fill([each for each in many(30) if each.id != "r3"])
        assert rows.at == "r10"
        await pilot.press("end")
        await until(pilot, lambda: rows.at == "r29")
        await pilot.press("pageup")
        await until(pilot, lambda: int(rows.at[1:]) < 20)
        await pilot.press("home")
        await until(pilot, lambda: rows.at == "r0")
        assert "group 0" in seen(app)


async def test_a_find_shows_what_matches_and_escape_shows_all_again(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first")
        await app.push_screen(ListPage(many(500)))
        await reads(pilot, "thing 0")
        await pilot.press("slash", *"thing 49")
        text = await reads(pilot, "thing 490")
        assert "thing 1 " not in text
        await pilot.press("enter")
        rows = app.screen.query_one(RowList)
        await until(pilot, lambda: rows.has_focus)
        await pilot.press("escape")
        await reads(pilot, "thing 48 ")
        assert rows.at == "r49"


@pytest.mark.parametrize("text", NAUGHTY)
async def test_any_text_shows_as_typed_and_steers_nothing(tmp_path: Path, text: str) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first")
        await app.push_screen(ListPage([Row("r", ("ready", text, "1 h"), below=(text,))]))
        shown = await reads(pilot, "ready")
        assert "\x1b" not in shown
        assert "\u202e" not in shown
        for line in app.screen._compositor.render_strips():
            assert line.cell_length == 80
        if "[" in text:
            assert text.replace("\x1b", "\u241b")[:60] in shown


@pytest.mark.parametrize("text", NAUGHTY)
@pytest.mark.parametrize("width", [1, 2, 7, 40])
def test_fitted_text_takes_just_its_cells(text: str, width: int) -> None:
    assert cell_len(fitted(text, width)) == width
    assert cell_len(fitted(text, width, right=True)) == width
    assert cell_len(shortened(text, width)) <= width


@pytest.mark.parametrize("width", [1, 5, 20, 79])
def test_wrapped_lines_lose_no_word_and_fit(width: int) -> None:
    text = "Long strokes, along the grain, " + "板" * 30 + " and on"
    lines = wrapped(text, width)
    assert all(cell_len(line) <= max(2, width) for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


async def test_prose_wraps_under_its_text_and_scrolls(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))

    class ProsePage(ListPage):
        def body(self) -> Iterable[Widget]:
            says = "one two three four five six seven " * 8
            yield Prose([Line(says, "danger", 2, "refused:"), *[Line(f"l{n}") for n in range(60)]])

    async with app.run_test(size=(60, 20)) as pilot:
        await reads(pilot, "What goes first")
        await app.push_screen(ProsePage([]))
        text = await reads(pilot, "refused: one two")
        second = text.splitlines()[2]
        assert second.startswith(" " * 11)
        prose = app.screen.query_one(Prose)
        await until(pilot, lambda: prose.allow_vertical_scroll)
        await pilot.press("end")
        await reads(pilot, "l59")


def test_a_find_wants_every_word_and_takes_letters_in_order() -> None:
    assert matches("roof bo", "Lay the roof boards") is not None
    assert matches("rfbrd", "Lay the roof boards") is not None
    assert matches("roof keel", "Lay the roof boards") is None
    assert matches("", "anything") == 0
    exact, loose = matches("roof", "Roof"), matches("roof", "r-o-o-f")
    assert exact is not None
    assert loose is not None
    assert exact < loose


@pytest.mark.parametrize("key", ["f2", "f3", "f4", "f7"])
async def test_an_arrow_draws_its_two_rows_and_lays_no_screen_out(
    key: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    from textual._compositor import Compositor

    app = open_app(SAMPLE, Watch(SHOWN_AT))
    async with app.run_test(size=(120, 42)) as pilot:
        await pilot.press(key)
        await pilot.pause(0.3)
        rows = app.screen.query(RowList).first()
        await pilot.press("down", "up")  # whether there is a scroll bar beside it is settled
        await pilot.pause(0.2)
        drawn: list[int] = []
        laid_out: list[object] = []
        draw, reflow = RowList.render_line, Compositor.reflow

        def counted(self: RowList, y: int) -> object:
            drawn.extend([y] if self is rows else [])
            return draw(self, y)

        def told(self: Compositor, *given: object) -> object:
            laid_out.append(self)
            return reflow(self, *given)  # type: ignore[arg-type]

        monkeypatch.setattr(RowList, "render_line", counted)
        monkeypatch.setattr(Compositor, "reflow", told)
        at = rows.at
        await pilot.press("down")
        await pilot.pause(0.2)
        assert rows.at != at
        assert not laid_out
        assert 0 < len(set(drawn)) <= 8  # two rows with the lines below their titles
