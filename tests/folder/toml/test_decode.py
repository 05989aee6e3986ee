"""What is not TOML ends in one sentence with line and column, whatever the bytes.

The cases are the classes of error of the TOML 1.0.0 grammar (https://toml.io/en/v1.0.0), each with
the line that a person has to look at.
"""

from __future__ import annotations

import os
import random
import time
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.folder.toml import text as text_reading
from crewboard.folder.toml.decode import parse_text, parse_toml
from crewboard.folder.toml.text import MOST_BYTES, BrokenText
from crewboard.legible import legible
from tests.folder.toml.hand_styled import hand_styled

LONG = bool(os.environ.get("CREWBOARD_LONG"))

# (the file, the line to look at, words of the sentence or the hint)
BROKEN = [
    # keys and lines
    ("a = 1\n= 2\n", 2, "does not start with a key"),
    ("a\n", 1, "no = after the key"),
    ("a b = 1\n", 1, "no = after the key"),
    ("a =\n", 1, "value is missing"),
    ("a = # nothing\n", 1, "value is missing"),
    ("a.b. = 1\n", 1, "a key is expected"),
    ("a..b = 1\n", 1, "a key is expected"),
    ("Größe = 1\n", 1, "no = after the key"),
    ("größe = 1\n", 1, "no = after the key"),
    ("ö = 1\n", 1, "does not start with a key"),
    ('"""a""" = 1\n', 1, "no = after the key"),
    ('"a = 1\n', 1, "closing quotation mark"),
    ("'a\n' = 1\n", 1, "closing quotation mark"),
    ("a = 1 b = 2\n", 1, "b = 2, which does not belong"),
    ("[a] b = 2\n", 1, "b = 2, which does not belong"),
    ("a = 1\na = 2\n", 2, "already on line 1"),
    ("[t]\nb.c = 1\nb.c = 2\n", 3, "already on line 2"),
    ('a = 1\n"a" = 2\n', 2, "already on line 1"),
    ("a = { b = 1, b = 2 }\n", 1, "stands twice"),
    ("a = 1\na.b = 2\n", 2, "stands twice"),
    ("a = { b = 1 }\na.c = 2\n", 2, "already closed"),
    ("a = [1]\n[[a]]\n", 2, "already closed"),
    # tables
    ("[a\nb = 1\n", 1, "not closed by ]"),
    ("[]\n", 1, "a key is expected"),
    ("[a.]\n", 1, "a key is expected"),
    ("[a b]\n", 1, "not closed by ]"),
    ("[[a]\n", 1, "not closed by ]]"),
    ("[ [a] ]\n", 1, "a key is expected"),
    ("[a]\n\n[a]\n", 3, "already on line 1"),
    ("[[a]]\n[a]\n", 2, "already on line 1"),
    ("[a]\n[[a]]\n", 2, "already on line 1"),
    ("a = 1\n[a]\n", 2, "already on line 1"),
    ("a = 1\n[a.b]\n", 2, "stands twice"),
    ("[a]\nb.c = 1\n[a.b]\nd = 1\n", 3, "already on line 2"),
    ("[a.b.c]\nz = 9\n[a]\nb.c.t = 1\n", 4, "its own [table]"),
    # strings
    ("a = mara\n", 1, "mara is not a value"),
    ('a = "x\n', 1, "closing quotation mark"),
    ("a = 'x\n", 1, "closing"),
    ('a = "x" y\n', 1, "behind the value stands y"),
    ('a = "say "hi""\n', 1, "behind the value stands hi"),
    ('a = "C:\\new\\path\\q"\n', 1, "backslash"),
    ('a = "\\u12"\n', 1, "digits 0-9, A-F"),
    ('a = "\\ud800"\n', 1, "stands for no character"),
    ('a = "\\U00110000"\n', 1, "stands for no character"),
    ('# "\n\na = """x\ny\n', 3, "closing quotation mark"),
    ("a = '''x\ny\n", 1, "closing ''' is missing"),
    ('a = """x""""""\n', 1, "behind the value"),
    ('a = "\x01"\n', 1, "control character ␁ (U+0001)"),
    ("a = '\x7f'\n", 1, "U+007F"),
    ("# \x08\n", 1, "U+0008"),
    ("a = 1 # x\rb = 2\n", 1, "U+000D"),
    # numbers, truth values, dates
    ("a = 01\n", 1, "leading noughts"),
    ("a = -01\n", 1, "leading noughts"),
    ("a = 1__0\n", 1, "1__0 is not a value"),
    ("a = 1_\n", 1, "1_ is not a value"),
    ("a = _1\n", 1, "_1 is not a value"),
    ("a = 0x\n", 1, "0x is not a value"),
    ("a = 0XFF\n", 1, "0XFF is not a value"),
    ("a = +0x1\n", 1, "+0x1 is not a value"),
    ("a = 0b12\n", 1, "0b12 is not a value"),
    ("a = .5\n", 1, "both sides of the point"),
    ("a = 5.\n", 1, "both sides of the point"),
    ("a = 1.e5\n", 1, "1.e5 is not a value"),
    ("a = 1e\n", 1, "1e is not a value"),
    ("a = 3,5\n", 1, "3,5 is not a value"),
    ("a = 3.5h\n", 1, "without a unit"),
    ("a = --1\n", 1, "--1 is not a value"),
    ("a = Inf\n", 1, "Inf is not a value"),
    ("a = True\n", 1, "small letters"),
    ("a = yes\n", 1, "small letters"),
    ("a = 2026-02-30\n", 1, "no such date"),
    ("a = 2026-13-01\n", 1, "2026-13-01 is not a value"),
    ("a = 2026-5-2\n", 1, "Dates are written 2026-05-02"),
    ("a = 2.5.2026\n", 1, "Dates are written 2026-05-02"),
    ("a = 02/05/2026\n", 1, "Dates are written 2026-05-02"),
    ("a = 9:30\n", 1, "Times are written 09:30:00"),
    ("a = 24:00:00\n", 1, "Times are written 09:30:00"),
    ("a = 09:60:00\n", 1, "Times are written 09:30:00"),
    ("a = 2026-05-02T25:00:00\n", 1, "2026-05-02T25:00:00 is not a value"),
    ("a = 2026-05-02T09:00:00+25:00\n", 1, "+25:00 is not a value"),
    ("a = 2026-05-02T\n", 1, "2026-05-02T is not a value"),
    ("a = " + "9" * 5000 + "\n", 1, "the number is too long"),
    # arrays and inline tables
    ("a = [1 2]\n", 1, "comma is missing"),
    ("a = [\n  1,\n  2\nb = 3\n", 4, "it begins on line 1"),
    ("a = [1,,2]\n", 1, "value is missing"),
    ("a = [,]\n", 1, "value is missing"),
    ("a = [1", 1, "comma is missing"),
    ("a = 1]\n", 1, "which does not belong"),
    ("a = { b = 1\n", 1, "} , or a comma is missing".replace(" ,", ",")),
    ("a = { b = 1 c = 2 }\n", 1, "comma is missing"),
    ("a = { b }\n", 1, "no = after the key"),
    ("a = { = 1 }\n", 1, "a key is expected"),
    ("a = { b = 1,, c = 2 }\n", 1, "a key is expected"),
    ("a = " + "[" * 5000, 1, "nested too deeply"),
    ("x = 1\na = " + "{a=" * 5000, 2, "nested too deeply"),
    # what a merge leaves
    ("a = 1\n<<<<<<< ours\nb = 1\n=======\nb = 2\n>>>>>>> theirs\n", 2, "a merge of two versions"),
]


