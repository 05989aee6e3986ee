"""Places of keys and values, checked against the standard library's TOML reader.

The check does not trust the scanner: it writes a mark over the text at the place that was told
and lets the reader say where the mark came out.
"""

from __future__ import annotations

import itertools
import os
import re
import time
import tomllib
from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.folder.toml.locate import Places, Position, locate, locate_value
from crewboard.folder.toml.scan import MOST_SCANNED, KeyPath, statements
from tests.folder.toml.hand_styled import hand_styled

LONG = bool(os.environ.get("CREWBOARD_LONG"))
TOKEN = re.compile(
    r'''"""(?:\\.|(?!""").)*"{3,5}|\'\'\'(?:(?!\'\'\').)*'{3,5}|"(?:\\.|[^"\\\n])*"|'[^'\n]*'|'''
    r"""\d{4}-\d\d-\d\d \d\d:\d\d[^\s,\]}#]*|[^\s,\]}#=.]+(?:\.[^\s,\]}#=]+)?""",
    re.DOTALL,
)
KEY = re.compile(r""""(?:\\.|[^"\\\n])*"|'[^'\n]*'|[A-Za-z0-9_-]+""")


def everything(value: Any, path: KeyPath = ()) -> Iterator[tuple[KeyPath, Any]]:
    """All paths of a decoded file, tables before what is in them."""
    yield path, value
    if isinstance(value, dict):
        for key, below in value.items():
            yield from everything(below, (*path, key))
    elif isinstance(value, list):
        for number, below in enumerate(value):
            yield from everything(below, (*path, number))


def offset(text: str, place: Position) -> int:
    """Where in the text (without byte-order mark) the place is."""
    lines = text.split("\n")
    return sum(len(line) + 1 for line in lines[: place.line - 1]) + place.column - 1


def leaves(data: Any) -> dict[KeyPath, str]:
    return {p: repr(v) for p, v in everything(data) if not isinstance(v, (dict, list))}


def overwritten(text: str, at: int, token: re.Pattern[str], mark: str) -> dict[KeyPath, str]:
    """What the reader finds once `mark` is written over the token that stands at the offset."""
    found = token.match(text, at)
    assert found is not None
    return leaves(tomllib.loads(text[:at] + mark + text[found.end() :]))


def test_a_mark_written_over_a_value_is_read_back_at_its_path() -> None:
    proved = 0
    for seed in range(2000 if LONG else 150):
        text = hand_styled(seed).removeprefix("\ufeff")
        places, data = Places(text), leaves(tomllib.loads(text))
        for path in data:
            at = offset(text, places.value(path))
            assert overwritten(text, at, TOKEN, '"MARK"') == {**data, path: "'MARK'"}, (seed, path)
            proved += 1
    assert proved > 500


def test_a_mark_written_over_a_key_is_read_back_in_its_path() -> None:
    proved = 0
    for seed in range(2000 if LONG else 150):
        text = hand_styled(seed).removeprefix("\ufeff")
        places, data = Places(text), leaves(tomllib.loads(text))
        for path in data:
            if isinstance(path[-1], int):
                continue
            at = offset(text, places.key(path))
            marked = overwritten(text, at, KEY, "MARK")
            there = {p: v for p, v in data.items() if p != path}
            assert marked == {**there, (*path[:-1], "MARK"): data[path]}, (seed, path)
            proved += 1
    assert proved > 300


def test_every_table_and_list_is_placed_where_its_name_or_bracket_stands() -> None:
    for seed in range(2000 if LONG else 150):
        text = hand_styled(seed).removeprefix("\ufeff")
        places = Places(text)
        for path, value in everything(tomllib.loads(text)):
            if not path or not isinstance(value, (dict, list)):
                continue
            assert path in places, (seed, path)
            key_at = offset(text, places.key(path))
            value_at = offset(text, places.value(path))
            if value_at != key_at or isinstance(path[-1], int):
                assert text[value_at] in "[{" or KEY.match(text, value_at)
            if isinstance(path[-1], str):
                found = KEY.match(text, key_at)
                assert found is not None
                assert tomllib.loads(f"{found.group()} = 1") == {path[-1]: 1}


def test_every_line_of_a_file_belongs_to_at_most_one_statement_in_order() -> None:
    for seed in range(150):
        text = hand_styled(seed)
        found = statements(text)
        for one, next_one in itertools.pairwise(found):
            assert one.end <= next_one.start
        rest = text
        for statement in reversed(found):
            rest = rest[: statement.start] + rest[statement.end :]
        lines = [line.strip() for line in rest.removeprefix("\ufeff").splitlines()]
        assert all(not line or line.startswith("#") for line in lines), seed


def test_a_key_that_is_missing_is_placed_at_the_nearest_table_around_it() -> None:
    text = 'name = "cab"\n\n[tasks.strip]\nhours = 3\n  [[tasks.strip.parts]]\n  a = 1\n'
    assert locate(text, ("tasks", "strip", "name")) == Position(3, 8)
    assert locate(text, ("tasks", "strip", "parts", 0, "b")) == Position(5, 17)
    assert locate(text, ("crew",)) == Position(1, 1)


def test_lines_and_columns_count_from_one_and_skip_the_byte_order_mark() -> None:
    text = "\ufeffa = 1\r\nö = 2".replace("ö", '"ö"')
    assert locate(text, ("a",)) == Position(1, 1)
    assert locate_value(text, ("ö",)) == Position(2, 7)


def test_an_item_of_a_list_of_tables_is_placed_at_its_own_header() -> None:
    text = "[[a]]\nx = 1\n[[a]]\nx = 2\n[a.b]\ny = [1, { z = 3 }]\n"
    assert locate(text, ("a", 1)) == Position(3, 3)
    assert locate_value(text, ("a", 1, "x")) == Position(4, 5)
    assert locate(text, ("a", 1, "b", "y", 1, "z")) == Position(6, 11)


@given(st.text(alphabet="a.=[]{}\"'\\\n\r\t #,1-:é", max_size=60))
@settings(max_examples=2000 if LONG else 300, deadline=None)
def test_any_text_at_all_is_scanned_without_a_fault(text: str) -> None:
    place = locate(text, ("a", 0, "b"))
    assert place.line >= 1
    assert place.column >= 1


def test_a_quoted_mess_is_given_up_in_linear_time() -> None:
    for mess in (
        '"' * 50_000,
        "a" * 50_000,
        "[" * 50_000,
        '"""' + "\\" * 50_001,
        "a." * 50_000,
        "a." * 50_000 + "a=1",
    ):
        start = time.process_time()
        locate(mess, ("a",))
        assert time.process_time() - start < 2.0


def test_of_a_huge_text_only_the_beginning_is_scanned() -> None:
    note = "x" * 100
    text = "".join(f'a{number} = "{note}"\n' for number in range(20_000))
    assert len(text) > MOST_SCANNED
    assert 15_000 < len(statements(text)) < 20_000
    assert locate(text, ("a19999",)) == Position(1, 1)


def test_eight_kilobytes_are_scanned_in_a_few_milliseconds() -> None:
    table = '[tasks.t{}]\nname = "a task"  # why\nafter = ["one", "two"]\nhours = 2.5\n\n'
    text = "".join(table.format(number) for number in range(110))
    assert 7_500 < len(text) < 9_000
    best = min(_seconds(text) for _ in range(5))
    assert best < 0.02  # measured 2 ms on a slow shared core; the bound leaves room for load


def _seconds(text: str) -> float:
    start = time.process_time()
    assert locate(text, ("tasks", "t99", "hours")).line == 99 * 5 + 4
    return time.process_time() - start
