"""Commands that look show any text as it was typed; a reader of theirs gets it whole."""

from __future__ import annotations

from pathlib import Path

from crewboard.command.catalogue import CHAPTERS
from crewboard.folder.read.files import is_id
from crewboard.folder.read.folder import Folder
from crewboard.legible import legible
from tests.command.calling import Shell
from tests.naughty import RECORD
from tests.text_is_data.as_shown import AT, STEERS, is_harmless, slow, squeezed, texts_in

LOOKS: list[tuple[str, ...]] = [
    ("day-end",), ("fabric",), ("gaps",), ("waiting",),
    ("day",), ("task", "frame/a"), ("task", "frame/d"), ("why", "frame/b"), ("then", "frame/a"),
    ("holds",), ("vehicle", "--tasks"), ("pieces",), ("crew",), ("log",), ("hazards", "odd"),
    ("unverified", "odd"),
    ("hazards",), ("check",), ("review",), ("supplies",), ("plan-day", "--people", "ada"),
    ("forecast", "--runs", "20"), ("unverified",), ("programme",),
    ("reckon", "form", "--task", "frame/a"),
]  # fmt: skip


def test_the_folder_that_is_full_of_it_has_its_text_in_every_field(van: Path, text: str) -> None:
    folder = Folder(van)
    assert not folder.broken
    odd = {fault.code for fault in folder.faults} - {"unknown-name", "picture", "out-of-range"}
    if is_id(text):  # a note of the logbook is on a component of that name
        odd -= {"missing-file"}
    assert odd <= {"empty"}, folder.faults
    assert folder.plan.tasks["frame/a"].title == text
    assert folder.plan.crew["ada"].note == text
    assert len(folder.logbook.days) == 1
    (day,) = folder.logbook.days.values()
    assert len(day.entries) == 26 + 2 * len(RECORD)
    assert {type(entry.act) for entry in day.entries} >= {kind.act for kind in RECORD}


@slow
def test_every_command_that_looks_shows_it_as_typed(call: Shell, van: Path, text: str) -> None:
    shown = ""
    for name, *rest in LOOKS:
        at = () if name in ("hazards", "unverified") else AT
        ended = call(name, van, *rest, *at)
        assert ended.code in (0, 1), (name, ended.err)
        is_harmless(ended)
        shown += ended.out
        given = call(name, van, *rest, *at, "--json")
        assert given.out.isascii()
        assert not STEERS.search(given.out)
        told = list(texts_in(given.form))
        if name in ("task", "log", "crew"):
            assert any(text in each for each in told), name
    assert squeezed(legible(text))[:1000] in squeezed(shown)


def test_the_commands_that_were_looked_at_are_all_there_are() -> None:
    assert {each[0] for each in LOOKS} == set(CHAPTERS["Look"])
