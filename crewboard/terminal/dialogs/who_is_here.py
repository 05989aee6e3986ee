"""Who is in the shop: marks that are changed, and the time as of which they changed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from typing import Literal

from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.widgets.rows import RowList

Wish = Literal["", "guest", "times"]
_OF_A_TIME = "0123456789:."
_LONGEST = len("10:05")


class WhoIsHere(PickSeveral):
    """Answers who is marked. `at` is when they came or went: now, or the time that was typed, since
    no name begins with a figure. `wish` says that something else is wanted first: to sign a guest
    in, or to correct when the person of `about` came and went.
    """

    def __init__(
        self,
        choices: Sequence[Choice],
        *,
        marked: Iterable[str],
        intro: str,
        now: datetime,
        cursor: str = "",
    ) -> None:
        super().__init__(
            "Sign in and out", choices, marked=marked, intro=intro, at=cursor, none_too=True
        )
        self.now = now
        self.at: datetime | None = None
        self.wish: Wish = ""
        self.about = ""
        self._time = ""

    @property
    def clock(self) -> str:
        """The time as it was typed; empty where none was."""
        return self._time

    def acts(self) -> dict[str, Callable[[], None]]:
        wishes = {"ctrl+g": self._guest, "ctrl+e": self._times}
        return super().acts() | wishes

    def foot(self) -> str:
        if self._time:
            return f"signed in or out at {self._time}_   Backspace back   Enter OK   Esc cancel"
        if self._typed:
            return super().foot()
        return "Space mark   Ctrl+G guest   Ctrl+E times   Enter OK   Esc cancel"

    def action_shorten(self) -> None:
        if self._time and not self._typed:
            self._time = self._time[:-1]
            self._say_foot()
        else:
            super().action_shorten()

    def _type(self, text: str) -> None:
        new = text[len(self._typed) :]
        if new and new in _OF_A_TIME and not self._typed:
            if len(self._time) < _LONGEST:
                self._time += new
                self._say_foot()
            return
        super()._type(text)

    def action_accept(self) -> None:
        self.at = None
        if self._time:
            try:
                clock = as_typed.clock(self._time)
            except Unread as unread:
                return self._wrong(str(unread))
            self.at = datetime.combine(self.now.date(), clock)
            if self.at > self.now:
                return self._wrong(f"{self._time} is later than it is now: Backspace takes it back")
        super().action_accept()
        return None

    def _wrong(self, sentence: str) -> None:
        self.app.bell()
        self._foot(sentence)

    def _guest(self) -> None:
        self._go("guest")

    def _times(self) -> None:
        at = self.query_one(RowList).at
        if at:
            self._go("times", at)

    def _go(self, wish: Wish, about: str = "") -> None:
        self.wish, self.about = wish, about
        self.dismiss(())
