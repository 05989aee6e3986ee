"""Pick one or several from a list; typing filters it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from typing import ClassVar, NamedTuple

from textual import events
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from crewboard.legible import legible
from crewboard.telling.line import Tone
from crewboard.telling.row import Row
from crewboard.terminal.dialogs.dialog import Dialog, T
from crewboard.terminal.widgets.rows import Column, RowList

_NAMED = "~named"
_ROOM = 62  # cells for a choice and its note in a window of 80


class Choice(NamedTuple):
    """One thing to pick. `id` empty: a heading. `note` stands beside it, `tone` colours it."""

    id: str
    text: str
    note: str = ""
    tone: Tone = "plain"
    find: str = ""


def with_key(choice: Choice, keys: Mapping[str, str]) -> Choice:
    """The choice with the key beside it that gives it without a list, where it has one."""
    key = keys.get(choice.id)
    return choice._replace(note=f"{key}  {choice.note}".rstrip()) if key else choice


class _Pick(Dialog[T]):
    """A list with a filter that is typed straight away."""

    several: ClassVar[bool] = False
    typed_in: ClassVar[bool] = True
    more_keys: ClassVar[tuple[tuple[str, str], ...]] = (
        ("letters", "only what has these letters stays in the list"),
        ("Backspace", "takes the last letter back"),
        ("arrows", "up and down; PgUp and PgDn too"),
    )

    def __init__(
        self,
        title: str,
        choices: Sequence[Choice],
        *,
        marked: Iterable[str] = (),
        intro: str = "",
        at: str = "",
        empty: str = "nothing to pick from",
        none_too: bool = False,
    ) -> None:
        super().__init__(title)
        self.none_too = none_too
        self.choices = tuple(choices)
        self.marked = dict.fromkeys(marked)
        self.intro = intro
        self._at = at
        self._empty = empty
        self._typed = ""

    def inside(self) -> Iterable[Widget]:
        if self.intro:
            yield Static(Content(legible(self.intro, lines=True)), classes="intro")
        noted = max((len(c.note) for c in self.choices), default=0)
        # Notes find at least half of the room, and what the longest choice leaves.
        noted = min(noted, max(34, _ROOM - max((len(c.text) for c in self.choices), default=0)))
        columns = (Column(), Column(noted)) if noted else (Column(),)
        yield RowList(columns, self._rows(), empty=self._empty)

    def opened(self) -> None:
        rows = self.query_one(RowList)
        self.fit()
        if self._at:
            rows.go_to(self._at)
        rows.focus()

    def fit(self) -> None:
        room = self.app.size.height - (8 if not self.intro else 11)
        self.query_one(RowList).styles.height = max(1, min(len(self.choices), room))

    def foot(self) -> str:
        if self._typed:
            return f"find: {self._typed}_   Backspace back   {self.keys}"
        return f"letters find   {self.keys}"

    def _rows(self) -> list[Row]:
        return [
            Row(
                c.id,
                (c.text, c.note),
                c.tone,
                marked=(c.id in self.marked) if self.several else None,
                find=c.find,
                body_tone="faint",
            )
            for c in self.choices
        ]

    def on_key(self, event: events.Key) -> None:
        """Every key is taken here, in the order of typing: bindings would come in later."""
        character = event.character
        if (act := self.acts().get(event.key)) is not None:
            act()
        elif character is None or not character.isprintable():
            return
        elif character != " " or self._typed:
            self._type(self._typed + character)
        event.stop()
        event.prevent_default()

    def acts(self) -> dict[str, Callable[[], None]]:
        """What the keys do that are no letters."""
        return {
            "up": partial(self.action_step, -1),
            "down": partial(self.action_step, 1),
            "pageup": partial(self.action_page, -1),
            "pagedown": partial(self.action_page, 1),
            "enter": self.action_accept,
            "backspace": self.action_shorten,
            "escape": self.action_leave,
        }

    def action_shorten(self) -> None:
        self._type(self._typed[:-1])

    def _type(self, text: str) -> None:
        rows = self.query_one(RowList)
        if text and len(text) > len(self._typed) and not self._answers(text):
            self.app.bell()
            return
        self._typed = text
        rows.query_text = text
        rows.fill(self._rows(), at="" if text else None)
        self._say_foot()

    def _answers(self, text: str) -> bool:
        """Whether anything stays in the list for it."""
        return _any(self.choices, text)

    def _say_foot(self) -> None:
        self._foot(self.foot())

    def _foot(self, sentence: str) -> None:
        self.query_one("#foot", Static).update(Content(legible(sentence)))

    def action_step(self, step: int) -> None:
        self.query_one(RowList).action_step(step)

    def action_page(self, step: int) -> None:
        self.query_one(RowList).action_page(step)

    def action_accept(self) -> None:
        raise NotImplementedError

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        event.stop()
        self.action_accept()


def _any(choices: Iterable[Choice], text: str) -> bool:
    from crewboard.terminal.matching import matches

    return any(c.id and matches(text, f"{c.text} {c.note} {c.find}") is not None for c in choices)


class PickOne(_Pick[str]):
    """Answers the id of the choice, None when left."""

    keys: ClassVar[str] = "Enter OK   Esc cancel"

    def action_accept(self) -> None:
        at = self.query_one(RowList).at
        if at:
            self.dismiss(at)


class PickOrName(PickOne):
    """Answers the id of the choice, or what was typed where that stands in none of them.

    What was typed stands last, under `new`: a choice in which it occurs goes before it.
    """

    def __init__(self, title: str, choices: Sequence[Choice], *, new: str) -> None:
        super().__init__(title, choices)
        self._new = new

    def _rows(self) -> list[Row]:
        rows = super()._rows()
        named = self._typed.strip()
        if not named or any(named.casefold() == c.text.casefold() for c in self.choices):
            return rows
        meant = [row for row in rows if named.casefold() in " ".join(row.cells).casefold()]
        return [*meant, Row("", (self._new,)), Row(_NAMED, (named, ""))]

    def _answers(self, text: str) -> bool:
        return bool(text)

    def action_accept(self) -> None:
        at = self.query_one(RowList).at
        self.dismiss(self._typed.strip()) if at == _NAMED else super().action_accept()


class PickSeveral(_Pick[tuple[str, ...]]):
    """Answers the ids marked, in the order of the list.

    Enter while a filter is typed marks the row at the cursor first. With none marked the one at
    the cursor is meant, unless `none_too`: then the answer may be empty.
    """

    keys: ClassVar[str] = "Space mark   Ctrl+A all   Enter OK   Esc cancel"
    several: ClassVar[bool] = True

    def acts(self) -> dict[str, Callable[[], None]]:
        marks = {"space": self.action_mark, "ctrl+a": self.action_mark_all}
        return super().acts() | marks

    def on_key(self, event: events.Key) -> None:
        if event.key == "space" and self._goes_on_with_a_number():
            self._type(f"{self._typed} ")
            event.stop()
            event.prevent_default()
            return
        super().on_key(event)

    def _goes_on_with_a_number(self) -> bool:
        """Whether what is typed is the name that several have with a number: the space of "rib 3"
        belongs to it, and marks nothing."""
        named = f"{self._typed.casefold()} "
        texts = (choice.text.casefold() for choice in self.choices if choice.id)
        return self._typed != "" and any(
            text.startswith(named) and text.removeprefix(named).isdecimal() for text in texts
        )

    def action_mark(self) -> None:
        rows = self.query_one(RowList)
        at = rows.at
        if not at:
            return
        if at in self.marked:
            del self.marked[at]
        else:
            self.marked[at] = None
        self._typed = rows.query_text = ""
        rows.fill(self._rows(), at=at)
        self._say_foot()

    def action_mark_all(self) -> None:
        ids = [row.id for row in self.query_one(RowList).rows if row.id]
        if all(row_id in self.marked for row_id in ids):
            for row_id in ids:
                del self.marked[row_id]
        else:
            self.marked |= dict.fromkeys(ids)
        self.query_one(RowList).fill(self._rows())

    def action_accept(self) -> None:
        at = self.query_one(RowList).at
        if self._typed and at:
            self.marked[at] = None
        chosen = tuple(c.id for c in self.choices if c.id in self.marked)
        if not chosen and at and not self.none_too:
            chosen = (at,)
        if chosen or self.none_too:
            self.dismiss(chosen)

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        event.stop()
        self.action_mark()  # a click on the row under the cursor
