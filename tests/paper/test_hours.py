"""Hours statements, and the tables that spreadsheets read."""

from __future__ import annotations

import csv
import io
import sys
import unicodedata
from collections import defaultdict
from datetime import date, datetime
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.read.folder import Folder
from crewboard.legible import legible
from crewboard.logbook.acts import GuestHours, HoursWorked
from crewboard.order.hours.worked import totals, worked
from crewboard.paper.hours import hours_rows, sum_rows
from crewboard.paper.plain import Paper
from crewboard.paper.spreadsheet import csv_text, text_table
from crewboard.telling.drawn import cells
from tests.folder.a_vehicle import make
from tests.long_form import cases

SAMPLE = Folder(Path(__file__).parents[2] / "sample_project")


def test_a_corrected_line_counts_as_corrected_and_once(tmp_path: Path) -> None:
    folder = Folder(make(tmp_path))
    (each,) = worked(folder.plan, folder.logbook)
    assert (each.day, each.who, each.task, each.hours) == (
        date(2026, 5, 2), "ada", "frame/scrape", 3.0
    )  # fmt: skip
    assert list(worked(folder.plan, folder.logbook, datetime(2026, 5, 2, 12))) == []


def test_months_and_years_add_up_to_all_that_was_logged() -> None:
    """Summed here entry by entry, from the lines as they stand in the files."""
    by_hand: dict[tuple[str, str], float] = defaultdict(float)
    of_guests = 0.0
    for day in SAMPLE.logbook.days.values():
        fates = day.fate()
        for entry in day.entries:
            act = entry.act
            if isinstance(act, HoursWorked) and entry.id not in fates:
                by_hand[act.who, f"{day.date:%Y-%m}"] += act.hours
            elif isinstance(act, GuestHours) and entry.id not in fates:
                of_guests += act.hours
    found = totals(SAMPLE.plan, SAMPLE.logbook)
    assert {
        (who, month): hours for who, each in found.items() for month, hours in each.months.items()
    } == pytest.approx(dict(by_hand))
    for each in found.values():
        assert sum(each.months.values()) == pytest.approx(each.in_all)
        assert sum(each.years.values()) == pytest.approx(each.in_all)
    head, *rows = sum_rows(SAMPLE.plan, SAMPLE.logbook)
    assert head[:2] == ["person", "name"]
    assert sum(float(str(row[-2])) for row in rows) == pytest.approx(
        sum(by_hand.values()) + of_guests
    )


def test_the_statement_narrows_down_to_a_person_and_a_month() -> None:
    head, *rows = hours_rows(SAMPLE.plan, SAMPLE.logbook, who="mirela", period="2026-04")
    first = ["date", "person", "name", "component", "task", "hours", "note"]
    assert head == [*first, "piece", "other"]
    assert rows
    assert {row[1] for row in rows} == {"mirela"}
    assert all(str(row[0]).startswith("2026-04") for row in rows)


FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1", "|cmd", '=HYPERLINK("x")']


@pytest.mark.parametrize("text", FORMULAS)
def test_no_cell_is_taken_for_a_formula(text: str) -> None:
    """The signs are those of OWASP, "CSV Injection" (common practice in spreadsheets)."""
    (row,) = csv.reader(io.StringIO(csv_text([[text]])))
    assert row[0].startswith("'")
    assert row[0] == legible("'" + text)


SIGNS = "=+-@|%\uff1d\uff0b\uff0d\uff20\ufe62\ufe63\ufe66\ufe6b\u2212"


# All that leaves no mark before the sign: blanks, controls, joiners, marks of direction.
@cache
def unseen() -> list[str]:
    return [
        char
        for char in map(chr, range(sys.maxunicode + 1))
        if char.isspace()
        or unicodedata.category(char) in ("Zs", "Zl", "Zp", "Cc", "Cf")
        or legible(char) != char
    ]


BLANKS = st.deferred(lambda: st.text(st.sampled_from(unseen()), max_size=6))


def test_no_cell_is_taken_for_a_formula_whatever_blank_stands_before_the_sign() -> None:
    blanks = unseen()
    assert {" ", "\u00a0", "\u3000", "\u200b", "\u202e", "\ufeff", "\u3164"} <= set(blanks)
    for number, blank in enumerate(blanks):
        for lead in (blank, f" {blank}", f"{blank}{blanks[number - 1]}\u00a0"):
            text = f"{lead}{SIGNS[number % len(SIGNS)]}1+1"
            assert csv_text([[text]]).lstrip('"').startswith("'"), ascii(text)


@given(BLANKS, st.sampled_from(SIGNS), st.text())
@cases(300, 20_000)
def test_no_cell_is_taken_for_a_formula_behind_any_blanks(
    blanks: str, sign: str, rest: str
) -> None:
    (row,) = csv.reader(io.StringIO(csv_text([[blanks + sign + rest]]), newline=""))
    assert row[0] == legible("'" + blanks + sign + rest)


@given(st.lists(st.lists(st.text(), min_size=2, max_size=2), min_size=1, max_size=5))
@cases(200, 5_000)
def test_a_spreadsheet_reads_back_each_text_as_it_is_shown(rows: list[list[str]]) -> None:
    """Read by the standard library's csv module, which follows RFC 4180."""
    back = list(csv.reader(io.StringIO(csv_text(rows), newline="")))
    assert [[cell.removeprefix("'") for cell in row] for row in back] == [
        [legible(cell).removeprefix("'") for cell in row] for row in rows
    ]
    assert csv_text(rows).count("\r\n") == len(rows)


def test_numbers_and_days_stay_numbers_and_days() -> None:
    assert (
        csv_text([[3.5, -2.0, date(2026, 5, 2), 1e-3, True]]) == "3.5,-2,2026-05-02,0.001,yes\r\n"
    )


def test_a_table_too_wide_for_the_lines_is_told_row_by_row() -> None:
    rows: list[list[object]] = [["who", "a", "b"], ["x" * 30, 1.5, 2.0], ["y", 0.0, 3.0]]
    assert [line.split() for line in text_table(rows, 80)][1:] == [
        ["x" * 30, "1.5", "2"],
        ["y", "3"],
    ]
    wide: list[list[object]] = [["who", "note"], ["ada", "n" * 90]]
    assert text_table(wide, 60) == ["ada,", f"    {'n' * 90}"]
    many: list[list[object]] = [["who", *"abcdefghij"], ["ada", *[100.5] * 10]]
    folded = text_table(many, 40)
    assert " ".join(folded).startswith("ada, a 100.5, b 100.5, c 100.5, d")
    assert max(map(len, folded)) <= 40


@given(st.text(max_size=300), st.integers(20, 80), st.integers(0, 6))
@cases(200, 5_000)
def test_wrapped_lines_keep_every_word_and_the_width(text: str, width: int, indent: int) -> None:
    paper = Paper(width)
    paper.line(text, indent=indent, hang=2)
    words = legible(text).replace("\xa0", " ").split(" ")  # what is kept together is a blank too
    assert "".join("".join(paper.lines).split(" ")) == "".join(words)
    for line in paper.lines:
        assert cells(line) <= width or len(line.split()) <= 1 or max(map(cells, words)) > width // 2


def test_wide_letters_take_two_columns_and_marks_none() -> None:
    """Unicode Standard Annex 11; the value for each is rich's, which the screens use."""
    from rich.cells import cell_len

    for text in ("abc", "漢字", "é", "e\u0301", "Ａ", "ñ"):
        assert cells(text) == cell_len(text)
