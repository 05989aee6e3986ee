"""Whatever is typed into a text field shows as typed and does nothing, in every place it goes.

Every class of text (`naughty.CLASSES`) stands in every text field of the plan and the logbook, and
goes through every command, sheet, table, calendar and picture. Each form is read back by the
standard library's reader of it, the calendar by a reader of its own made after RFC 5545.
"""

from __future__ import annotations

import csv
import io
import os
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from crewboard.command.catalogue import CHAPTERS
from crewboard.folder.disk.lock import LOCK_NAME
from crewboard.folder.read.files import is_id
from crewboard.folder.read.folder import Folder
from crewboard.legible import legible
from crewboard.paper.reports import REPORTS
from crewboard.paper.wall import TURN
from crewboard.terminal.widgets.rows import RowList
from tests.command.calling import Ended, Shell
from tests.naughty import CLASSES, folder_full_of
from tests.terminal.shop import Watch, open_app, reads, seen

AT = ("--at", "2026-05-02T16:00")
# What a terminal obeys, or what hides text from who reads it. Joined emoji and script joiners are
# marked too: a terminal would not draw them the same as the next one.
STEERS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff"
    "\U000e0000-\U000e007f]"
)
LOOKS: list[tuple[str, ...]] = [
    ("day-end",),
    ("day",), ("task", "frame/a"), ("task", "frame/d"), ("why", "frame/b"), ("then", "frame/a"),
    ("holds",), ("vehicle", "--tasks"), ("pieces",), ("crew",), ("log",), ("hazards", "odd"),
    ("hazards",), ("check",), ("review",), ("supplies",), ("plan-day", "--people", "ada"),
    ("forecast", "--runs", "20"),
]  # fmt: skip


LONG = bool(os.environ.get("CREWBOARD_LONG"))
# For what takes seconds: one class of each way to steer, all of them in the long form.
SOME = (
    "action link",
    "script",
    "hyperlink code",
    "C1 controls",
    "right to left override",
    "new lines",
)
slow = pytest.mark.parametrize("text", CLASSES if LONG else SOME, indirect=True)


@pytest.fixture(params=CLASSES, ids=lambda name: name.replace(" ", "-"))
def text(request: pytest.FixtureRequest) -> str:
    return CLASSES[request.param]