@pytest.mark.parametrize(("text", "line", "words"), BROKEN)
def test_each_class_of_error_ends_in_a_sentence_about_the_right_line(
    text: str, line: int, words: str
) -> None:
    with pytest.raises((tomllib.TOMLDecodeError, RecursionError, ValueError)):
        tomllib.loads(text)
    broken = parse_toml(text.encode())
    assert isinstance(broken, BrokenText)
    assert words in f"{broken.sentence} {broken.hint}"
    assert broken.line == line
    assert_fit_to_show(broken, text.encode())


def assert_fit_to_show(broken: BrokenText, data: bytes) -> None:
    """One sentence, nothing in it that steers a terminal, its place within the file."""
    lines = data.decode("utf-8", "replace").split("\n")
    assert 1 <= broken.line <= len(lines)
    assert 1 <= broken.column <= len(lines[broken.line - 1]) + 2
    for words in (broken.sentence, broken.hint):
        assert words
        assert legible(words) == words
        assert len(words) < 200
    assert broken.hint.endswith((".", '""".', ">>>."))


@pytest.mark.parametrize(
    ("data", "place", "words"),
    [
        (b'a = 1\nb = "\xff"\n', (2, 6), "0xFF is not UTF-8"),
        ('a = 1\nö = "'.encode() + b"\xc3\n", (2, 6), "not UTF-8"),
        (b"a = 1\n\0\0\0", (2, 1), "zero bytes"),
        ("a = 1\n".encode("utf-16"), (1, 1), "UTF-16"),
        ("a = 1\n".encode("utf-16-le"), (1, 1), "UTF-16"),
        (b"#" * (MOST_BYTES + 1), (1, 1), "8 MB long"),
        (b"\xef\xbb\xbfa = \n", (1, 5), "value is missing"),
        (b"a = 1\r\nb = \r\n", (2, 5), "value is missing"),
        (b"\xef\xbb\xbf\xef\xbb\xbfa = 1\n", (1, 1), "does not start with a key"),
    ],
)
def test_bytes_that_are_no_text_are_told_with_their_place(
    data: bytes, place: tuple[int, int], words: str
) -> None:
    broken = parse_toml(data)
    assert isinstance(broken, BrokenText)
    assert (broken.line, broken.column) == place
    assert words in broken.sentence


