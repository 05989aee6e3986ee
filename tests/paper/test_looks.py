"""How printed pages look where a person would stumble: tables, letters, days to look on."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.paper.page import cards_page, listing_page, sheet_page
from crewboard.telling import day_sheet, tags, talk_sheet
from crewboard.telling.report import Listing, Request

SAMPLE = Path(__file__).parents[2] / "sample_project"


def board(at: datetime) -> Board:
    folder = Folder(SAMPLE)
    return assess(folder.plan, folder.logbook, at)


def test_a_column_that_repeats_itself_is_printed_once_for_its_rows() -> None:
    rows: list[list[object]] = [["by", "name"], ["person", "Ada"], ["person", "Ben"], ["all", ""]]
    page = listing_page(Listing(rows, said_once="by", total=True))
    assert page.count("<td>person</td>") == 1
    assert "<td></td><td>Ben</td>" in page
    assert [row[0] for row in rows] == ["by", "person", "person", "all"]  # data stays whole


def test_the_hours_of_a_day_with_seven_kinds_of_work_stand_in_one_table() -> None:
    sheet = day_sheet.report(Request(board(datetime(2026, 4, 25, 17))))
    who = [c.table for c in sheet.chapters if c.table and c.table.columns[0].head == "who"]
    assert len(who) == 1
    assert [column.head for column in who[0].columns][-2:] == ["other work", "hours in all"]


def test_a_talk_that_is_set_closer_keeps_letters_to_read_out() -> None:
    page = sheet_page(talk_sheet.report(Request(board(datetime(2026, 5, 2, 9)))))
    assert '<body class="close large">' in page


def test_a_tag_names_the_work_day_on_which_somebody_can_look() -> None:
    """Arch 5 is set on a Monday; the shop opens again on Saturday the 16th."""
    page = cards_page(tags.report(Request(board(datetime(2026, 5, 2, 9)))))
    arch = page.partition(">Arch 5<")[2].partition("</table>")[0]
    assert "Mon 4 May 2026 11:06" in arch
    assert "<th>look at it on</th><td>Sat 16 May 2026</td>" in arch
