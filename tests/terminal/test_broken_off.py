"""A fault of the screens themselves: one sentence, the terminal as it was, and no good exit."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

import pytest

from crewboard.command.exits import Exit
from tests.terminal.shop import make_shop

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs a pseudo-terminal")

REPOSITORY = Path(__file__).parents[2]
PROGRAM = """
import sys
from crewboard.command.run import main
from crewboard.terminal.screens.work_day import WorkDayPage

def fault(page):
    raise KeyError("sawdust\\x1b[31m")

def fault_of_a_worker(page):
    async def work():
        fault(page)
    page.run_worker(work())

WorkDayPage.action_why = fault
WorkDayPage.action_hours = fault_of_a_worker
sys.exit(main(sys.argv[1:]))
"""


def run_and_press(root: Path, scratch: Path, key: bytes) -> tuple[int, str]:
    """The exit code of the screens and all that they drew, `key` pressed once they are there."""
    import pty
    import select

    pid, descriptor = pty.fork()
    if pid == 0:
        os.environ |= {"TERM": "xterm-256color", "PYTHONPATH": str(REPOSITORY)}
        os.environ |= {"TMPDIR": str(scratch), "COLUMNS": "100", "LINES": "30"}
        os.execv(sys.executable, [sys.executable, "-c", PROGRAM, str(root)])
    drawn = b""
    pressed = False
    while select.select([descriptor], [], [], 60)[0]:
        try:
            piece = os.read(descriptor, 65536)
        except OSError:  # the other end is closed
            break
        if not piece:
            break
        drawn += piece
        if not pressed and b"Scrape the frame" in drawn:
            pressed = True
            os.write(descriptor, key)
    os.close(descriptor)
    _, status = os.waitpid(pid, 0)
    return os.waitstatus_to_exitcode(status), drawn.decode(errors="replace")


@pytest.mark.parametrize("key", [b"w", b"h"], ids=["in a key", "in a worker"])
def test_a_fault_of_the_screens_ends_them_with_one_sentence_and_no_good_exit(
    key: bytes, tmp_path: Path
) -> None:
    scratch = tmp_path / "passing"
    scratch.mkdir()
    code, drawn = run_and_press(make_shop(tmp_path / "van"), scratch, key)
    assert code == Exit.BROKE_OFF
    before, _, after = drawn.rpartition("\x1b[?1049l")  # the screen as it was before
    assert "\x1b[?25h" in drawn[len(before) - 200 :]  # and its cursor
    said = " ".join(re.sub(r"\x1b\[[0-9;?<>a-zA-Z]*?[a-zA-Z]", "", after).split())
    assert said.startswith("crewboard: the screens broke off (KeyError: 'sawdust")
    assert "what was written before is saved" in said
    assert "Traceback" not in drawn
    assert "\x1b[31m" not in after
    (kept,) = scratch.glob("crewboard-fault-*.txt")
    assert "in fault" in kept.read_text()
