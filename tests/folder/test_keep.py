"""The proof before an entry is written: each half of it, on texts that lie in just that half."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

import pytest

from crewboard.folder.cannot import CannotAppend, CannotKeep
from crewboard.folder.edit import keep
from crewboard.folder.edit.keep import day_with
from crewboard.folder.toml.append import appended
from crewboard.logbook.acts import HoursWorked, Noted
from crewboard.logbook.entry import Entry

DAY = date(2026, 5, 2)
AT = datetime(2026, 5, 2, 15)
HOURS = Entry("new2", AT, HoursWorked("tom", 3.5, "deck/lay"), "ada")
OLD = b"""\
date = 2026-05-02
opens = 09:00:00

[entries]
aaaa = { at = 2026-05-02T09:10:00, by = "ada", kind = "hours", who = "ada", hours = 1 }
"""


def test_an_entry_that_reads_back_as_it_was_meant_is_kept() -> None:
    change = day_with("/x", DAY, OLD, [HOURS])
    assert change.after is not None
    assert change.after.startswith(OLD)
    assert change.after.count(b"\n") == OLD.count(b"\n") + 1


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text.replace(b"hours = 3.5", b"hours = 35"),
        lambda text: text.replace(b'task = "deck/lay"', b'task = "deck/trim"'),
        lambda text: text.replace(b"new2", b"new3"),
        lambda text: text.replace(b"T15:00:00", b"T15:01:00"),
    ],
    ids=["hours", "task", "id", "moment"],
)
def test_an_entry_that_would_say_something_else_is_not_kept(
    spoil: Callable[[bytes], bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keep, "appended", lambda text, line: spoil(appended(text, line)))
    with pytest.raises(CannotKeep, match="as it was meant"):
        day_with("/x", DAY, OLD, [HOURS])


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text.replace(b"hours = 1 ", b"hours = 2 "),
        lambda text: text.replace(b"hours = 1 ", b"hours = 1.0 "),
        lambda text: b"\n".join(line for line in text.split(b"\n") if b"aaaa" not in line),
        lambda text: text.replace(b"opens = 09:00:00\n", b""),
        lambda text: text.replace(b"[entries]", b"closes = 16:00:00\n[entries]"),
        lambda text: text + b'bbbb = { at = 2026-05-02T09:10:00, kind = "note", text = "x" }\n',
    ],
    ids=["value", "kind of number", "entry lost", "heading lost", "heading new", "entry new"],
)
def test_nothing_is_kept_that_would_change_what_stands_in_the_file(
    spoil: Callable[[bytes], bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keep, "appended", lambda text, line: spoil(appended(text, line)))
    with pytest.raises(CannotKeep, match="what stands there"):
        day_with("/x", DAY, OLD, [HOURS])


def test_a_line_that_would_break_the_file_is_not_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(keep, "appended", lambda text, line: appended(text, line)[:-3])
    with pytest.raises(CannotKeep, match="would break the file"):
        day_with("/x", DAY, OLD, [HOURS])


@pytest.mark.parametrize(
    "text", [b"[entries]\nx = \n", b'[entries]\nx = """\n', b"\xff[entries]\n"]
)
def test_a_broken_day_is_never_written_over(text: bytes) -> None:
    with pytest.raises(CannotKeep, match="mend it first"):
        day_with("/x", DAY, text, [HOURS])


def test_an_id_that_the_day_has_for_something_else_is_not_written_twice() -> None:
    with pytest.raises(CannotKeep, match="as it was meant"):
        day_with("/x", DAY, OLD.replace(b"aaaa", b"new2"), [HOURS])


def test_a_day_without_entries_takes_none() -> None:
    with pytest.raises(CannotAppend, match=r"no \[entries\]"):
        day_with("/x", DAY, b"date = 2026-05-02\n", [Entry("new2", AT, Noted("x"))])