def test_good_files_are_read_as_the_standard_library_reads_them() -> None:
    for seed in range(300):
        text = hand_styled(seed)
        assert repr(parse_toml(text.encode())) == repr(tomllib.loads(text.lstrip("\ufeff")))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("x = 1\n" + "a." * 5000 + "a = 1", "too many parts"),
        ("x = 1\n" + "a." * 150 + "a = 1", "too many parts"),
        ("x = 1\n[" + "a." * 150 + "a]", "too many parts"),
        ("x = 1\na = " + "[" * 120 + "]" * 120, "nested too deeply"),
        ("x = 1\na = " + "[{a=" * 90 + "1" + "}]" * 90, "nested too deeply"),
    ],
)
def test_a_file_too_deep_for_whatever_walks_its_values_is_not_handed_on(
    text: str, words: str
) -> None:
    broken = parse_text(text)
    assert isinstance(broken, BrokenText)
    assert words in broken.sentence
    assert broken.line == 2


def test_ninety_levels_are_read() -> None:
    assert not isinstance(parse_text("a = " + "[" * 90 + "]" * 90), BrokenText)
    assert not isinstance(parse_text("a = 'many. dots. " + ". " * 500 + "'"), BrokenText)


@given(st.binary(max_size=200))
@settings(max_examples=20_000 if LONG else 500, deadline=None)
def test_any_bytes_give_values_or_a_sentence(data: bytes) -> None:
    read = parse_toml(data)
    if isinstance(read, BrokenText):
        assert_fit_to_show(read, data)


def test_any_change_of_a_good_file_gives_values_or_a_sentence() -> None:
    broken = 0
    for seed in range(20_000 if LONG else 1_500):
        dice = random.Random(seed)
        data = bytearray(hand_styled(seed % 400).encode())
        for _ in range(dice.randrange(1, 4)):
            at = dice.randrange(len(data) + 1)
            match dice.randrange(3):
                case 0:
                    data[at:at] = dice.choice([b'"', b"'", b"[", b"]", b"{", b"=", b"\\", b"\xe2"])
                case 1:
                    del data[at : at + dice.randrange(1, 9)]
                case _:
                    data[at : at + 1] = bytes([dice.randrange(256)])
        read = parse_toml(bytes(data))
        if isinstance(read, BrokenText):
            assert_fit_to_show(read, bytes(data))
            broken += 1
    assert broken > 500


@pytest.mark.parametrize(
    "unit", ["[", "{", "a.", '"', "'''", "\\", "[[a]]\n", "a=[\n", "#\n", "[a", "1"]
)
def test_a_megabyte_of_anything_is_read_in_seconds(unit: str) -> None:
    data = (unit * 1_000_000)[:1_000_000].encode()
    start = time.process_time()
    parse_toml(data)
    parse_toml(b"a = " + data)
    assert time.process_time() - start < 10


def test_without_the_compiled_reader_the_sentences_stay_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # The standard library's reader of Python 3.11 tells the place in its message only.
    quick = [parse_text(text) for text, _, _ in BROKEN if len(text) < 1000]
    monkeypatch.setattr(text_reading, "_toml", tomllib)
    plain = [parse_text(text) for text, _, _ in BROKEN if len(text) < 1000]
    different = [(one, two) for one, two in zip(quick, plain, strict=True) if one != two]
    assert len(different) <= 6, different
    assert all(isinstance(two, BrokenText) for _, two in different)
