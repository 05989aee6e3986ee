"""The keys of all pages: none does two things, each stands beside its word."""

from __future__ import annotations

from collections import Counter

from textual.binding import Binding
from textual.screen import Screen

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.screens import PAGES
from crewboard.terminal.screens.hours import HoursPage
from crewboard.terminal.screens.sorting import SortingPage
from crewboard.terminal.screens.task_sheet import TaskSheetPage


def every_page() -> list[type[Screen[None]]]:
    return [*(entry.load() for entry in PAGES), TaskSheetPage, HoursPage, SortingPage]


def keys_of(page: type[Screen[None]]) -> list[tuple[str, str]]:
    """Each key that the page itself binds, with what it does."""
    return [
        (key, each.action)
        for each in page.BINDINGS
        if isinstance(each, Binding)
        for key in each.key.split(",")
    ]


def test_no_key_does_two_things_on_one_page() -> None:
    for page in every_page():
        does: dict[str, set[str]] = {}
        for key, action in keys_of(page):
            does.setdefault(key, set()).add(action)
        clashes = {key: actions for key, actions in does.items() if len(actions) > 1}
        assert not clashes, f"{page.__name__}: {clashes}"


def test_no_page_takes_a_key_from_the_app() -> None:
    app_keys = {
        key
        for each in CrewboardApp.BINDINGS
        if isinstance(each, Binding)
        for key in each.key.split(",")
    }
    for page in every_page():
        taken = {key for key, _ in keys_of(page)} & app_keys
        assert not taken, f"{page.__name__}: {taken}"


def test_no_bare_letter_is_bound_before_an_input_could_take_it() -> None:
    for page in every_page():
        for each in page.BINDINGS:
            if isinstance(each, Binding) and each.priority:
                assert all(len(key) > 1 for key in each.key.split(",")), page.__name__


def test_every_key_on_the_screen_is_the_first_letter_of_its_word_or_stands_before_it() -> None:
    for page in every_page():
        words = Counter(
            each.key.split(",")[0]
            for each in page.BINDINGS
            if isinstance(each, Binding) and each.show and each.description
        )
        assert all(count == 1 for count in words.values()), page.__name__


# Deeds that many screens have: one key each, which does nothing else on any of them.
SAME_EVERYWHERE = {
    "action_add": "a",
    "action_remove": "delete",
    "action_release": "v",
    "action_reading": "r",
    "action_expect": "z",
    "action_sign_in": "s",
    "action_begin": "b",
    "action_note": "n",
}


def test_the_same_deed_has_the_same_key_on_every_screen() -> None:
    for page in every_page():
        for key, action in keys_of(page):
            wanted = SAME_EVERYWHERE.get(f"action_{action}", key)
            assert key == wanted, f"{page.__name__}: {action} is {key}, elsewhere {wanted}"
