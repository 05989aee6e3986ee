"""Logbook lines: spelled right, added at the end, no line that stands ever touched."""

from __future__ import annotations

import datetime as dt
import random
import subprocess
import sys
import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.folder.cannot import CannotAppend, CannotSpell
from crewboard.folder.toml.append import (
    ID_LENGTH,
    SystemDice,
    appended,
    entry_line,
    new_day,
    new_id,
)
from crewboard.folder.toml.meant import same
from crewboard.folder.toml.values import literal_string, toml_key, toml_lines, toml_value

DAY = dt.date(2026, 5, 2)
LINE = 'k7f3q2mh = { by = "mara" }'

anything = st.text(alphabet=st.characters(exclude_categories=["Cs"]))
scalars = st.one_of(
    anything,
    st.booleans(),
    st.integers(-(2**63), 2**63 - 1),
    st.floats(),
    st.dates(),
    st.times(),
    st.datetimes(),
    st.datetimes(timezones=st.just(dt.timezone(dt.timedelta(hours=-5, minutes=-30)))),
    st.lists(anything, max_size=3),
)


@given(st.dictionaries(anything, scalars, max_size=4), anything)
@settings(deadline=None)
def test_every_value_comes_back_as_it_was_from_one_line(
    fields: dict[str, Any], entry_id: str
) -> None:
    line = entry_line(entry_id, fields)
    assert len(line.splitlines()) == 1
    assert same(tomllib.loads(line), {entry_id: fields})


@given(anything, st.sampled_from(["\n", "\r\n"]))
@settings(deadline=None)
def test_text_written_on_several_lines_comes_back_as_it_was(text: str, newline: str) -> None:
    assert tomllib.loads(f"a = {toml_lines(text, newline)}") == {"a": text}
    literal = literal_string(text)
    if literal is not None:
        assert tomllib.loads(f"a = {literal}") == {"a": text}


def test_no_character_of_a_line_steers_an_editor_or_a_terminal() -> None:
    steering = "\x00\x1b[31m\x7f\x9b\u202e\u2066\u200b\u2028\ufeff\n\r"
    assert entry_line("a", {"note": steering}).isascii()
    # The joiners belong to the spelling of several languages and are left as typed.
    assert "\u200c" in entry_line("a", {"note": "می\u200cخواهم"})


def test_seconds_are_always_written() -> None:
    assert toml_value(dt.datetime(2026, 5, 2, 9, 10)) == "2026-05-02T09:10:00"
    assert toml_value(dt.time(9, 10)) == "09:10:00"


def test_a_key_is_bare_only_where_toml_allows_it() -> None:
    assert toml_key("under_way-2") == "under_way-2"
    for key in ("", "a b", "Größe", "a.b", "a\n"):
        assert toml_key(key).startswith('"')
        assert tomllib.loads(f"{toml_key(key)} = 1") == {key: 1}


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("a\ud800", "half a character (U+D800)"),
        (2**63, "too large"),
        (None, "NoneType"),
        (b"x", "bytes"),
        (["a", {1, 2}], "set"),
        (dt.time(9, tzinfo=dt.UTC), "time zone"),
        (dt.datetime(2026, 5, 2, tzinfo=dt.timezone(dt.timedelta(seconds=30))), "whole number"),
    ],
)
def test_what_toml_cannot_hold_is_refused_in_a_sentence(value: Any, words: str) -> None:
    with pytest.raises(CannotSpell) as caught:
        entry_line("a", {"x": value})
    assert words in caught.value.sentence


def test_a_new_day_has_its_date_a_blank_line_and_the_entries_header() -> None:
    assert new_day(DAY) == b"date = 2026-05-02\n\n[entries]\n"
    assert (
        appended(new_day(DAY), LINE) == b"date = 2026-05-02\n\n[entries]\n" + LINE.encode() + b"\n"
    )


