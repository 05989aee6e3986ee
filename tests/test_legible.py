"""Text from a file shows what is in it and does nothing else."""

from __future__ import annotations

import os
import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.legible import legible


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain text, as typed", "plain text, as typed"),
        ("[bold]x[/] *y* <b> =1+1 &amp;", "[bold]x[/] *y* <b> =1+1 &amp;"),
        ("\x1b[31mred\x1b]52;c;eA==\x07", "␛[31mred␛]52;c;eA==␇"),
        ("a\0b\x7f", "a␀b␡"),
        ("\x9b31m\x9d8;;", "<U+009B>31m<U+009D>8;;"),
        ("abc\u202egnp.exe", "abc<U+202E>gnp.exe"),
        ("\u2066x\u2069\u200f", "<U+2066>x<U+2069><U+200F>"),
        ("ma\u200bra\ufeff\u00ad", "ma<U+200B>ra<U+FEFF><U+00AD>"),
        ("a\u2028b\u2029c", "a<U+2028>b<U+2029>c"),
        ("\ud800", "<U+D800>"),
        ("\u3164\u115f\u2800", "<U+3164><U+115F><U+2800>"),
        ("x\U000e0041\U000e0100", "x<U+E0041><U+E0100>"),
        ("Größe é 日本 🔧", "Größe é 日本 🔧"),
        ("tab\tline\r\n", "tab␉line␍␊"),
    ],
)
def test_what_steers_or_hides_is_shown_as_a_mark(text: str, shown: str) -> None:
    assert legible(text) == shown


def test_lines_and_tabs_stay_where_several_lines_are_shown() -> None:
    assert legible("one\ttwo\nthree\x1b\r", lines=True) == "one\ttwo\nthree␛␍"


@given(st.text(alphabet=st.characters()), st.booleans())
def test_nothing_in_a_legible_text_steers_and_once_more_changes_nothing(
    text: str, lines: bool
) -> None:
    shown = legible(text, lines=lines)
    steering = {"Cc", "Cf", "Cs", "Zl", "Zp"}
    kept = "\n\t" if lines else ""
    assert not [c for c in shown if unicodedata.category(c) in steering and c not in kept]
    assert legible(shown, lines=lines) == shown


def test_of_every_character_there_is_each_is_shown_as_itself_or_as_a_mark() -> None:
    # Unicode's general categories, as this Python's unicodedata has them.
    long = bool(os.environ.get("CREWBOARD_LONG"))
    rare = range(0x3000, sys.maxunicode + 1, 1 if long else 23)
    for code in (*range(0x3000), *rare):
        char = chr(code)
        shown = legible(char)
        if unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp"):
            assert shown in (f"<U+{code:04X}>", chr(0x2400 + code), "␡")
        else:
            assert shown in (char, f"<U+{code:04X}>")
