"""The screens in a terminal of their own: a pseudo-terminal, with a person at its other end."""

from __future__ import annotations

import fcntl
import os
import re
import select
import signal
import struct
import sys
import termios
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.terminal.shop import day_file

REPOSITORY = Path(__file__).parents[2]
PATIENCE = 30.0  # seconds
_STEERS = re.compile(r"\x1b\[[0-9;:?<>=]*[ -/]*[@-~]|\x1b[@-Z\\-_]")
# What is switched on while the screens are open, and has to be off again after them.
SWITCHED = {b"\x1b[?1049h": b"\x1b[?1049l", b"\x1b[?1003h": b"\x1b[?1003l"} | {
    b"\x1b[?2004h": b"\x1b[?2004l", b"\x1b[?25l": b"\x1b[?25h", b"\x1b[?1004h": b"\x1b[?1004l"
}  # fmt: skip


class RealTerminal:
    """A program in a pseudo-terminal: what it drew, and keys and signals for it."""

    def __init__(
        self,
        typed: list[str],
        *,
        size: tuple[int, int] = (100, 30),
        program: str = "",
        env: dict[str, str] | None = None,
    ) -> None:
        self.drawn = b""
        self.code: int | None = None
        self.master, self.slave = os.openpty()
        self.resize(*size)
        self.modes_before = self.modes()
        ours = {"TERM": "xterm-256color", "PYTHONPATH": str(REPOSITORY)} | (env or {})
        start = ["-c", program] if program else ["-m", "crewboard"]
        self.pid = os.fork()
        if self.pid == 0:
            try:
                os.setsid()
                fcntl.ioctl(self.slave, termios.TIOCSCTTY, 0)
                for number in range(3):
                    os.dup2(self.slave, number)
                os.closerange(3, 256)
                for number in (signal.SIGHUP, signal.SIGINT, signal.SIGQUIT):
                    signal.signal(number, signal.SIG_DFL)  # the tests may run under nohup
                for name in ("COLUMNS", "LINES", "NO_COLOR", "COLORTERM", "CREWBOARD_BY"):
                    os.environ.pop(name, None)
                os.execve(sys.executable, [sys.executable, *start, *typed], {**os.environ, **ours})
            finally:
                os._exit(127)

    def __enter__(self) -> RealTerminal:
        return self

    def __exit__(self, *_: object) -> None:
        if self.code is None:
            os.kill(self.pid, signal.SIGKILL)
            self.ended()
        for descriptor in (self.master, self.slave):
            if descriptor >= 0:
                os.close(descriptor)

    # --- the person ----------------------------------------------------------------------------

    def type(self, keys: bytes | str) -> None:
        os.write(self.master, keys.encode() if isinstance(keys, str) else keys)

    def signal(self, number: int) -> None:
        os.kill(self.pid, number)

    def resize(self, wide: int, high: int) -> None:
        fcntl.ioctl(self.master, termios.TIOCSWINSZ, struct.pack("HHHH", high, wide, 0, 0))

    def hang_up(self) -> None:
        """The window is closed, or the line to it breaks."""
        for descriptor in (self.slave, self.master):
            os.close(descriptor)
        self.master = self.slave = -1

    # --- what is seen --------------------------------------------------------------------------

    def look(self, seconds: float = 0.05) -> None:
        """Take in what is drawn within that time."""
        end = time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0 and self.master >= 0:
            if select.select([self.master], [], [], left)[0]:
                try:
                    self.drawn += os.read(self.master, 65536)
                except OSError:
                    return

    def until(self, text: str, *, since: int = 0) -> None:
        """Wait until the text is drawn, `since` so many bytes."""
        self.until_true(lambda: text in self.words(since))

    def until_true(self, condition: Callable[[], object]) -> None:
        end = time.monotonic() + PATIENCE
        while not condition():
            assert time.monotonic() < end, f"waited in vain:\n{self.words()[-3000:]}"
            assert self.lives(), f"it ended with {self.code}:\n{self.words()[-3000:]}"
            self.look()

    def words(self, since: int = 0) -> str:
        """What was drawn `since` so many bytes, without what steers the terminal."""
        return _STEERS.sub("", self.drawn[since:].decode(errors="replace"))

    def lives(self) -> bool:
        if self.code is None:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self.code = os.waitstatus_to_exitcode(status)
        return self.code is None

    def ended(self, seconds: float = PATIENCE) -> int:
        """The exit code, once it ended by itself; minus the signal's number if one killed it."""
        end = time.monotonic() + seconds
        while self.lives():
            if time.monotonic() > end:
                os.kill(self.pid, signal.SIGKILL)
                raise AssertionError(f"it went on:\n{self.words()[-3000:]}")
            self.look()
        self.look()
        assert self.code is not None
        return self.code

    def modes(self) -> list[Any]:
        return termios.tcgetattr(self.slave)

    def is_as_before(self) -> bool:
        """Whether the terminal is as it was before the screens were opened."""
        off = all(
            self.drawn.rfind(last) > self.drawn.rfind(first)
            for first, last in SWITCHED.items()
            if first in self.drawn
        )
        return off and self.modes() == self.modes_before

    @property
    def after(self) -> str:
        """What is said once the screen before has come back."""
        return self.drawn.rpartition(b"\x1b[?1049l")[2].decode(errors="replace")


def write_a_note(terminal: RealTerminal, van: Path, text: str) -> None:
    """The screens still do what they are for."""
    so_far = len(terminal.drawn)
    terminal.type("n")
    terminal.until("Enter save", since=so_far)
    terminal.type(text)
    terminal.until(text, since=so_far)
    terminal.type("\r")
    terminal.until_true(lambda: text in day_file(van))
