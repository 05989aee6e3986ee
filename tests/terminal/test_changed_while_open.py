"""The program is upgraded while its screens are open: they say so, stay, and lose nothing."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from crewboard.terminal.as_opened import CHANGED, HERE
from crewboard.terminal.broken_off import broken_off
from tests.terminal.real_terminal import RealTerminal, write_a_note
from tests.terminal.shop import make_shop

START = """
import sys
sys.path.insert(0, {program!r})
from crewboard.command.run import main
sys.exit(main(sys.argv[1:]))
"""
OPENED = ["--at", "2026-05-02T09:00", "--by", "ada"]


def as_a_pull_does(file: Path, text: str) -> None:
    """Puts the new file in the place of the old one."""
    beside = file.with_name("new")
    beside.write_text(text)
    beside.replace(file)


def test_a_page_or_an_act_that_was_changed_is_not_opened_any_more_and_all_else_goes_on(
    tmp_path: Path,
) -> None:
    program = tmp_path / "program"
    shutil.copytree(HERE, program / HERE.name)
    van = make_shop(tmp_path / "van")
    passing = tmp_path / "passing"
    passing.mkdir()
    start, ours = START.format(program=str(program)), {"TMPDIR": str(passing)}
    screens, doing = (program / HERE.name / "terminal" / room for room in ("screens", "doing"))
    with RealTerminal([str(van), *OPENED], program=start, env=ours) as terminal:
        terminal.until("Scrape the frame")
        # A page and an act that want what the rest, as it was loaded, does not have; one is gone.
        as_a_pull_does(screens / "vehicle.py", "from crewboard.telling import track\n")
        as_a_pull_does(doing / "reading.py", "raise TypeError('a new argument')\n")
        (screens / "supplies.py").unlink()
        for key in (b"\x1bOR", b"r", b"\x1b[18~"):  # F3, r, F7
            before = len(terminal.drawn)
            terminal.type(key)
            terminal.until(CHANGED[:40], since=before)
            write_a_note(terminal, van, f"after {len(key)}")
        terminal.type("q")
        assert terminal.ended() == 0
        assert "Traceback" not in terminal.words()
    assert not list(passing.glob("crewboard-fault-*"))


def test_what_was_typed_when_it_shows_goes_into_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    said = broken_off(TypeError("a new argument"), ["two coats"], changed=True)
    (typed,) = tmp_path.iterdir()
    assert typed.read_text() == "two coats\n"
    assert said == (
        "crewboard: the screens broke off, since Crewboard was changed while it was open: open it "
        "again; what was written before is saved; what was typed and not saved yet stands in "
        f"{typed}"
    )
