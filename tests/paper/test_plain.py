"""Toned lines and rows as plain text."""

from crewboard.paper.plain import plain_lines, plain_rows
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.row import Row, heading


def test_what_is_wrapped_hangs_under_its_text() -> None:
    lines = [title("Checks"), Line("rags in the can outside", "must", 2, "-"), GAP]
    assert plain_lines(lines, 20) == ["Checks", "  - rags in the can", "    outside", ""]


def test_a_word_stands_before_its_text() -> None:
    assert plain_lines([Line("two people", word="needs:")], 80) == ["needs: two people"]


def test_a_text_of_several_lines_keeps_its_lines() -> None:
    assert plain_lines([Line("Scrape.\n\nThen oil.\n", indent=2)], 80) == [
        *("  Scrape.", "", "  Then oil."),
    ]


def test_nothing_in_a_line_steers_the_terminal() -> None:
    assert "\x1b" not in plain_lines([Line("a\x1b[2Jb", word="\x1b")], 80)[0]


def test_a_row_is_told_with_its_handle_and_the_lines_below_it() -> None:
    rows = [
        heading("Ready (1)"),
        Row("frame/scrape", ("ready", "Scrape", "", "4 h"), below=("3 wait",), handle="scrape"),
    ]
    assert plain_rows(rows, 80) == ["Ready (1)", "  ready  Scrape  [scrape]  4 h", "      3 wait"]
