"""Copies that sync tools leave: noticed by their shape, folded in by entry id, nothing dropped.

The names below are shapes that copies come in, not any one tool's names.
"""

from __future__ import annotations

import datetime as dt
import os
import random
import tomllib
from pathlib import Path

import pytest

from crewboard.folder.cannot import CannotFold
from crewboard.folder.disk.conflicts import conflict_copies, folded
from crewboard.folder.disk.part import name_for_part
from crewboard.folder.toml.append import appended, entry_line, new_day, new_id

LONG = bool(os.environ.get("CREWBOARD_LONG"))
DAY = dt.date(2026, 5, 2)
TEXT = appended(new_day(DAY), entry_line("aaaa", {"n": 1}))


@pytest.mark.parametrize(
    "name",
    [
        "2026-05-02 (1).toml",
        "2026-05-02 (2).toml",
        "2026-05-02 (conflicted copy 2026-05-03 101112).toml",
        "2026-05-02 (ada's laptop's copy).toml",
        "2026-05-02.sync-conflict-20260503-101112-ABCDEFG.toml",
        "2026-05-02~LAPTOP.toml",
        "2026-05-02-LAPTOP.toml",
        "2026-05-02 copy.toml",
        "Copy of 2026-05-02.toml",
        "2026-05-02_conflict.toml",
        "2026-05-02.toml.orig",
        "2026-05-02.toml~",
        ".2026-05-02.toml.tmp",
        "2026-05-02 - Kopie.toml",
        "CONFLICT.toml",
        "2026-05-02.TOML.1",
    ],
)
def test_a_copy_of_a_day_is_noticed_whatever_it_is_called(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "days" / "2026"
    folder.mkdir(parents=True)
    (folder / "2026-05-02.toml").write_bytes(TEXT)
    (folder / name).write_bytes(TEXT)
    (found,) = conflict_copies(tmp_path / "days")
    assert Path(found.path).name == name
    assert found.original == str(folder / "2026-05-02.toml")
    assert found.date == DAY
    assert found.readable


def test_a_copy_that_cannot_be_read_is_noticed_too(tmp_path: Path) -> None:
    (tmp_path / "2026-05-02 (1).toml").write_bytes(b"[entries\n")
    (found,) = conflict_copies(tmp_path)
    assert not found.readable
    assert found.date == DAY


def test_what_is_no_copy_of_a_day_is_let_be(tmp_path: Path) -> None:
    (tmp_path / "2026").mkdir()
    (tmp_path / "2026" / "2026-05-02.toml").write_bytes(TEXT)
    (tmp_path / "2026-05-02 arch.jpg").write_bytes(b"\xff\xd8\xff")
    (tmp_path / "notes.toml").write_bytes(b"a = 1\n")
    (tmp_path / "2026-13-99.txt").write_bytes(b"x")
    Path(name_for_part(str(tmp_path))).write_bytes(TEXT)
    (tmp_path / "link.toml").symlink_to("2026-05-02.toml")
    os.mkfifo(tmp_path / "2026-05-02 pipe.toml")
    assert conflict_copies(tmp_path) == []
    assert conflict_copies(tmp_path / "nowhere") == []


OF_THE_2ND = appended(
    new_day(DAY), 'aaaa = { at = 2026-05-02T09:00:00, by = "ada", kind = "note", text = "x" }'
)


@pytest.mark.parametrize(
    "place",
    ["2025/2026-05-02.toml", "2026-05-02.toml", "2026/05/2026-05-02.toml", "2026/2026-05-02.TOML",
     "2026/2026-05-09.toml"],
)  # fmt: skip
def test_a_day_in_another_place_than_its_own_is_noticed(tmp_path: Path, place: str) -> None:
    path = tmp_path / place
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(OF_THE_2ND)
    (found,) = conflict_copies(tmp_path)
    assert (found.path, found.date) == (str(path), DAY)
    assert found.original == str(tmp_path / "2026" / "2026-05-02.toml")


def test_a_day_whose_entries_are_of_two_days_is_left_to_a_person(tmp_path: Path) -> None:
    path = tmp_path / "2026" / "2026-05-09.toml"
    path.parent.mkdir()
    path.write_bytes(OF_THE_2ND + b"bbbb = { at = 2026-05-09T09:00:00 }\n")
    assert conflict_copies(tmp_path) == []


def test_lines_that_only_the_copy_has_are_added_as_they_stand_there() -> None:
    copy = TEXT + b'bbbb={n=2,   note = "as typed"}  # why\n# a thought\n'
    new = folded(TEXT, copy)
    assert new.new_bytes == copy
    assert new.added == ("bbbb",)
    assert new.clashing == ()


def test_a_copy_with_nothing_new_changes_nothing() -> None:
    assert folded(TEXT, TEXT.replace(b"\n", b"\r\n")) == (TEXT, (), ())


def test_the_same_id_with_other_content_is_named_and_the_original_stays() -> None:
    new = folded(TEXT, TEXT.replace(b"n = 1", b"n = 9") + b"bbbb = { n = 2 }\n")
    assert new.new_bytes == TEXT + b"bbbb = { n = 2 }\n"
    assert new.added == ("bbbb",)
    assert new.clashing == ("aaaa",)


def test_a_heading_that_only_the_copy_has_is_taken_and_another_one_is_named() -> None:
    copy = TEXT.replace(b"\n\n[", b"\nopens = 09:00:00\n\n[")
    new = folded(TEXT, copy)
    assert tomllib.loads(new.new_bytes.decode()) == tomllib.loads(copy.decode())
    assert folded(copy.replace(b"09", b"08"), copy).clashing == ("opens",)


def test_a_copy_that_a_merge_doubled_lines_in_is_folded_in_once() -> None:
    copy = TEXT + b"bbbb = { n = 2 }\nbbbb = { n = 2 }\ncccc = { n = 3 }\ncccc = { n = 4 }\n"
    new = folded(TEXT, copy)
    assert new.new_bytes == TEXT + b"bbbb = { n = 2 }\ncccc = { n = 3 }\n"
    assert new.clashing == ("cccc",)


def test_entries_written_over_several_lines_are_folded_in() -> None:
    copy = (
        b'date = 2026-05-02\n[entries]\nbbbb = { note = """one\ntwo""" }\n[entries.cccc]\nn = 3\n'
    )
    new = folded(TEXT, copy)
    assert tomllib.loads(new.new_bytes.decode())["entries"] == {
        "aaaa": {"n": 1},
        "bbbb": {"note": "one\ntwo"},
        "cccc": {"n": 3},
    }


@pytest.mark.parametrize(
    ("original", "copy", "words"),
    [
        (TEXT, TEXT.replace(b"05-02", b"05-03"), "another date"),
        (TEXT, b"[entries]\na = \n", "the copy cannot be read: line 2"),
        (b"[entries]\na = \n", TEXT, "the day file cannot be read: line 2"),
        (TEXT, b"date = 2026-05-02\nentries = 3\n", "not a table"),
        (b"date = 2026-05-02\n", TEXT, "no [entries]"),
    ],
)
def test_what_cannot_be_folded_in_is_said_in_a_sentence(
    original: bytes, copy: bytes, words: str
) -> None:
    with pytest.raises(CannotFold) as caught:
        folded(original, copy)
    assert words in caught.value.sentence


def test_after_folding_in_random_copies_every_entry_is_there_once_or_named() -> None:
    for seed in range(2000 if LONG else 150):
        dice = random.Random(seed)
        common = new_day(DAY)
        lines = dict[str, str]()
        for _ in range(dice.randrange(4)):
            entry_id = new_id(dice, lines)
            lines[entry_id] = entry_line(entry_id, {"n": dice.randrange(99)})
            common = appended(common, lines[entry_id])
        versions, clashing = list[bytes](), set[str]()
        for _ in range(dice.randrange(2, 4)):
            text = common
            for _ in range(dice.randrange(4)):
                entry_id = new_id(dice, lines)
                lines[entry_id] = entry_line(entry_id, {"n": dice.randrange(99), "é": "\n"})
                text = appended(text, lines[entry_id])
            if lines and dice.random() < 0.2 and versions:
                victim = dice.choice(list(lines))
                if lines[victim].encode() in common:
                    text = text.replace(lines[victim].encode(), f"{victim} = {{}}".encode())
                    clashing.add(victim)
            if dice.random() < 0.2:
                text = text.replace(b"\n", b"\r\n")
            if dice.random() < 0.2:
                text = text.rstrip()
            if dice.random() < 0.1:
                text = b"\xef\xbb\xbf" + text
            versions.append(text)
        original, named = versions[0], set[str]()
        for copy in versions[1:]:
            new = folded(original, copy)
            assert new.new_bytes.startswith(original)
            named |= set(new.clashing)
            original = new.new_bytes
        entries = tomllib.loads(original.decode("utf-8-sig"))["entries"]
        assert entries == tomllib.loads("[entries]\n" + "\n".join(lines.values()))["entries"], seed
        assert named == clashing, seed
