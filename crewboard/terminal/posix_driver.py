"""The toolkit's way to a terminal, made to outlast what terminals and their owners do.

A byte that is no UTF-8, a mouse report in the old form or a key report that makes no sense is
passed over; a terminal that is gone, and a signal from outside, end the screens in good order.
"""

from __future__ import annotations

import os
import re
import selectors
import signal
from codecs import getincrementaldecoder
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from textual import events
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver
from textual.message import Message

if TYPE_CHECKING:
    from textual.app import App

# The form of 1986: three bytes for button, column and line, each 32 and more, and no UTF-8 beyond
# column 95. Nothing here asks for it.
_OLD_MOUSE = re.compile(rb"\x1b\[M[\s\S]{3}")
_ENDS = ("SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT")
_LOOKS = 0.1  # seconds between two looks whether the screens are being left
_PIECE = 4096  # bytes read at once


class Typing:
    """The text of the bytes that come from a keyboard, whatever else is among them."""

    def __init__(self) -> None:
        self._decode = getincrementaldecoder("utf-8")("replace").decode
        self._rest = b""  # a mouse report of which the end is still to come

    def text(self, data: bytes) -> str:
        data = _OLD_MOUSE.sub(b"", self._rest + data)
        start = data.rfind(b"\x1b[M")
        self._rest = data[start:] if start >= 0 else b""
        return self._decode(data[: len(data) - len(self._rest)])

    def pause(self) -> str:
        """Nothing came for a while: what looked like the start of a report was typed."""
        rest, self._rest = self._rest, b""
        return self._decode(rest)


class PosixDriver(LinuxDriver):
    """`app` has a method `end_from_outside(signal)`."""

    def __init__(self, app: App[Any], **options: Any) -> None:
        self._suspended = False
        super().__init__(app, **options)
        self._file: Any = _Screen(self._file)
        self._end: Callable[[int], None] = getattr(app, "end_from_outside", lambda _: app.exit())
        for name in _ENDS:
            number = getattr(signal, name)
            if signal.getsignal(number) is not signal.SIG_IGN:  # as under nohup
                self._loop.add_signal_handler(number, self._end, number)

    # --- stopped and gone on with --------------------------------------------------------------

    def suspend_application_mode(self) -> None:
        self._suspended = True
        super().suspend_application_mode()

    def resume_application_mode(self) -> None:
        self._suspended = False
        super().resume_application_mode()

    def _sigtstp_application(self, *_: object) -> None:
        """Stop in the loop's turn: here the terminal may be in the middle of being drawn. While it
        is lent to an editor there is nothing to draw, and the loop has no turn."""
        if self._auto_restart:
            self._loop.call_soon_threadsafe(super()._sigtstp_application)
        else:
            super()._sigtstp_application()

    def _sigcont_application(self, *_: object) -> None:
        if self._auto_restart:
            self._loop.call_soon_threadsafe(self._go_on)

    def _go_on(self) -> None:
        """Who was stopped by force did not leave the terminal before: it is set up from anew."""
        if not self._suspended:
            self.suspend_application_mode()
        self.resume_application_mode()

    # --- what is typed -------------------------------------------------------------------------

    def run_input_thread(self) -> None:
        """Read keys until the screens are left."""
        typing = Typing()
        keys = _Keys(self._debug)
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                try:
                    data = os.read(self.fileno, _PIECE) if selector.select(_LOOKS) else None
                except OSError:
                    data = b""
                if data == b"":  # there is no terminal any more
                    self._loop.call_soon_threadsafe(self._end, signal.SIGHUP)
                    return
                for message in keys.of(typing.text(data) if data else typing.pause()):
                    self.process_message(message)

    def process_message(self, message: Message) -> None:
        if isinstance(message, events.Resize) and not self._in_band_window_resize:
            return  # only a terminal that was asked to tells of its size in this way
        super().process_message(message)


class _Keys:
    """Keys and reports, as the toolkit takes them out of a text."""

    def __init__(self, debug: bool) -> None:
        self._debug = debug
        self._parser = XTermParser(debug)

    def of(self, text: str) -> Iterator[Message]:
        """Sign by sign, so that only what makes no sense is lost, and nothing behind it."""
        for sign in text:
            try:
                yield from self._parser.feed(sign)
            except (ArithmeticError, ValueError, LookupError, StopIteration):
                self._parser = XTermParser(self._debug)
        yield from self._parser.tick()


class _Screen:
    """The terminal's other end. Where it is gone, what is drawn goes nowhere."""

    def __init__(self, file: Any) -> None:
        self._file = file

    def write(self, text: str) -> None:
        with suppress(OSError, ValueError):
            self._file.write(text)

    def flush(self) -> None:
        with suppress(OSError, ValueError):
            self._file.flush()

    def fileno(self) -> int:
        return int(self._file.fileno())
