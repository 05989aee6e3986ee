"""The day sheet: what it says, and that nothing in it is markup."""

from __future__ import annotations

from datetime import datetime
from html.parser import HTMLParser
from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Act, CheckSigned
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.safety.unchecked import SAYS
from crewboard.paper.page import sheet_page
from crewboard.paper.plain import plain_lines
from crewboard.plan.hazard import CAUTION
from crewboard.telling.day_sheet import report
from crewboard.telling.report import Request, cell_in_words, sheet_lines
from tests.folder.a_vehicle import FILES, make
from tests.telling.facts import SAMPLE

EVENING = datetime(2026, 5, 2, 17)


def board(root: Path, files: dict[str, bytes] | None = None) -> Board:
    folder = Folder(make(root, files))
    return assess(folder.plan, folder.logbook, EVENING)


def points_of(board: Board) -> dict[str, list[str]]:
    """The points below each heading of the sheet."""
    chapters = report(Request(board)).chapters
    return {chapter.heading: [line.text for line in chapter.points] for chapter in chapters}


def rows_of(board: Board) -> dict[str, list[dict[str, str]]]:
    """The rows of the tables below each heading, by the heads of their columns."""
    return {
        chapter.heading: [
            dict(zip((c.head for c in table.columns), map(cell_in_words, row), strict=True))
            for row in table.rows
        ]
        for chapter in report(Request(board)).chapters
        if (table := chapter.table) is not None
    }


def test_the_sheet_says_what_the_day_brought(tmp_path: Path) -> None:
    told, rows = points_of(board(tmp_path)), rows_of(board(tmp_path))
    ada, in_all = rows["Who was there"]
    assert ada == {
        "who": "Ada Test",
        "here": "09:10 to (still here)",
        "Scrape the sills": "3",
        "hours in all": "3",
    }
    assert list(in_all.values()) == ["in all", "1 person", "3", "3"]
    assert rows["Begun and finished"] == [
        {"task": "Scrape the sills", "begun": "09:20 by Ada Test", "finished": "12:00"},
        {
            "task": "Prime the sills",
            "begun": "",
            "finished": "15:00 - finished without: a begin; a word on who did it",
        },
    ]
    assert told["Also that day"] == [
        'dry hold of "Prime the sills" extended by 1 day (damp)',
        "shop reading: 12.5 °C, 70 % humidity",
    ]  # fmt: skip
    assert told["Left on hold"][0].startswith('"Prime the sills": drying since')


def test_hours_without_a_signed_check_are_marked(tmp_path: Path) -> None:
    hours = points_of(board(tmp_path))["Hours"]
    assert hours[0].startswith('Ada Test worked 3 h on "Scrape the sills"')
    assert SAYS in hours[0]
    assert len(hours) == 1  # the sum stands in the table of who was there


def test_a_day_on_which_nothing_was_written_down_says_so(tmp_path: Path) -> None:
    folder = Folder(make(tmp_path))
    empty = assess(folder.plan, folder.logbook, datetime(2025, 1, 1, 12))
    assert list(points_of(empty)) == ["Nothing was written down that day"]


def test_checks_stand_in_few_words_a_row_for_who_signed_for_what() -> None:
    """The full text of a check is on the check sheet, and on the screen when it is signed."""
    sample = Folder(SAMPLE)
    evening = assess(sample.plan, sample.logbook, datetime(2026, 4, 25, 17))
    (heading,) = (head for head in rows_of(evening) if head.startswith("Checks signed"))
    rows = rows_of(evening)[heading]
    assert len({(row["signed"], row["for"]) for row in rows}) == len(rows)
    told = {(row["signed"], row["for"]): row["checks"] for row in rows}
    shop = told["Mirela Vandrey", "the shop"]
    assert shop.startswith("09:21 ways out and alarm in order")
    assert "first aid and address ready (named: Mirela Vandrey)" in shop
    assert shop.endswith("16:32 everyone out or accounted for")
    young = told["Mirela Vandrey", "Coat the frame with chassis black, for Leila Brockmar"]
    assert young == "09:34 young people: hazards shown"
    signed = [e for e in sample.logbook.days[evening.at.date()].counting if _is_signature(e.act)]
    moments = {f"{entry.at:%H:%M}" for entry in signed}
    assert all(any(moment in row["checks"] for row in rows) for moment in moments)


def _is_signature(act: Act) -> bool:
    return isinstance(act, CheckSigned)


def test_an_injury_is_counted_and_not_told(tmp_path: Path) -> None:
    files = {path: text.encode() for path, text in FILES.items()}
    line = 'zz = { at = 2026-05-02T14:00:00, kind = "incident", what = "thumb", who = ["tom"] }\n'
    files["days/2026/2026-05-02.toml"] += line.encode()
    text = "\n".join(plain_lines(sheet_lines(report(Request(board(tmp_path, files)))), 80))
    assert "1 record in the logbook" in text
    assert "thumb" not in text
    assert "Tom" not in text


class _Read(HTMLParser):
    """The page as a browser takes it: its elements, and its texts."""

    def __init__(self) -> None:
        super().__init__()
        self.elements: set[str] = set()
        self.texts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.add(tag)
        assert not any(name.startswith("on") or name in ("href", "src") for name, _ in attrs)

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def test_the_page_shows_any_text_as_typed_and_runs_nothing(tmp_path: Path) -> None:
    nasty = '<script>alert(1)</script><img src=x onerror=y> & "q"'
    files = {path: text.encode() for path, text in FILES.items()}
    files["components/frame.toml"] = files["components/frame.toml"].replace(
        b'"Scrape the sills"', b"'" + nasty.encode() + b"'"
    )
    page = sheet_page(report(Request(board(tmp_path, files))))
    read = _Read()
    read.feed(page)
    assert not read.elements & {"script", "img", "a", "iframe", "link", "object"}
    assert any(nasty in text for text in read.texts)
    assert any(CAUTION in text for text in read.texts)
