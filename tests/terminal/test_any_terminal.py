"""Whatever a terminal sends, says of itself or shrinks to never ends the screens."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest

from crewboard.terminal import leave_out_unfit
from tests.long_form import LONG
from tests.terminal.shop import day_file, make_shop, open_app, reads, seen, until

if os.name != "posix":
    pytest.skip("needs a pseudo-terminal", allow_module_level=True)

from crewboard.terminal.posix_driver import Typing
from tests.terminal.real_terminal import RealTerminal, write_a_note

AT = "2026-05-02T10:00"
# What no keyboard should send: half letters, letters of other codes, mouse reports in the forms of
# 1986 and later, key reports of keys that there are not, sizes that no window has.
ODD = [
    b"\xff\xe9\x80",
    b"caf\xe9",
    b"\xc3",
    b"\x1b[M !!",
    b"\x1b[M \xc8\xc3",
    b"\x1b[M \xc3\xa9",
    b"\x1b[M#\xff\xff",
    b"\x1b[32;200;50M",
    b"\x1b[<0;99999;99999M\x1b[<0;99999;99999m",
    b"\x1b[<64;-5;-5M",
    b"\x1b[<99999999;1;1M",
    b"\x1b[9999999999u",
    b"\x1b[1114112u",
    b"\x1b[55296;1;55296u",
    b"\x1b[97;99999999u",
    b"\x1b[48;0;0;0;0t",
    b"\x1b[48;99999;99999;0;0t",
    b"\x1b[48;1;1;1;1t\x1b[<0;5;5M",
    b"\x1b[?2026;9$y",
    b"\x1b[99999;99999R",
    b"\x1b" * 40,
    b"\x00\x01\x02\x1c\x1d\x1e\x1f",
    b"\x1b[200~half a paste \xff \x1b[M \xc8\xc3",
    b"\x1b[201~",
]
SETTINGS = [
    {"TERM": "weird", "COLORTERM": "x", "TEXTUAL_COLOR_SYSTEM": "weird", "FORCE_COLOR": "weird"},
    {"TERM": "", "COLORTERM": "", "TEXTUAL_COLOR_SYSTEM": "", "NO_COLOR": "", "FORCE_COLOR": ""},
    {"TEXTUAL_DRIVER": "weird", "TEXTUAL_LOG": "/nowhere/x", "TEXTUAL_DEBUG": "1"},
    {"TEXTUAL_PRESS": "q", "NO_COLOR": "maybe", "TTY_COMPATIBLE": "weird", "COLUMNS": "-5"},
    {"TERM": "xterm-mono", "TEXTUAL_FILTERS": "weird", "TEXTUAL_THEME": "weird", "TZ": "No/Where"},
    {"LC_ALL": "xx_YY.weird", "PYTHONIOENCODING": "ascii", "HOME": "/nowhere", "ESCDELAY": "x"},
    {"TEXTUAL": "devtools,debug", "TEXTUAL_FPS": "x", "TEXTUAL_ANIMATIONS": "x", "COLUMNS": "x"},
]


@pytest.fixture
def van(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van")


def test_what_no_keyboard_should_send_is_passed_over(van: Path) -> None:
    with RealTerminal([str(van), "--at", AT]) as terminal:
        terminal.until("Scrape the frame")
        for number, odd in enumerate(ODD):
            terminal.type(odd)
            terminal.look(0.15)
            assert terminal.lives(), odd
            terminal.type("\x1b")  # whatever it opened, or began to say
            terminal.look(0.15)
            if LONG or number % 6 == 5:
                terminal.type("\x1b")
                terminal.look(0.15)
                write_a_note(terminal, van, f"note {number}")
        terminal.type("q")
        assert terminal.ended() == 0
        assert terminal.is_as_before()


def test_a_letter_of_another_code_spoils_nothing_that_is_typed_with_it(van: Path) -> None:
    with RealTerminal([str(van), "--at", AT]) as terminal:
        terminal.until("Scrape the frame")
        terminal.type("n")
        terminal.until("Enter save")
        terminal.type(b"caf\xe9 and \x1b[M \xc8\xc3tea\r")
        terminal.until_true(lambda: "caf" in day_file(van))
        terminal.type("q")
        assert terminal.ended() == 0
    assert 'text = "caf\ufffd and tea"' in day_file(van)


@pytest.mark.parametrize("seed", range(60 if LONG else 2))
def test_random_bytes_never_end_the_screens_with_a_fault(seed: int, van: Path) -> None:
    chance = random.Random(seed)
    pieces = [*ODD, *(bytes([code]) for code in range(256))]
    with RealTerminal([str(van), "--at", AT], env={"TMPDIR": str(van.parent)}) as terminal:
        terminal.until("Scrape the frame")
        for _ in range(60):
            terminal.type(b"".join(chance.choices(pieces, k=chance.randint(1, 6))))
            terminal.look(0.03)
        if terminal.lives():
            terminal.look(0.5)
        if terminal.lives():
            terminal.signal(15)
        assert terminal.ended() in (0, 128 + 15)  # q is among them
        assert "broke off" not in terminal.words()
        assert "Traceback" not in terminal.words()
        assert terminal.is_as_before()


def test_letters_and_reports_are_told_apart_wherever_they_are_cut() -> None:
    sent = "é漢".encode() + b"\x1b[M \xc8\xc3" + "ü".encode() + b"\x1b[A" + b"x"
    report = sent.index(b"\x1b[M")
    for cut in set(range(len(sent) + 1)) - {report + 1, report + 2}:  # cut there, it is Escape
        typing = Typing()
        assert typing.text(sent[:cut]) + typing.text(sent[cut:]) == "é漢ü\x1b[Ax", cut
    typing = Typing()
    assert typing.text(b"\x1b[M") + typing.pause() + typing.text(b"abc") == "\x1b[Mabc"


@pytest.mark.parametrize("settings", SETTINGS, ids=range(len(SETTINGS)))
def test_no_setting_of_the_terminal_ends_the_screens(settings: dict[str, str], van: Path) -> None:
    with RealTerminal([str(van), "--at", AT], env=settings) as terminal:
        terminal.until("Scrape the frame")
        terminal.look(0.2)
        terminal.type("q")
        assert terminal.ended() == 0
        assert terminal.is_as_before()
    assert not list(van.glob("*.log"))


def test_fit_settings_stay() -> None:
    settings = {"TEXTUAL_COLOR_SYSTEM": "256", "NO_COLOR": "1", "TERM": "weird"}
    kept = dict(settings)
    leave_out_unfit(kept)
    assert kept == settings


def test_a_window_of_one_sign_and_back_keeps_what_was_typed(van: Path) -> None:
    with RealTerminal([str(van), "--at", AT]) as terminal:
        terminal.until("Scrape the frame")
        terminal.type("n")
        terminal.until("Enter save")
        terminal.type("half a ")
        terminal.until("half a ")
        for size in ((1, 1), (2, 1), (1, 40), (300, 1), (0, 0), (1, 1)):
            terminal.resize(*size)
            terminal.look(0.3)
            assert terminal.lives(), size
        so_far = len(terminal.drawn)
        terminal.resize(100, 30)
        terminal.until("half a ", since=so_far)
        terminal.look(0.3)
        terminal.type("sentence\r")
        terminal.until_true(lambda: 'text = "half a sentence"' in day_file(van))
        terminal.type("q")
        assert terminal.ended() == 0


async def test_every_page_and_form_bears_every_size(van: Path) -> None:
    from crewboard.terminal.screens import PAGES

    app = open_app(van)
    async with app.run_test(size=(80, 24)) as pilot:
        for page in PAGES:
            app.action_open(page.name)
            await until(pilot, lambda page=page: app.page_name == page.name)  # type: ignore[misc]
            for size in ((1, 1), (1, 50), (200, 1), (3, 2), (80, 24)):
                await pilot.resize_terminal(*size)
                await pilot.pause()
        app.action_open("vehicle")
        await pilot.press("right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press(*"xyz")
        for size in ((1, 1), (200, 1), (5, 60), (80, 24)):
            await pilot.resize_terminal(*size)
            await pilot.pause()
        await reads(pilot, "Scrape the framexyz")
        await pilot.press(*"abc")
        await reads(pilot, "Scrape the framexyzabc")


async def test_what_was_typed_into_a_form_stays_when_the_folder_changes_under_it(
    van: Path,
) -> None:
    app = open_app(van)
    async with app.run_test(size=(80, 24)) as pilot:
        app.action_open("vehicle")
        await pilot.press("right", "down", "e")
        await reads(pilot, "Edit: Scrape the frame")
        await pilot.press(*"xyz")
        frame = van / "components/frame.toml"
        for text in (frame.read_text().replace("Prime", "Paint"), "name = [", "", None):
            if text is None:
                frame.unlink()
            else:
                frame.write_text(text)
            app.look()
            await pilot.pause()
            assert "Scrape the framexyz" in seen(app)
        await pilot.press("ctrl+s")  # it cannot be kept now; it can be read, and typed on
        await pilot.pause(0.2)
        await reads(pilot, "Scrape the framexyz")
    assert app.return_code in (None, 0)
