"""The keys of dialogs: at every foot, in the same few words; F1 says them at length."""

from __future__ import annotations

import importlib
import pkgutil
import re
from pathlib import Path
from typing import Any

import pytest

import crewboard.terminal
from crewboard.terminal.dialogs.dialog import Confirm, Dialog
from tests.terminal.shop import make_shop, open_app, reads, seen, until

# What Enter, Esc and Ctrl+S may be called; own verbs are those that sign, finish or write down.
ENTER = {"OK", "next row", "pick", "save", "save with the reason", "finish"}
OTHERS = {"Esc": {"cancel"}, "Ctrl+S": {"save"}, "Space": {"mark"}}


def every_dialog() -> list[type[Dialog[Any]]]:
    for module in pkgutil.walk_packages(crewboard.terminal.__path__, "crewboard.terminal."):
        if not module.name.endswith("posix_driver"):
            importlib.import_module(module.name)
    ahead: list[type[Dialog[Any]]] = [Dialog]
    dialogs: list[type[Dialog[Any]]] = []
    while ahead:
        ahead += (kinds := ahead.pop().__subclasses__())
        dialogs += kinds
    return dialogs


def feet_of(dialog: type[Dialog[Any]]) -> list[str]:
    """The foot of the class, and all the texts that its own foot can say."""
    source = Path(importlib.import_module(dialog.__module__).__file__ or "").read_text()
    feet = re.findall(r'"([^"\n]*   [^"\n]*)"', source)
    return [dialog.keys, *feet]


@pytest.mark.parametrize("dialog", every_dialog(), ids=lambda dialog: dialog.__name__)
def test_the_foot_of_every_dialog_says_its_keys_in_the_same_words(
    dialog: type[Dialog[Any]],
) -> None:
    for foot in feet_of(dialog):
        for part in filter(None, re.split(r" {3,}", foot)):
            key, _, word = part.strip().partition(" ")
            if key == "Enter":
                assert word in ENTER, f"{dialog.__name__}: {part}"
            if key in OTHERS:
                assert word in OTHERS[key], f"{dialog.__name__}: {part}"


def test_a_question_of_yes_or_no_names_both_keys() -> None:
    assert Confirm("Sure?", []).foot() == "y yes   n no"


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
        await reads(pilot, "Why: Scrape the frame")
        await pilot.press("escape", "N", "A", "b")
        await until(pilot, lambda: "Ab" in seen(app))


async def test_the_digits_of_the_bottom_line_open_its_pages(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        text = await reads(pilot, "3 Vehicle", "u undo", "/find")
        assert "9 Plan" in text
        for digit, name in ((3, "vehicle"), (5, "crew"), (9, "plan"), (2, "day")):
            await pilot.press(str(digit))
            await until(pilot, lambda name=name: app.page_name == name)  # type: ignore[misc]