@pytest.fixture
def van(tmp_path: Path, text: str, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    return folder_full_of(text, tmp_path / "van")


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def squeezed(text: str) -> str:
    """Without blanks, so that wrapped lines compare."""
    return "".join(text.split())


def is_harmless(ended: Ended) -> None:
    for said in (ended.out.replace("\r\n", "\n"), ended.err):
        assert not STEERS.search(said), said
    assert "Traceback" not in ended.err


def texts_in(form: Any) -> Iterator[str]:
    if isinstance(form, dict):
        for value in form.values():
            yield from texts_in(value)
    elif isinstance(form, list):
        for value in form:
            yield from texts_in(value)
    elif isinstance(form, str):
        yield form


def test_the_folder_that_is_full_of_it_has_its_text_in_every_field(van: Path, text: str) -> None:
    folder = Folder(van)
    assert not folder.broken
    odd = {fault.code for fault in folder.faults} - {"unknown-name", "picture", "out-of-range"}
    if is_id(text):  # a note of the logbook is on a component of that name
        odd -= {"missing-file"}
    assert odd <= {"empty"}, folder.faults
    assert folder.plan.tasks["frame/a"].title == text
    assert folder.plan.crew["ada"].note == text
    assert len(folder.logbook.days) == 1
    (day,) = folder.logbook.days.values()
    assert len(day.entries) == 26


@slow
def test_every_command_that_looks_shows_it_as_typed(call: Shell, van: Path, text: str) -> None:
    shown = ""
    for name, *rest in LOOKS:
        at = () if name == "hazards" else AT
        ended = call(name, van, *rest, *at)
        assert ended.code in (0, 1), (name, ended.err)
        is_harmless(ended)
        shown += ended.out
        given = call(name, van, *rest, *at, "--json")
        assert given.out.isascii()
        assert not STEERS.search(given.out)
        told = list(texts_in(given.form))
        if name in ("task", "log", "crew"):
            assert any(text in each for each in told), name
    assert squeezed(legible(text))[:1000] in squeezed(shown)


def test_the_commands_that_were_looked_at_are_all_there_are() -> None:
    assert {each[0] for each in LOOKS} == set(CHAPTERS["Look"])


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


# --- the calendar, after RFC 5545 ---------------------------------------------------------------

_LINE = re.compile(r"[A-Z][A-Z-]*(;[A-Z-]+=[^\x00-\x1f\";:,]+)*:[^\x00-\x08\x0a-\x1f\x7f]*\Z")
_PARTS = {"BEGIN", "END", "VERSION", "PRODID", "UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY",
          "DESCRIPTION", "LOCATION", "CALSCALE", "METHOD", "NAME", "X-WR-CALNAME"}  # fmt: skip


def calendar_texts(data: str) -> list[str]:
    """The texts of a calendar; fails where a rule of RFC 5545 is broken."""
    assert data.endswith("\r\n")
    assert not data.replace("\r\n", "").count("\n"), "3.1: lines end in CR LF"
    assert not data.replace("\r\n", "").count("\r")
    physical = data.split("\r\n")[:-1]
    assert max(len(line.encode()) for line in physical) <= 75, "3.1: 75 octets"
    assert not physical[0].startswith(" ")
    lines = data.replace("\r\n ", "").replace("\r\n\t", "").split("\r\n")[:-1]
    open_parts, texts = list[str](), list[str]()
    for line in lines:
        assert _LINE.match(line), line
        name, _, value = line.partition(":")
        name = name.partition(";")[0]
        assert name in _PARTS, line
        if name == "BEGIN":
            open_parts.append(value)
        elif name == "END":
            assert open_parts.pop() == value
        elif name in ("SUMMARY", "DESCRIPTION", "LOCATION", "UID"):
            texts.append(unescaped(value))
    assert open_parts == []
    return texts


def unescaped(value: str) -> str:
    """3.3.11: backslash, semicolon, comma and new line stand behind a backslash, or not at all."""
    found, chars = "", iter(value)
    for char in chars:
        if char == "\\":
            after = next(chars)
            assert after in "\\;,nN", value
            found += "\n" if after in "nN" else after
        else:
            assert char not in ";,", value
            found += char
    return found


def test_a_calendar_takes_it_as_text_by_every_rule(call: Shell, van: Path, text: str) -> None:
    ended = call("report", "calendar", van, *AT)
    assert ended.code == 0, ended.err
    assert not STEERS.search(ended.out.replace("\r\n", ""))
    told = calendar_texts(ended.out)
    as_shown = legible(text.replace("\r\n", "\n"), lines=True)
    assert any(squeezed(as_shown) in squeezed(each) for each in told)
    assert any("Delivery due" in each for each in told)
    assert any("To be finished" in each for each in told)


# --- what is typed -------------------------------------------------------------------------------


def calls_with(text: str) -> list[tuple[str, ...]]:
    """Every command that writes, with the text in each of its text fields."""
    return [
        ("expect", "tom", "--note", text),
        ("sign-in", "ada", "tom", "--note", text),
        ("reading", "--celsius", "12", "--note", text),
        ("ordered", "oak", "--note", text),
        ("arrived", "oak", "--note", text),
        ("note", "--", text),
        ("incident", "--place", text, "--done", text, "--", text),
        ("hours", "ada", "2", "frame/d", "--note", text),
        ("hours-left", "frame/b", "4", "--why", text),
        ("set-aside", "frame/b", "--why", text),
        ("set-aside", "frame/b", "--back", "--why", text),
        ("hold", "decision", "--component", "frame", "--why", text),
        ("begin", "frame/d", "--who", "ada", "--despite", text, "--note", text),
        ("finish", "frame/d", "--note", text),
        ("extend", "eaaaaaah", "--by-span", "1 day", "--why", text),
        ("release", "eaaaaaah", "--why", text),
        ("reopen", "frame/a", "--why", text),
        ("sign", "frame/d", "odd/look", "--does-not-apply", "--why", text),
        ("sign-out", "ada", "--note", text),
        ("correct", "eaaaaaar", "--set", f"text={text}"),
        ("take-back", "eaaaaaao", "--why", text),
        ("close-day", "--despite", text, "--note", text),
    ]


@slow
def test_what_is_typed_at_a_command_is_kept_as_typed_or_refused_in_a_sentence(
    call: Shell, van: Path, text: str
) -> None:
    (van / "days/2026/2026-05-02.toml").write_text(
        "date = 2026-05-02\n\n[entries]\n"
        'eaaaaaah = { at = 2026-05-02T09:00:00, kind = "finished", task = "frame/a" }\n'
        'eaaaaaar = { at = 2026-05-02T09:01:00, kind = "note", text = "x" }\n'
        'eaaaaaao = { at = 2026-05-02T09:02:00, kind = "note", text = "y" }\n'
    )
    kept = 0
    for number, (name, *rest) in enumerate(calls_with(text)):
        at = () if name in ("correct", "take-back") else ("--at", f"2026-05-02T10:{number:02}")
        before = set(Folder(van).logbook.days)
        ended = call(name, van, *at, "--by", "ada", *rest)
        is_harmless(ended)
        if ended.code:
            assert ended.err.strip(), name
            continue
        kept += 1
        assert squeezed(legible(text))[:200] in squeezed(ended.out) or name != "note"
        assert before <= set(Folder(van).logbook.days)
    assert kept >= 12
    acts = [entry.act for day in Folder(van).logbook.days.values() for entry in day.entries]
    assert sum(text in act for act in acts) >= 12
    assert not Folder(van).broken
    data = b"".join(path.read_bytes() for path in van.rglob("*.toml"))
    # The joiners belong to the spelling of several languages and stay as typed in the file.
    assert not STEERS.search(re.sub("[\u200c\u200d\r]", "", data.decode()))
    for word in ("task", "why", "then", "begin", "log", "sign-in"):
        is_harmless(call(word, van, text))
    is_harmless(call(text))
    is_harmless(call("report", text, van))
    is_harmless(call("day", van, "--at", text))
    is_harmless(call("hazards", van, text))


@slow
def test_names_of_files_and_folders_show_as_typed(call: Shell, van: Path, text: str) -> None:
    name = "n" + text.replace("/", "|").replace("\0", "0")[:60]
    for place in ("components", "days/2026", "."):
        (van / place / f"{name}.toml").write_text("x = \n")
    ended = call("check", van, *AT)
    is_harmless(ended)
    assert squeezed(legible(name)) in squeezed(ended.out)
    is_harmless(call("fold", van))
    moved = van.rename(van.with_name(name))
    for command in ("check", "day", "copies"):
        is_harmless(call(command, moved, *(AT if command != "copies" else ())))
    assert not [p for p in moved.iterdir() if p.name.startswith(LOCK_NAME) and p.is_dir()]


# --- screens and pictures ------------------------------------------------------------------------


@slow
async def test_the_screens_show_it_and_a_picture_holds_it_as_text(van: Path, text: str) -> None:
    app = open_app(van, Watch())
    async with app.run_test(size=(100, 40)) as pilot:
        await reads(pilot, "Sat 2 May 2026")
        pages = ""
        for key in ("f2", "f3", "f4", "f5", "f6", "f7", "m"):
            await pilot.press(key)
            await pilot.pause(0.05)
            assert not STEERS.search(seen(app).replace("\n", ""))
            pages += seen(app)
        svg = app.export_screenshot(title=legible(text))
        assert app.is_running
    word = max(re.findall(r"[^\W\d_]+|[^\w\s]+", legible(text)[:12]), key=len)
    assert word in pages
    root = ET.fromstring(svg)
    tags = {each.tag.rpartition("}")[2] for each in root.iter()}
    assert not tags & {"script", "a", "image", "foreignObject"}
    assert not STEERS.search("".join(root.itertext()).replace("\n", ""))


@slow
async def test_the_rows_the_sheet_and_the_forms_of_pieces_show_it(van: Path, text: str) -> None:
    app = open_app(van, Watch())
    async with app.run_test(size=(100, 40)) as pilot:
        await reads(pilot, "Sat 2 May 2026")
        await pilot.press("f3", "right")
        page = app.screen
        rows = page.query_one("#tree", RowList)
        shown = ""
        # The row, its sheet, the form of one alone; of all; of the task; the settings.
        for row, keys in (
            ("piece frame/ribs", "right"), ("piece frame/ribs/2", "enter"), ("", "e"),
            ("piece frame/ribs", "e"), ("frame/a", "e"), ("frame", "o"), ("", "enter"),
        ):  # fmt: skip
            if row:
                while app.screen is not page:
                    app.pop_screen()
                    await pilot.pause(0.05)
                assert rows.go_to(row)
            await pilot.press(keys)
            await pilot.pause(0.1)
            assert app.is_running
            assert not STEERS.search(seen(app).replace("\n", ""))
            shown += seen(app)
    word = max(re.findall(r"[^\W\d_]+|[^\w\s]+", legible(text)[:12]), key=len)
    assert shown.count(word) > 12
