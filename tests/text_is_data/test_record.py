"""Any text is data in the record: what is walked here are the kinds of entries themselves, so that
a new kind, or a new field of one, goes through all of it by itself."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.folder.toml.values import toml_value
from crewboard.legible import legible
from crewboard.logbook.acts import Pictured, Undone
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import KindOfEntry
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.dialogs.pictures import PicturesDialog
from crewboard.terminal.doing.correct import correct
from crewboard.terminal.widgets.rows import RowList
from tests.command.calling import Shell
from tests.folder.a_vehicle import make
from tests.intake.a_camera import png
from tests.long_form import LONG
from tests.naughty import CLASSES, RECORD
from tests.terminal.shop import Watch, open_app, reads, seen, until
from tests.text_is_data.as_shown import AT, SOME, STEERS, is_harmless, slow, squeezed, texts_in

slower = pytest.mark.parametrize("text", CLASSES if LONG else SOME[:2], indirect=True)
slowest = pytest.mark.parametrize("text", CLASSES if LONG else ["hyperlink code"], indirect=True)
TEXTS = ("text", "why", "texts")
KNOWN = {"piece": "frame/ribs/1", "component": "frame", "task": "frame/b", "length": "2 m"}


def typed(kind: KindOfEntry, text: str) -> list[str]:
    """The command of a kind, with the text in each of its fields that is text."""
    offered = kind.command
    assert offered is not None
    words, options = [], []
    for field in kind.fields:
        if field.name in offered.words:
            words.append(_word(field, text))
        elif field.name == "minute":
            continue  # a place in a recording, of which there is none: refused, as shown below
        elif field.kind in TEXTS or field.needed:
            options += [f"--{field.option or field.name.replace('_', '-')}", _word(field, text)]
    return [offered.name, *options, "--", *words]


def _word(field: EntryField, text: str) -> str:
    if field.kind == "one of":
        return next(iter(field.words))
    return "frame/one" if field.name == "into" else KNOWN.get(field.kind, text)


@slow
def test_every_command_of_the_record_keeps_any_text_or_refuses_it_in_a_sentence(
    call: Shell, van: Path, text: str
) -> None:
    day = van / "days/2026/2026-05-02.toml"
    kept: set[type] = set()
    typable = [kind for kind in RECORD if kind.command is not None]
    for number, kind in enumerate(typable):
        day.write_text("date = 2026-05-02\n\n[entries]\n")
        name, *rest = typed(kind, text)
        at = ("--by", "ada", "--at", f"2026-05-02T10:{number:02}")
        ended = call(name, van, *at, *rest)
        is_harmless(ended)
        if ended.code:
            assert "picture" in ended.err or kind.act is Undone, (name, ended.err)
            continue
        (entry,) = Folder(van).logbook.days[date(2026, 5, 2)].entries
        kept.add(kind.act)
        for field in kind.fields:
            if field.kind in ("text", "why") and field.name != "minute":
                assert getattr(entry.act, field.name) in (text, text.strip()), field
        assert text not in ended.out or not STEERS.search(text)
    name_others = {Pictured, Undone}  # a picture, something temporary: there is none of that name
    assert kept == {kind.act for kind in typable} - name_others
    assert len(typable) >= len(RECORD) - 2, "the program itself writes what it took in or reckoned"


@slow
def test_a_minute_that_is_none_is_refused_in_a_sentence(call: Shell, van: Path, text: str) -> None:
    ended = call("found", van, "said so", "--minute", text, "--by", "ada", *AT)
    is_harmless(ended)
    assert ended.code
    assert "no recording is named" in ended.err


@slower
async def test_the_pages_of_the_record_show_it(van: Path, text: str) -> None:
    app = open_app(van, Watch(), by="ada")
    shown = ""

    def look() -> None:
        nonlocal shown
        assert app.is_running
        assert not STEERS.search(seen(app).replace("\n", ""))
        shown += seen(app)

    async with app.run_test(size=(110, 40)) as pilot:
        await reads(pilot, "Sat 2 May 2026")
        # The fabric, a piece's sheet, what can be jotted down of it; findings, what comes of one,
        # its pictures; what waits to be sorted, what is asked of it.
        for keys in (
            ("0",), ("down", "down"), ("enter",), ("j",), ("escape", "escape"), ("tab",),
            ("down", "down"), ("enter",), ("escape",), ("z",), ("escape",), ("end",),
            ("escape", "2", "z"), ("enter",), ("escape",), ("o",), ("escape",), ("z",),
        ):  # fmt: skip
            await pilot.press(*keys)
            await pilot.pause()
            look()
    word = max(re.findall(r"[^\W\d_]+|[^\w\s]+", legible(text)[:12]), key=len)
    assert shown.count(word) > 20


@slowest
async def test_every_kind_is_corrected_in_a_form_that_shows_it(van: Path, text: str) -> None:
    """The form of each kind with the text in every field; kept as it is, nothing is changed."""
    app = open_app(van, Watch(), by="ada")
    async with app.run_test(size=(110, 60)) as pilot:
        await reads(pilot, "Sat 2 May 2026")
        (day,) = app.workbench.logbook.days.values()
        before = (van / "days/2026/2026-05-02.toml").read_bytes()
        for kind in RECORD:
            entry = next(entry for entry in day.entries if isinstance(entry.act, kind.act))
            app.run_worker(correct(app, day, entry))
            await until(pilot, lambda: isinstance(app.screen, Dialog))
            await pilot.pause()
            assert not STEERS.search(seen(app).replace("\n", "")), kind.word
            app.pop_screen()
            await until(pilot, lambda: not isinstance(app.screen, Dialog))
        assert (van / "days/2026/2026-05-02.toml").read_bytes() == before


@slow
def test_the_book_as_text_and_as_json_shows_it(call: Shell, van: Path, text: str) -> None:
    for of in ((), ("--of", "frame")):
        ended = call("book", van, *of, *AT)
        is_harmless(ended)
        told = list(texts_in(call("book", van, *of, "--json", *AT).form))
        assert any(text in each for each in told)
        assert squeezed(legible(text))[:200] in squeezed(ended.out)
    said = call("found", van, *AT, "--by", "ada", "--", f"x {text}")
    is_harmless(said)


def file_names() -> list[str]:
    """A name of each class that this system can hold and that leads nowhere else."""
    names = [text.replace("/", "|").replace("\0", "|").strip()[:60] for text in CLASSES.values()]
    names += ["-rf", "--help", ".hidden", "a'b\"c", "n" * 240, "line\nbreak", "<script>x<|script>"]
    return [name for name in dict.fromkeys(names) if not {":", "\\"} & set(name)]


@pytest.fixture
def full(tmp_path: Path) -> Path:
    """A folder whose pictures have these names, each taken in, captioned and cited."""
    van = make(tmp_path / "van")
    lines = []
    for number, name in enumerate(file_names()):
        for ending, kind in (
            ("a.png", 'kind = "taken in", file = {}, called = {}'),
            ("b.png", 'kind = "picture", file = {}, component = "frame", words = {}'),
            ("c.png", 'kind = "found", seen = "x", place = "", pictures = [{}], thought = {}'),
        ):  # fmt: skip
            file = van / "pictures" / f"{name}{ending}"
            file.parent.mkdir(exist_ok=True)
            file.write_bytes(png())
            spelled = toml_value(f"pictures/{file.name}")
            said = kind.format(spelled, toml_value(name))
            lines.append(
                f'z{ending[0]}{number:06} = {{ at = 2026-05-02T09:30:00, by = "ada", {said} }}\n'
            )
    with (van / "days/2026/2026-05-02.toml").open("a", encoding="utf-8", newline="") as day:
        day.writelines(lines)
    return van


def test_files_of_any_name_are_named_as_text_by_every_command(call: Shell, full: Path) -> None:
    assert [fault for fault in Folder(full).faults if fault.code == "picture"] == []
    for name, *rest in (
        ("check",), ("waiting",), ("gaps",), ("fabric",), ("log",), ("day",), ("book",),
        ("book", "--of", "frame"), ("day-end",),
    ):  # fmt: skip
        ended = call(name, full, *rest, *AT)
        assert ended.code in (0, 1), (name, ended.err)
        is_harmless(ended)
        given = call(name, full, *rest, *AT, "--json")
        assert given.out.isascii()
    told = squeezed(call("waiting", full, *AT).out)
    for name in file_names():
        assert squeezed(legible(f"pictures/{name}a.png")) in told, name
        caption = ("caption", full, *AT, "--by", "ada", "--", f"pictures/{name}a.png")
        is_harmless(call(*caption))
    assert call("waiting", full, *AT).out == "", "each of them was sorted by its name"
    for file in (full / "pictures").iterdir():
        file.unlink()
    told = call("gaps", full, *AT).out
    assert squeezed(legible(f"pictures/{file_names()[0]}a.png")) in squeezed(told)
    assert not STEERS.search(told)


async def test_files_of_any_name_are_shown_on_the_screens(full: Path) -> None:
    app = open_app(full, Watch(), by="ada")
    async with app.run_test(size=(110, 40)) as pilot:
        await pilot.press("z")
        await until(pilot, lambda: app.screen.query(RowList) and app.screen.query_one(RowList).rows)
        assert len(app.screen.query_one(RowList).rows) == len(file_names())
        await pilot.press("z")
        await until(pilot, lambda: isinstance(app.screen, PicturesDialog))
        for _ in file_names():
            await pilot.pause()
            assert not STEERS.search(seen(app).replace("\n", ""))
            await pilot.press("right")
        dialog = app.screen
        assert isinstance(dialog, PicturesDialog)
        assert dialog.at == len(file_names()) - 1
