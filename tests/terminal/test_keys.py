"""The keys of all pages and dialogs: a letter does one thing, wherever it is bound."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

from textual.binding import Binding

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.letters import AT_ONCE, COMES_OF_IT, LETTERS
from tests.terminal.every_key import all_keys, every_dialog, every_page, keys_of

HOUSE = Path(__file__).parents[2]


def test_a_letter_does_one_thing_on_every_page_and_in_every_dialog() -> None:
    letters = [(place, key, deed) for place, key, deed in all_keys() if len(key) == 1]
    assert len(letters) > 60, "they are found"
    dialogs = {dialog.__name__ for dialog in every_dialog()}
    for place, key, deed in letters:
        if key.isdigit():  # the pages, by the number of their F-key; the answers of a dialog
            assert deed == ("accept" if place in dialogs else "open"), f"{place}: {key} does {deed}"
        else:
            assert key in LETTERS, f"{place}: {key} ({deed}) is no letter of the map"
            assert deed == LETTERS[key].deed, f"{place}: {key} does {deed}"


def test_every_letter_of_the_map_is_bound_and_no_deed_has_two() -> None:
    bound = {key for _, key, _ in all_keys()}
    assert set(LETTERS) <= bound
    assert max(Counter(letter.deed for letter in LETTERS.values()).values()) == 1


def test_a_deed_with_a_letter_is_done_by_no_other_letter() -> None:
    letter_of = {letter.deed: key for key, letter in LETTERS.items()}
    for place, key, deed in all_keys():
        if len(key) == 1 and deed in letter_of:
            assert key == letter_of[deed], f"{place}: {deed} is {key}"


# Keys with Ctrl, and those that are no letters, with what each may do.
SAME = {
    "ctrl+s": {"save", "keep", "elsewhere"},  # save; where that cannot be, save elsewhere
    "ctrl+p": {"paper", "open"},  # print; open the written page to print it
    "ctrl+g": {"guest"},
    "ctrl+r": {"again"},
    "equals_sign": {"reckon", "accept", "like_last"},  # of a task; the same again in a list
    "delete": {"remove", "clear", "waive"},  # strike out what the cursor is on
    "escape": {"back", "leave"},
}


def test_the_keys_of_the_record_are_those_of_the_map_and_each_says_one_thing() -> None:
    """By the whole deed, with what it is told to jot down or to make of a finding."""
    deeds = {f"jot('{word}')": key.lower() for word, key in AT_ONCE.items()}
    deeds |= {f"comes_of_it('{way}')": key.lower() for way, key in COMES_OF_IT.items()}
    assert len(set(deeds.values())) == len(deeds)
    jots = set()
    for page in [*every_page(), *every_dialog()]:
        for binding in page.BINDINGS:
            assert isinstance(binding, Binding)
            for key in binding.key.split(","):
                if key in deeds.values() or binding.action in deeds:
                    assert deeds.get(binding.action) == key, f"{page.__name__}: {key}"
                    jots.add((page.__name__, binding.action))
    for name in ("TaskSheetPage", "PieceSheetPage", "VehiclePage", "FabricPage", "WorkDayPage"):
        assert {(name, deed) for deed in deeds if deed.startswith("jot")} <= jots
    assert {("FindingsPage", deed) for deed in deeds} <= jots


def test_a_key_with_ctrl_does_one_thing_too() -> None:
    for place, key, deed in all_keys():
        assert deed in SAME.get(key, {deed}), f"{place}: {key} does {deed}"


def test_no_key_does_two_things_on_one_page() -> None:
    for page in [*every_page(), *every_dialog()]:
        does: dict[str, set[str]] = {}
        for key, deed in keys_of(page):
            does.setdefault(key, set()).add(deed)
        clashes = {key: deeds for key, deeds in does.items() if len(deeds) > 1}
        assert not clashes, f"{page.__name__}: {clashes}"


def test_no_page_takes_a_key_from_the_app() -> None:
    app_keys = {key for key, _ in keys_of(CrewboardApp)}
    for page in every_page():
        taken = {key for key, _ in keys_of(page)} & app_keys
        assert not taken, f"{page.__name__}: {taken}"


def test_no_bare_letter_is_bound_before_an_input_could_take_it() -> None:
    for page in [*every_page(), *every_dialog()]:
        for binding in page.BINDINGS:
            if isinstance(binding, Binding) and binding.priority:
                assert all(len(key) > 1 for key in binding.key.split(",")), page.__name__


def test_every_key_on_the_screen_is_shown_once() -> None:
    for page in every_page():
        shown = Counter(
            binding.key.split(",")[0]
            for binding in page.BINDINGS
            if isinstance(binding, Binding) and binding.show and binding.description
        )
        assert all(count == 1 for count in shown.values()), page.__name__


def test_the_map_of_letters_for_developers_is_that_of_the_program() -> None:
    text = (HOUSE / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.partition("### Keys")[2].partition("\n#")[0]
    told = dict(re.findall(r"`([a-z])` ([^,;|`]+?)(?=[,;|]|\.?\n|$)", section))
    assert {key: word.strip() for key, word in told.items()} == {
        key: letter.word for key, letter in LETTERS.items()
    }
