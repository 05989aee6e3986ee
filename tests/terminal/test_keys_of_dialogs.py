"""The keys of dialogs: at every foot, in the same few words; F1 says them at length."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from textual.widgets import Static

from crewboard.logbook.acts import HoldStarted
from crewboard.order.admit.refusal import Refusal
from crewboard.order.safety.checks import checks_of
from crewboard.plan.duration import Duration
from crewboard.telling.line import Line
from crewboard.telling.pictures import PictureTold
from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.dialogs.ask import AskLine, AskSpan
from crewboard.terminal.dialogs.checks import AskedOnce, ChecksDialog
from crewboard.terminal.dialogs.closing import ClosingDialog
from crewboard.terminal.dialogs.dialog import Confirm, Dialog, Panel
from crewboard.terminal.dialogs.dictated import DictatedDialog
from crewboard.terminal.dialogs.filled_sheet import FilledSheet
from crewboard.terminal.dialogs.note import About, NoteDialog
from crewboard.terminal.dialogs.numbered import PickNumbered
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickOrName, PickSeveral
from crewboard.terminal.dialogs.pictures import PicturesDialog
from crewboard.terminal.dialogs.reckoned import ReckonedCard
from crewboard.terminal.dialogs.refusal import RefusalDialog
from crewboard.terminal.dialogs.who_is_here import WhoIsHere
from crewboard.terminal.doing.cards import CardPanel
from crewboard.terminal.doing.finish import FinishDialog
from crewboard.terminal.doing.hold import HoldDialog
from crewboard.terminal.doing.paper import WrittenPanel
from crewboard.terminal.doing.talk import TalkPanel
from crewboard.terminal.explained import key_and_word
from crewboard.terminal.forms.fields import Typed
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.longer import WriteText
from crewboard.terminal.forms.picked import PickSome
from crewboard.terminal.forms.reckon_form import ReckonForm
from crewboard.terminal.planning.task_table import TaskTable
from crewboard.terminal.screens import PAGES
from crewboard.trade.kinds import kind_named
from crewboard.trade.reckoning import Reckoning
from tests.terminal.every_key import every_dialog
from tests.terminal.shop import SATURDAY, asked, make_shop, open_app, reads, seen, until

# What the keys of a dialog are called at its foot. Enter has an own verb where it does the deed
# that the dialog is for.
ENTER = {"OK", "next", "next row", "pick", "save", "save with the reason", "try again", "finish"}
ENTER |= {"open", "close the day", "close with a reason", "throw away", "remove", "reckon", "keep"}
WORDS = {
    "Enter": ENTER,
    "Esc": {"cancel"},
    "Ctrl+S": {"save", "save elsewhere"},
    "Space": {"mark"},
    "Del": {"does not apply"},
    "Tab": {"next", "next cell", "about"},
    "Backspace": {"back"},
}
# Each letter's own word stands at its foot, or what more is said of it there.
LETTERS_AT_FOOT: dict[str, str | tuple[str, ...]] = {
    "c": "check",
    "e": ("edit: more time", "edit"),
    "g": ("the whole talk", "card", "the whole sheet"),
    "i": "in/out",
    "o": "other",
    "s": "sign",
    "v": "release",
    "w": "why",
    "y": "other name",
}
ABSTRACT = {"_Pick", "_Asking"}
TITLE, ABOUT = "Plumb the frame", (About("the task"), About("the day"))


def examples(app: CrewboardApp) -> list[Dialog[Any]]:
    """Each dialog as it can stand on the screen; several of one that has several feet."""
    board, now, here = app.board, SATURDAY, Choice("ada", "Ada Marsh")
    hold = next(iter(board.holds.values()))
    asked = [AskedOnce(check) for check in checks_of(board, "frame/weld")]
    disk, lead = Refusal("disk", "the disk is full"), Refusal("lead", "no", yields=True)
    return [
        AskLine(TITLE),
        CardPanel([asked[0].check.hazard]),
        AskSpan(TITLE),
        ChecksDialog(TITLE, board, asked, signs=("ada",)),
        ClosingDialog([Line("rags")], TITLE, in_the_way=True),
        ClosingDialog([Line("rags")], TITLE, in_the_way=False),
        Confirm(TITLE, ["a line"]),
        DictatedDialog(lambda _: [], lambda _: [Line("nothing")]),
        Confirm("Remove?", ["a line"], yes="remove"),
        FilledSheet(TITLE, [], lambda _: [], _keep_nothing, draft={}, keep_draft=lambda _: True),
        FinishDialog(TITLE, now, lambda _: [Line("No hold follows.")]),
        Form(TITLE, [Typed("a", "a")], lambda _: []),
        HoldDialog(board, [hold]),
        NoteDialog(ABOUT, pictures=True),
        NoteDialog(ABOUT[:1], pictures=False),
        Panel(TITLE, [Line("a line")]),
        PickNumbered(TITLE, [here], again=here),
        PickOne(TITLE, [here]),
        PickOrName(TITLE, [here], new="a new place"),
        PickSeveral(TITLE, [here]),
        PickSome(TITLE, [here]),
        PicturesDialog([PictureTold("pictures/a.jpg", ())] * 2, "/nowhere"),
        ReckonForm(TITLE, kind_named("length"), {}, {}, lambda _: None),
        ReckonedCard(TITLE, Reckoning(("2 m",)), lambda _: [Line("2 m")], "metric"),
        ReckonedCard(TITLE, Reckoning(("2 m",)), lambda _: [Line("2 m")], "metric", ways=3),
        RefusalDialog([disk]),
        RefusalDialog([lead], [here]),
        RefusalDialog([Refusal("no", "no")]),
        TalkPanel([Line("a line")]),
        TaskTable(app, "frame"),
        WhoIsHere([here], marked=(), intro="", now=now),
        WriteText(TITLE, "a text"),
        WrittenPanel("/tmp/page.html"),
    ]


async def _keep_nothing(_: object) -> None:
    return None


def parts_of(foot: str) -> list[tuple[str, str]]:
    """The keys of a foot, each with its word."""
    parts = (part.strip() for part in re.split(r" {3,}", foot))
    return [key_and_word(part) for part in parts if part]


async def test_the_foot_of_every_dialog_says_its_keys_in_the_same_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One walk over all of them in a small window: each foot is there to its end."""
    monkeypatch.setenv("DISPLAY", ":0")  # a browser could be opened
    app = open_app(make_shop(tmp_path / "van"), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        app.record([HoldStarted("clamp", "frame/scrape", "", Duration(minutes=60))])
        dialogs = examples(app)
        for dialog in dialogs:
            await app.push_screen(dialog)
            await until(pilot, lambda d=dialog: d.query("#foot"))  # type: ignore[misc]
            await pilot.pause()
            name, foot = type(dialog).__name__, str(dialog.query_one("#foot", Static).content)
            assert " ".join(foot.split()) in asked(app), f"{name}: cut off at 80 columns"
            for key, word in parts_of(foot):
                if len(key) == 1:
                    assert word.startswith(LETTERS_AT_FOOT[key]), f"{name}: {key} {word}"
                elif key in WORDS:
                    assert word in WORDS[key], f"{name}: {key} {word}"
            if not isinstance(dialog, Panel):
                await pilot.press("f1")
                await until(pilot, lambda: isinstance(app.screen, Panel))
                await pilot.press("escape")
                await until(pilot, lambda d=dialog: app.screen is d)  # type: ignore[misc]
            await app.pop_screen()
    walked = {type(dialog).__name__ for dialog in dialogs}
    assert walked == {dialog.__name__ for dialog in every_dialog()} - ABSTRACT


async def test_a_dialog_that_is_closed_while_it_opens_goes_away_quietly(tmp_path: Path) -> None:
    """As when the program ends, or a burst of keys leaves what it opened: nothing is inside yet."""
    app = open_app(make_shop(tmp_path / "van"), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        app.record([HoldStarted("clamp", "frame/scrape", "", Duration(minutes=60))])
        day = app.screen
        for dialog in examples(app):
            app.push_screen(dialog)
            app.pop_screen()
            await until(pilot, lambda d=dialog: app.screen is day and not d.is_running)  # type: ignore[misc]
    assert app.return_code in (0, None), "no handler failed"
    for kind in every_dialog():  # so that those to come do the same
        assert not {"on_mount", "on_resize"} & set(vars(kind)), f"{kind.__name__}: opened, fit"


async def test_f1_says_the_keys_of_a_list_and_of_a_form(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("b", "f1")
        await reads(pilot, "Keys", "what has these letters stays", "cancel: nothing is written")
        await pilot.press("escape", "escape", "f3", "a")
        await reads(pilot, "Enter OK")
        await pilot.press("escape", "e")
        await reads(pilot, "Ctrl+S save")
        await pilot.press("f1")
        await reads(pilot, "save: everything in the form at once", "next field")
        await pilot.press("escape")
        await reads(pilot, "Ctrl+S save   Esc cancel")


async def test_capitals_are_taken_as_their_small_letters_but_not_where_text_is_typed(
    tmp_path: Path,
) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("W")
        await reads(pilot, 'Why: "Scrape the frame')
        await pilot.press("escape", "N", "A", "b")
        await until(pilot, lambda: "Ab" in seen(app))


async def test_the_digits_of_the_bottom_line_open_its_pages(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        text = await reads(pilot, "2 Day", "u undo", "/find")
        pages = [entry for entry in PAGES if entry.digit]
        assert all(f"{entry.digit} {entry.short}" in text for entry in pages)
        for digit, name in ((entry.digit, entry.name) for entry in reversed(pages)):
            await pilot.press(digit)
            await until(pilot, lambda name=name: app.page_name == name)  # type: ignore[misc]
