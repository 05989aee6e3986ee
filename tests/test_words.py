"""One word for one thing: in no text of the house, nor of the hazard sheets, a word that was
given up for a better one. The texts are read from the source, so nothing has to be run."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.toml.decode import parse_toml
from tests.house_graph import HOUSE, nodes_of

# What is not said, and what is said for it. Each is looked for in texts of several words.
WORDS = {
    r"\blets go\b|\blet the hold go|lets? (?:a|the) hold go": "frees (a task), releases (a hold)",
    r"\bcourses\b|played the rest": "trial runs",
    r"\b(?:dry|glue|cure|soak|bend set|clamp) of \d|\d day (?:dry|cure|glue)": "drying, 2 days",
    r"make the most of it|\bfor long\b": "what it is, and the minutes",
    r"hangs on a wire": "is stuck to a live wire",
    r"nothing stands before": "ready now",
    r"\bboard of this moment": "as things stand now",
    r"Leave alone, setting|[Ll]eft setting": "on hold",
    r"\bis held\b(?! or)|nothing is held|[Ww]aiting or held|held after all": "on hold, takes place",
    r"waiting for (?:an?|the) (?:inspection|decision|delivery|approval|weather)\b": "awaiting ...",
    r"\bMend:": "What to do:",
    r"\b[Tt]ak(?:e|es|ing|en) (?:\S+ ){0,5}?(?:out\b(?! of it)|away\b)": "remove, delete",
    r"\b[Tt]ak(?:e|es|ing|en) (?:\S+ )?up again|\bto be taken up\b|[Tt]ake up which": "pick up",
    r"not (?:kept|saved) beside save|\bnot kept yet|\bkept in (?:the plan|crew\.toml)": "saved",
    r"goes out of (?:the plan|\S+\.toml)": "is removed from",
    r"Esc leave|leave the form|[Qq] leaves|leave Crewboard": "cancel, quit",
    r"Enter (?:accept|takes?)\b": "Enter OK",
    r"\bWho begins\b|Wants \{|Wants 1": "Who works on ...? Needs ...",
    r"nobody of the crew|is not of the crew": "nobody in the crew",
    r"Who writes\?|nobody in particular": "your name, no name",
    r"\bcame or left\b|\bwill (?:not )?come\b(?! back)|\bcomes? only at": "signed in, expected",
    r"\bnot said:": "no answer:",
    r"\bdangers\b|\bone danger\b": "hazards",
    r"\b[Pp]apers?\b(?= (?:is|are) here|, and)|hold papers|renew a paper|laboratory's paper": (
        "certificate, report"
    ),
    r"lines? of the logbook|logbook has no line|(?:a|with) new line(?! )|[Bb]oth lines": "entry",
    r"see line \{|with entry \{|corrects entry \{": "no ids: who and when",
    r"if nothing ever waited|told from chance": "with people always free, no clear gain",
    r"counts only from": "clock runs only at 10 °C or above",
    r"\bis under way since": "has been under way since",
    r"[Ww]hy it stands where|What then\b": "Why, What comes next",
    r"needs beside|left on \(": "works only with, such as 2026-05-02",
    r"\bcan happen\b|no danger is named": "risks, no hazards listed for",
    r"First help; |what is worth keeping|anything worth keeping": "Help first, worth noting",
    r"\}%": "97 %",
    r"crewboard picture\b": "crewboard screenshot",
}
# Of one word alone, as a state or a label.
ALONE = {"held": "on hold", "Held": "On hold", "papers": "certificates"}
# Not words for people: what a page's look is told in, what another program is told.
NOT_WORDS = ("paper/style.py", "paper/wall.py", "paper/page.py")
BANNED = re.compile("|".join(f"(?P<w{n}>{pattern})" for n, pattern in enumerate(WORDS)))


def better_word(text: str) -> str:
    """What is said for what stands in the text; empty where nothing does."""
    if " " not in text:
        return ALONE.get(text, "")
    bad = BANNED.search(text)
    return list(WORDS.values())[int((bad.lastgroup or "w0")[1:])] if bad else ""


def texts_of(path: Path) -> Iterator[tuple[int, str]]:
    """Every text of a file with its line; of one with values in it the values as "{...}"."""
    nodes = nodes_of(path)
    within, told = set[int](), set[int]()
    for node in nodes:
        if isinstance(node, ast.JoinedStr):
            within |= {id(part) for part in node.values}
            parts = (part.value if isinstance(part, ast.Constant) else "{}" for part in node.values)
            yield node.lineno, "".join(map(str, parts))
        elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            told.add(id(node.value))  # what stands by itself describes
    passed = within | told
    for node in nodes:
        if (
            isinstance(node, ast.Constant)
            and id(node) not in passed
            and isinstance(node.value, str)
        ):
            yield node.lineno, node.value


@cache
def house() -> tuple[Path, ...]:
    """The files that speak to people."""
    files = sorted(HOUSE.rglob("*.py"))
    return tuple(f for f in files if f.relative_to(HOUSE).as_posix() not in NOT_WORDS)


def test_no_text_of_the_house_has_a_word_that_was_given_up() -> None:
    texts = ((path, line, text) for path in house() for line, text in texts_of(path))
    wrong = [
        f"{path.relative_to(HOUSE)}:{line}: {text!r}: say: {better}"
        for path, line, text in texts
        if (better := better_word(text))
    ]
    assert not wrong, "\n".join(wrong)


def test_no_hazard_sheet_has_a_word_that_was_given_up() -> None:
    sheets = {path.name: sheet(path) for path in sheet_files()}
    texts = ((name, text) for name, sheet in sheets.items() for text in within_sheet(sheet))
    wrong = [
        f"{name}: {text}: say: {better}" for name, text in texts if (better := better_word(text))
    ]
    assert not wrong, "\n".join(wrong)


def test_a_sheets_number_stands_in_its_sentence_and_not_behind_it() -> None:
    loose = [
        f"{path.name}: {number['says']}"
        for path in sheet_files()
        for number in sheet(path).get("numbers", {}).values()
        if re.search(
            r"\b(?:after|for|within|by|than|least|most|from|above|below|this)$", number["says"]
        )
    ]
    assert not loose


def test_nothing_that_was_recalled_bears_a_reading_date() -> None:
    for path in sheet_files():
        for values in tables_of(sheet(path)):
            assert not ("recalled" in str(values.get("edition")) and "read" in values), path.name


def test_a_rule_of_the_crews_own_was_not_read_anywhere() -> None:
    from crewboard.folder.read.hazard_sheets import built_in_sheet
    from crewboard.telling.hazard_sheet import number_in_words

    hot_work = built_in_sheet("hot-work")
    assert hot_work is not None
    told = {n.mark: number_in_words(hot_work, n) for n in hot_work.numbers}
    assert ", read " in told["verified"]
    assert ", read " not in told["crew's rule"]


@pytest.mark.parametrize(
    "text",
    [
        '"Hang the doors" is held, until 13:48',
        "its finish lets go 3 tasks",
        "take it out",
        "{}% done",
    ],
)
def test_the_words_that_were_given_up_are_found(text: str) -> None:
    assert better_word(text)
    assert better_word("held")


@pytest.mark.parametrize(
    "text", ["frees 3 tasks", "on hold until 13:48", "97 % passed", "the chain that held it up"]
)
def test_what_is_said_for_them_is_not(text: str) -> None:
    assert not better_word(text)


def sheet_files() -> list[Path]:
    return sorted((HOUSE / "hazards").glob("*.toml"))


@cache
def sheet(path: Path) -> dict[str, Any]:
    """The values of a hazard sheet."""
    values = parse_toml(path.read_bytes())
    assert isinstance(values, dict)
    return values


def within_sheet(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for inner in value.values():
            yield from within_sheet(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from within_sheet(inner)


def tables_of(value: Any) -> Iterator[dict[str, Any]]:
    if isinstance(value, dict):
        yield value
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    for inner in inside:
        yield from tables_of(inner)
