"""A calendar takes any text by every rule of RFC 5545, read back by a reader made after it."""

from __future__ import annotations

import re
from pathlib import Path

from crewboard.legible import legible
from tests.command.calling import Shell
from tests.text_is_data.as_shown import AT, STEERS, squeezed

_LINE = re.compile(r"[A-Z][A-Z-]*(;[A-Z-]+=[^\x00-\x1f\";:,]+)*:[^\x00-\x08\x0a-\x1f\x7f]*\Z")
_PARTS = {"BEGIN", "END", "VERSION", "PRODID", "UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY",
          "DESCRIPTION", "LOCATION", "CALSCALE", "METHOD", "NAME", "X-WR-CALNAME"}  # fmt: skip


def calendar_texts(data: str) -> list[str]:
    """The texts of a calendar; fails where a rule of RFC 5545 is broken."""
    assert data.endswith("\r\n")
    assert not data.replace("\r\n", "").count("\n"), "3.1: lines end in CR LF"
    assert not data.replace("\r\n", "").count("\r")
    physical = data.split("\r\n")[:-1]
    assert max(len(line.encode()) for line in physical) <= 75, "3.1: 75 octets"
    assert not physical[0].startswith(" ")
    lines = data.replace("\r\n ", "").replace("\r\n\t", "").split("\r\n")[:-1]
    open_parts, texts = list[str](), list[str]()
    for line in lines:
        assert _LINE.match(line), line
        name, _, value = line.partition(":")
        name = name.partition(";")[0]
        assert name in _PARTS, line
        if name == "BEGIN":
            open_parts.append(value)
        elif name == "END":
            assert open_parts.pop() == value
        elif name in ("SUMMARY", "DESCRIPTION", "LOCATION", "UID"):
            texts.append(unescaped(value))
    assert open_parts == []
    return texts


def unescaped(value: str) -> str:
    """3.3.11: backslash, semicolon, comma and new line stand behind a backslash, or not at all."""
    found, chars = "", iter(value)
    for char in chars:
        if char == "\\":
            after = next(chars)
            assert after in "\\;,nN", value
            found += "\n" if after in "nN" else after
        else:
            assert char not in ";,", value
            found += char
    return found


def test_a_calendar_takes_it_as_text_by_every_rule(call: Shell, van: Path, text: str) -> None:
    ended = call("report", "calendar", van, *AT)
    assert ended.code == 0, ended.err
    assert not STEERS.search(ended.out.replace("\r\n", ""))
    told = calendar_texts(ended.out)
    as_shown = legible(text.replace("\r\n", "\n"), lines=True)
    assert any(squeezed(as_shown) in squeezed(each) for each in told)
    assert any("Delivery due" in each for each in told)
    assert any("To be finished" in each for each in told)
