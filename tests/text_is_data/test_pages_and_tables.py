"""Pages run nothing, sheets steer no terminal, and a spreadsheet reads text, not formulas."""

from __future__ import annotations

import csv
import io
from html.parser import HTMLParser
from pathlib import Path

import pytest

from crewboard.legible import legible
from crewboard.paper.reports import REPORTS
from crewboard.paper.wall import TURN
from tests.command.calling import Shell
from tests.text_is_data.as_shown import AT, is_harmless, slow, squeezed


class Page(HTMLParser):
    """A page as a browser takes it."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: set[str] = set()
        self.text = ""
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.add(tag)
        assert not [n for n, _ in attrs if n.startswith("on") or n in ("href", "src", "style")]

    def handle_data(self, data: str) -> None:
        self.text += data

    def handle_comment(self, data: str) -> None:
        raise AssertionError(data)


@slow
@pytest.mark.parametrize(
    "typed",
    [("report", "day", "--as", "html"), ("report", "incidents", "--as", "html", "--names"),
     ("briefing", "--html")],
    ids=lambda typed: typed[1],
)  # fmt: skip
def test_a_page_shows_it_and_runs_nothing(
    call: Shell, van: Path, text: str, typed: tuple[str, ...]
) -> None:
    name, *rest = typed
    words = (rest[0], van, *rest[1:]) if name == "report" else (van, *rest)
    ended = call(name, *words, *AT)
    assert ended.code == 0, ended.err
    is_harmless(ended)
    page = Page(ended.out.replace(f"<script>{TURN}</script>", "", 1))  # the wall's own
    assert not page.elements & {"script", "img", "a", "iframe", "object", "svg", "link", "form"}
    assert squeezed(legible(text)) in squeezed(page.text)


@slow
@pytest.mark.parametrize("only", [(), ("--card",)], ids=["sheets", "cards"])
def test_a_page_of_hazards_shows_it_and_runs_nothing(
    call: Shell, van: Path, text: str, only: tuple[str, ...]
) -> None:
    ended = call("hazards", van, "odd", "--html", *only)
    assert ended.code == 0, ended.err
    is_harmless(ended)
    page = Page(ended.out)
    assert not page.elements & {"script", "img", "a", "iframe", "object", "svg", "link", "form"}
    assert squeezed(legible(text.replace("{", "("))) in squeezed(page.text)


@slow
@pytest.mark.parametrize(
    "typed",
    [*(("report", name) for name in REPORTS if name != "calendar"), ("wall",)],
    ids=lambda typed: typed[-1],
)
def test_no_printed_page_runs_anything(
    call: Shell, van: Path, text: str, typed: tuple[str, ...]
) -> None:
    form = () if typed == ("wall",) else ("--as", "html")
    ended = call(*typed, van, *form, *AT)
    assert ended.code == 0, ended.err
    is_harmless(ended)
    page = Page(ended.out.replace(f"<script>{TURN}</script>", "", 1))  # the wall's own
    assert not page.elements & {"script", "img", "a", "iframe", "object", "svg", "link", "form"}
    start = squeezed(legible(text))[:20]
    assert typed[-1] in ("checks", "incidents", "hours") or start in squeezed(page.text)


@slow
def test_printed_sheets_show_it_as_typed(call: Shell, van: Path, text: str) -> None:
    for words in (("day", van), ("incidents", van, "--names"), ("incidents", van), ("hours", van)):
        ended = call("report", *words, *AT)
        assert ended.code == 0, ended.err
        is_harmless(ended)
        if words[-1] != van or words[0] == "day":
            assert squeezed(legible(text))[:1000] in squeezed(ended.out)
    is_harmless(call("briefing", van, *AT))


def test_a_spreadsheet_reads_it_as_text(call: Shell, van: Path, text: str) -> None:
    for words in (("hours", van, "--as", "csv"), ("hours", van, "--as", "csv", "--sum", "year")):
        ended = call("report", *words, *AT)
        is_harmless(ended)
        rows = list(csv.reader(io.StringIO(ended.out, newline=""), strict=True))
        assert len({len(row) for row in rows}) == 1
        for cell in (cell for row in rows for cell in row):
            assert not cell.lstrip(" ").startswith(tuple("=+-@\t\r\n")), cell
        cells = [cell.removeprefix("'") for row in rows for cell in row]
        assert legible(text) in cells
