"""The form of a reckoning: what its kind asks for, filled in with what the folder knows."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, ClassVar

from textual import events
from textual.content import Content
from textual.widgets import Input, Static

from crewboard.legible import legible
from crewboard.order.admit.refusal import Refusal
from crewboard.plan.as_typed import Unread
from crewboard.telling.reckoning import asked_for
from crewboard.terminal.forms.fields import Typed
from crewboard.terminal.forms.form import Form
from crewboard.trade.given import Ask, Known
from crewboard.trade.kind import KindOfReckoning

Take = Callable[[Mapping[str, str]], None]
"""Works out the answer from what was typed. Raises Unread."""
_BY_OPTION = '=..."'  # hints that say how it is written behind a command


class AskedLine(Typed):
    """One thing that is asked for. What the folder knows of it stands there already, and counts as
    known while nobody changes it."""

    def __init__(self, asked: Ask, known: Known | None, typed: str | None) -> None:
        self.asked, self.known = asked, known
        self._before = known.typed if known is not None else ""
        stands = self._before if typed is None else typed
        super().__init__(asked.name, asked.called, stands, _anew, _hint(asked))

    @property
    def touched(self) -> bool:
        return self.said != self._before.strip()


def _anew(typed: str) -> str | None:
    return typed.strip() or None


def _hint(asked: Ask) -> str:
    if asked.words:
        return " or ".join(asked.words)
    if asked.otherwise:
        return f"otherwise {asked.otherwise}"
    shown = asked.typed_as
    return shown if asked.needed else f"optional{f': {shown}' if shown else ''}"


class ReckonForm(Form):
    """Answers True once `take` could work it out. `known` is what the folder says, `typed` what was
    typed before: empty where somebody struck out what is known."""

    keys: ClassVar[str] = "Tab, arrows next   Enter reckon   Esc cancel"
    more_keys: ClassVar[tuple[tuple[str, str], ...]] = (
        ("Tab, arrows", "next line, or the one before"),
        ("Enter", "reckon; while something is missing it goes there first"),
        ("Ctrl+S", "reckon, as Enter does"),
        ("Esc", "cancel: nothing is written"),
    )
    deed: ClassVar[str] = "reckon"
    refuses: ClassVar[str] = "Not reckoned"
    widest_label: ClassVar[int] = 36

    def __init__(
        self,
        title: str,
        kind: KindOfReckoning,
        known: Mapping[str, Known],
        typed: Mapping[str, str],
        take: Take,
    ) -> None:
        self.blanks = [
            AskedLine(asked, known.get(asked.name), typed.get(asked.name))
            for asked in kind.asks
            if asked.name != kind.way
        ]
        self.take = take
        self._anew = bool(typed)
        super().__init__(title, self.blanks, self._take, whole=True, intro=" ")

    def opened(self) -> None:
        super().opened()
        empty = [blank for blank in self.blanks if not blank.said]
        missing = [blank for blank in empty if blank.asked.needed]
        fresh = empty if not self._anew else []
        first = next(iter((*missing, *fresh, *self.blanks)))
        first.control().focus()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """The whole of what is asked, and where what stands there comes from."""
        for blank in self.blanks:
            if blank.control() is event.widget:
                told = Content(legible(asked_for(blank.asked, blank.known)))
                self.query_one(".intro", Static).update(told)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Enter reckons, once nothing is missing that is needed."""
        event.stop()
        missing = self._missing()
        if missing is None or missing.control() is event.input:
            self.action_keep()
        else:
            missing.control().focus()

    def _missing(self) -> AskedLine | None:
        wanted = (b for b in self.blanks if b.asked.needed and not b.asked.otherwise)
        return next((blank for blank in wanted if not blank.said), None)

    def _take(self, _: Mapping[Any, Any]) -> Sequence[Refusal]:
        if (missing := self._missing()) is not None:
            missing.control().focus()
            return [Refusal("missing", f"{missing.label} is missing")]
        try:
            self.take({blank.asked.name: blank.said for blank in self.blanks if blank.touched})
        except Unread as unread:
            for blank in self.blanks:
                called = blank.asked.called
                if unread.sentence.startswith((f"{called}:", f"{called} is missing")):
                    blank.control().focus()
            mend = "" if _BY_OPTION in unread.hint else unread.hint
            return [Refusal("unread", unread.sentence, mend)]
        return []
