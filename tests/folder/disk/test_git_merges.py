"""Clones that log the same days are merged by plain `git merge`, nothing lost, nothing doubled.

Long form: 2,000 random histories of two and three clones.
"""

from __future__ import annotations

import os
import random
import shutil
import tomllib
from pathlib import Path

import pytest

from crewboard.folder.toml.append import appended, entry_line, new_day
from crewboard.folder.toml.day import DayText, parse_day
from crewboard.folder.toml.decode import parse_toml
from crewboard.folder.toml.text import BrokenText
from tests.folder.disk.clones import FIRST, Clones, random_history

LONG = bool(os.environ.get("CREWBOARD_LONG"))
pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="needs git")


@pytest.mark.parametrize(
    ("by_hand", "crisscross", "count"),
    [
        (False, False, 800 if LONG else 6),
        (True, False, 600 if LONG else 4),
        (False, True, 300 if LONG else 2),
        (True, True, 300 if LONG else 2),
    ],
)
def test_every_entry_of_every_clone_is_there_once_after_plain_merges(
    tmp_path: Path, by_hand: bool, crisscross: bool, count: int
) -> None:
    doubled_lines = 0
    for seed in range(count):
        root = tmp_path / str(seed)
        clones = random_history(root, seed, by_hand=by_hand, crisscross=crisscross)
        for day, lines in clones.lines.items():
            data = clones.path(0, day).read_bytes()
            read = parse_day(data)
            assert isinstance(read, DayText), (seed, day)
            meant = tomllib.loads("[entries]\n" + "\n".join(lines.values()))["entries"]
            assert read.values["entries"] == meant, (seed, day)
            assert read.values["date"] == day
            assert read.clashes == ()
            doubled_lines += len(read.doubled)
        shutil.rmtree(root)
    print(f"{count} histories, {doubled_lines} lines come in twice and read once")


def clones_with_one_entry(root: Path) -> Clones:
    clones = Clones(root, 2)
    clones.log(0, FIRST, random.Random(1), by_hand=False)
    clones.fork()
    return clones


def test_a_line_that_both_changed_by_hand_is_named_and_the_rest_of_the_day_is_read(
    tmp_path: Path,
) -> None:
    clones = clones_with_one_entry(tmp_path)
    for tree in (0, 1):
        path = clones.path(tree)
        text = path.read_bytes().replace(b"by =", b"who = %d, by =" % tree)
        path.write_bytes(appended(text, entry_line(f"new{tree}", {"n": tree})))
        clones.commit(tree)
    clones.merge(0, 1)
    data = clones.path(0).read_bytes()
    assert isinstance(parse_toml(data), BrokenText)
    day = parse_day(data)
    assert isinstance(day, DayText)
    (clash,) = day.clashes
    assert clash.key in clones.lines[FIRST]
    lines = data.decode().split("\n")
    assert {clash.key in lines[clash.first_line - 1], clash.key in lines[clash.line - 1]} == {True}
    assert {"new0", "new1"} <= day.values["entries"].keys()


def test_two_openings_of_one_day_are_named(tmp_path: Path) -> None:
    clones = clones_with_one_entry(tmp_path)
    for tree in (0, 1):
        path = clones.path(tree)
        opens = b"\nopens = %02d:00:00\n\n[" % (8 + tree)
        path.write_bytes(path.read_bytes().replace(b"\n\n[", opens))
        clones.commit(tree)
    clones.merge(0, 1)
    day = parse_day(clones.path(0).read_bytes())
    assert isinstance(day, DayText)
    assert [clash.key for clash in day.clashes] == ["opens"]


def test_a_line_deleted_by_hand_takes_no_other_line_with_it(tmp_path: Path) -> None:
    clones = clones_with_one_entry(tmp_path)
    path = clones.path(0)
    path.write_bytes(new_day(FIRST))
    clones.commit(0)
    clones.log(1, FIRST, random.Random(2), by_hand=False)
    clones.commit(1)
    clones.merge(0, 1)
    day = parse_day(path.read_bytes())
    assert isinstance(day, DayText)
    newest = list(clones.lines[FIRST])[-1]
    assert newest in day.values["entries"]


def test_both_make_the_same_new_day_with_other_line_ends(tmp_path: Path) -> None:
    clones = Clones(tmp_path, 2)
    clones.fork()
    for tree in (0, 1):
        clones.log(tree, FIRST, random.Random(tree), by_hand=False)
        if tree:
            path = clones.path(1)
            path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
        clones.commit(tree)
    clones.merge(0, 1)
    day = parse_day(clones.path(0).read_bytes())
    assert isinstance(day, DayText)
    assert day.values["entries"].keys() == clones.lines[FIRST].keys()
    assert day.clashes == ()
    longer = parse_day(appended(clones.path(0).read_bytes(), entry_line("new", {"n": 1})))
    assert isinstance(longer, DayText)
    assert longer.values["entries"] == {**day.values["entries"], "new": {"n": 1}}


@pytest.mark.parametrize(
    ("text", "doubled", "clashes"),
    [
        ("date = 2026-05-02\n\n[entries]\na = { n = 1 }\na = { n = 1 }\n", (5,), []),
        ("date = 2026-05-02\n\n[entries]\na = { n = 1 }\n  a = { n = 1 }\r\n", (5,), []),
        ("date = 2026-05-02\n[entries]\na = 1\ndate = 2026-05-02\n[entries]\nb = 2\n", (4, 5), []),
        ("[entries]\na = { n = 1 }\na = { n = 2 }\nb = 1\n", (), [("a", 2, 3)]),
        ('[entries]\na = { n = 1 }\n"a" = { n = 2 }\n', (), [("a", 2, 3)]),
    ],
)
def test_of_a_line_come_twice_the_first_is_read(
    text: str, doubled: tuple[int, ...], clashes: list[tuple[str, int, int]]
) -> None:
    day = parse_day(text.encode())
    assert isinstance(day, DayText)
    assert day.doubled == doubled
    assert [tuple(clash) for clash in day.clashes] == clashes


@pytest.mark.parametrize(
    "text",
    [
        "[entries]\na = {\n",
        "[entries]\na = 1\na = 1\nb = \n",
        '[entries]\na = """\nb = 1\nb = 1\n"""\nc = 1\nc = 1\n',
        "[other]\na = 1\na = 1\n",
        "\0",
    ],
)
def test_other_faults_of_a_day_stay_faults(text: str) -> None:
    assert parse_day(text.encode()) == parse_toml(text.encode())
    assert isinstance(parse_day(text.encode()), BrokenText)


def test_a_day_that_took_a_doubled_line_takes_further_entries() -> None:
    text = b"date = 2026-05-02\n\n[entries]\na = { n = 1 }\na = { n = 1 }\n"
    longer = appended(text, entry_line("b", {"n": 2}))
    assert longer.startswith(text)
    day = parse_day(longer)
    assert isinstance(day, DayText)
    assert day.values["entries"] == {"a": {"n": 1}, "b": {"n": 2}}