HEAD = 'date = 2026-05-02\nopens = 09:00:00 # late\n\n[entries]\nold = { by = "tom" }'


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        (HEAD + "\n", HEAD + "\n" + LINE + "\n"),
        (HEAD, HEAD + "\n" + LINE + "\n"),
        ("\ufeff" + HEAD + "\n", "\ufeff" + HEAD + "\n" + LINE + "\n"),
        (HEAD + "\n\n", HEAD + "\n\n" + LINE + "\n"),
        (HEAD + "\n# the end\n", HEAD + "\n# the end\n" + LINE + "\n"),
        (HEAD + "\n# the end", HEAD + "\n# the end\n" + LINE + "\n"),
        ((HEAD + "\n").replace("\n", "\r\n"), (HEAD + "\n" + LINE + "\n").replace("\n", "\r\n")),
        (HEAD.replace("\n", "\r\n"), (HEAD + "\n" + LINE + "\n").replace("\n", "\r\n")),
        ("[entries]", "[entries]\n" + LINE + "\n"),
        (" [ entries ] # all\n", " [ entries ] # all\n" + LINE + "\n"),
        (HEAD + "\n\n[shop]\nx = 1\n", HEAD + "\n" + LINE + "\n\n[shop]\nx = 1\n"),
        ("[entries]\n\n[shop]\nx = 1\n", "[entries]\n" + LINE + "\n\n[shop]\nx = 1\n"),
        (
            'note = """\n[entries]\n"""\n[entries]\n[shop]\n',
            'note = """\n[entries]\n"""\n[entries]\n' + LINE + "\n[shop]\n",
        ),
        ("[entries]\nx = { n = [\n[1]] }\n", "[entries]\nx = { n = [\n[1]] }\n" + LINE + "\n"),
    ],
)
def test_the_line_goes_behind_the_last_entry_whatever_the_file_looks_like(
    text: str, meant: str
) -> None:
    assert appended(text.encode(), LINE).decode() == meant


def test_adding_the_same_line_again_changes_nothing() -> None:
    once = appended(new_day(DAY), LINE)
    assert appended(once, LINE) == once


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        (b"date = 2026-05-02\n", LINE, "no [entries]"),
        (b"[[entries]]\n", LINE, "no [entries]"),
        (b"entries = {}\n", LINE, "no [entries]"),
        (b"\xff[entries]\n[x]\n", LINE, "not UTF-8"),
        (b"[entries]\n", "a = 1\nb = 2", "one line"),
    ],
)
def test_a_file_that_cannot_safely_take_a_line_is_left_alone(
    text: bytes, line: str, words: str
) -> None:
    with pytest.raises(CannotAppend) as caught:
        appended(text, line)
    assert words in caught.value.sentence


def test_no_line_that_stood_is_changed_by_a_hundred_more() -> None:
    dice = random.Random(5)
    text = new_day(DAY)
    ids = set[str]()
    for number in range(100):
        entry_id = new_id(dice, ids)
        ids.add(entry_id)
        longer = appended(text, entry_line(entry_id, {"n": number, "note": "x\ny"}))
        assert longer.startswith(text)
        text = longer
    assert set(tomllib.loads(text.decode())["entries"]) == ids


def test_ids_are_short_start_with_a_letter_and_look_like_nothing_else() -> None:
    for dice in (random.Random(1), SystemDice()):
        ids = {new_id(dice) for _ in range(5000)}
        assert len(ids) == 5000
        assert all(len(each) == ID_LENGTH and each[0].isalpha() for each in ids)
        assert not set("".join(ids)) & set("0o1liOIL ")
        assert all(toml_key(each) == each for each in ids)


def test_an_id_that_is_taken_is_not_given_again() -> None:
    first = new_id(random.Random(3))
    assert new_id(random.Random(3), {first}) != first


def test_writing_an_entry_loads_nothing_that_is_slow_to_load() -> None:
    code = (
        "import sys; before = set(sys.modules)\n"  # an editable install loads some at start
        "import crewboard.legible, crewboard.folder.toml.append, crewboard.folder.disk.write\n"
        "import crewboard.folder.disk.lock, crewboard.folder.disk.watch\n"
        "slow = 'tomlkit filelock tempfile random shutil zipfile dataclasses inspect tomli tomllib'"
        " + ' pathlib difflib unicodedata logging asyncio'\n"
        "print(*[name for name in slow.split() if name in set(sys.modules) - before])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.split() in ([], ["tomli"])  # read.py knows the reader's size limit
