"""A long text holds up no list: a list shows a page of it, and the work grows with its length."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.legible import legible
from crewboard.paper.plain import plain_lines
from crewboard.telling.drawn import cells
from crewboard.telling.entry_words import MOST_OF_A_TEXT
from crewboard.telling.line import Line
from crewboard.telling.logbook import logbook_lines
from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES, make
from tests.growth.test_growth import lines_run

LINE = "the grain of the third board runs out\n"
DAY = "days/2026/2026-05-02.toml"


def van_with_a_note(root: Path, lines: int) -> Path:
    note = (
        "[entries.k7f3q2mz]\nat = 2026-05-02T15:30:00\nby = 'ada'\nkind = 'note'\n"
        f"component = 'frame'\ntext = '''{LINE * lines}'''\n"
    )
    return make(root, {p: t.encode() for p, t in (FILES | {DAY: FILES[DAY] + note}).items()})


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def test_the_log_shows_a_page_of_a_long_note_and_says_how_much_more_there_is(
    tmp_path: Path, call: Shell
) -> None:
    van, whole = van_with_a_note(tmp_path, 1000), LINE * 1000
    log = " ".join(call("log", van).out.split())
    more = len(whole) - MOST_OF_A_TEXT
    assert f"({more} more characters; --json shows them) on Frame" in log
    assert " ".join(legible(whole[: MOST_OF_A_TEXT - 10]).split()) in log
    assert len(log) < 2 * MOST_OF_A_TEXT
    entries = call("log", van, "--json").form
    assert whole in str(entries).replace("\\n", "\n")


def test_a_note_that_fills_the_page_is_shown_whole(tmp_path: Path, call: Shell) -> None:
    log = call("log", van_with_a_note(tmp_path, MOST_OF_A_TEXT // len(LINE))).out
    assert "more character" not in log


def test_the_log_does_the_same_work_for_a_note_of_any_length(tmp_path: Path) -> None:
    def log_of(lines: int) -> Callable[[], object]:
        folder = Folder(van_with_a_note(tmp_path / str(lines), lines))
        return lambda: plain_lines(
            logbook_lines(folder.plan, folder.logbook, lambda _day, _entry: True), 80
        )

    short, long = log_of(100), log_of(10_000)
    for log in (short, long):
        log()  # what is worked out once
    assert lines_run(long) <= lines_run(short) + 10


def test_four_times_the_text_is_four_times_the_lines_run_on_paper() -> None:
    def put_down(lines: int) -> Callable[[], object]:
        return lambda: plain_lines([Line(legible(LINE * lines))], 80)

    put_down(10)()
    few, many = lines_run(put_down(250)), lines_run(put_down(1000))
    assert many <= 4.2 * few


def test_the_columns_of_a_text_are_not_counted_line_by_line() -> None:
    signs = "\u240a表e\u0301"
    assert cells(signs) == 4
    assert lines_run(lambda: cells(signs * 1000)) == lines_run(lambda: cells(signs))
