"""The quick reader of plain day files agrees with the TOML reader, or leaves the text to it."""

from __future__ import annotations

import datetime as dt
import os
import random
import tomllib
from typing import Any

import pytest

from crewboard.folder.toml.append import appended, entry_line, new_day, new_id
from crewboard.folder.toml.day import plain_day

LONG = bool(os.environ.get("CREWBOARD_LONG"))
PIECES = ['"', "'", "\\", "#", "=", "{", "}", "[", "]", ",", " ", "\n", "\r", "\t", "-", ".", "_"]
PIECES += [
    "0",
    "9",
    "e",
    "T",
    "Z",
    ":",
    "٣",
    "é",
    "\x7f",
    "\x01",
    "true",
    "nan",
    '""',
    "+1",
    "a = 1",
]


def random_day(dice: random.Random, *, plain: bool = False) -> str:
    text = new_day(dt.date(2026, 5, dice.randrange(1, 29)))
    for _ in range(dice.randrange(6)):
        fields: dict[str, Any] = {
            "at": dt.datetime(2026, 5, 2, dice.randrange(24), dice.randrange(60)),
            "by": dice.choice(["ada", "Größe", ""] if plain else ["ada", 'a "b"', "x\ny"]),
            "hours": dice.choice([1, 2.5, 0, 0.25] if plain else [1, 0.5, 12345678, 1e22, -1]),
            "due": dt.date(2026, 6, 1),
            "ok": dice.choice([True, False]),
            "crew": dice.choice([[], ["a"], ["a", "b, c"], ["a]"]]),
        }
        chosen = dice.sample(sorted(fields), dice.randrange(1, 7))
        line = entry_line(new_id(dice), {key: fields[key] for key in chosen})
        text = appended(text, line)
    return text.decode()


def told(text: str) -> dict[str, Any] | None:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return None


def test_what_this_program_writes_is_read_as_the_standard_reader_reads_it() -> None:
    quick = 0
    for seed in range(20_000 if LONG else 500):
        text = random_day(random.Random(seed))
        found = plain_day(text)
        assert found is None or repr(found) == repr(told(text)), text
        quick += found is not None
    assert quick > 100


def test_a_text_changed_anywhere_is_read_right_or_left_to_the_toml_reader() -> None:
    quick = 0
    for seed in range(300_000 if LONG else 2_000):
        dice = random.Random(seed)
        text = random_day(random.Random(seed % 200), plain=True)
        for _ in range(dice.choice([1, 1, 1, 2])):
            at = dice.randrange(len(text) + 1)
            cut = dice.choice([0, 0, 1, 1, 2, 9])
            text = text[:at] + dice.choice(["", *PIECES]) + text[at + cut :]
        found = plain_day(text)
        assert found is None or repr(found) == repr(told(text)), repr(text)
        quick += found is not None
    assert quick > 70


@pytest.mark.parametrize(
    "text",
    [
        "date = 2026-05-02\n\n[entries]\na = { n = 1٣ }\n",
        "date = ٢٠٢٦-05-02\n\n[entries]\n",
        "date = 2026-02-30\n\n[entries]\n",
        "date = 2026-05-02\n\n[entries]\na = { n = 1, n = 2 }\n",
        "date = 2026-05-02\n\n[entries]\na = { n = 1 }\na = { n = 1 }\n",
        "date = 2026-05-02\n\n[entries]\na = { n = 01 }\n",
        "date = 2026-05-02\n\n[entries]\na = { n = 1 }",
        "\ufeffdate = 2026-05-02\n\n[entries]\n",
    ],
)
def test_what_is_not_plain_is_left_to_the_toml_reader(text: str) -> None:
    assert plain_day(text) is None
