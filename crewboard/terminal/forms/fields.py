"""The fields of a form: a line to type in, a yes or no, something picked."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events, work
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.legible import legible
from crewboard.plan.as_typed import Today
from crewboard.terminal.forms.reading import AS_OF, needed, restored, text, words

if TYPE_CHECKING:
    from crewboard.folder.edit.plan_edits import Key
    from crewboard.logbook.fields import Only


class Field:
    """One line of a form. `key` is the key in the file, `value` what stands there now.

    `only`: it is asked for only where another field of the form says that; and where something
    stands in it all the same.
    """

    only: Only | None = None

    def __init__(self, key: Key, label: str, value: Any) -> None:
        self.key, self.label, self.value = key, label, value

    def control(self) -> Widget:
        """The widget that takes the keys; made once."""
        raise NotImplementedError

    def answer(self) -> Any:
        """What is typed or picked now. Raises Wrong."""
        raise NotImplementedError

    def shown(self) -> str:
        """What stands there now, as a person reads it."""
        raise NotImplementedError

    @property
    def said(self) -> Any:
        """What stands there now, as it is, whether it can be read or not."""
        raise NotImplementedError

    @property
    def touched(self) -> bool:
        raise NotImplementedError


class Typed(Field):
    """A line to type in; `read` makes a value of what was typed."""

    def __init__(
        self,
        key: Key,
        label: str,
        typed: str = "",
        read: Callable[[str], Any] = text,
        hint: str = "",
    ) -> None:
        super().__init__(key, label, typed)
        self._read = read
        # A date, a time or a number is typed anew; a name or a text is gone on with.
        anew = read not in (text, needed, words)
        # In brackets, so that without colour too it is seen that nothing stands there yet.
        hint = f"({hint})" if hint else ""
        self._input = Input(
            legible(typed), placeholder=hint, select_on_focus=anew, classes="control"
        )

    def control(self) -> Widget:
        return self._input

    def answer(self) -> Any:
        board = getattr(self._input.app, "board", None)
        if board is not None:
            AS_OF.set(Today(board.at.date(), board.plan.vehicle.work_days))
        return self._read(restored(self._input.value, self.value))

    def shown(self) -> str:
        return restored(self._input.value, str(self.value))

    @property
    def said(self) -> str:
        return self.shown().strip()

    @property
    def touched(self) -> bool:
        return self.shown() != str(self.value)


class FieldLine(Static, can_focus=True):
    """What is picked, on one line; Space changes it, and Enter where that opens a list."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "enter", "change", show=False),
        Binding("space", "change", "change", show=False),
        Binding("delete,backspace", "clear", "clear", show=False),
    ]

    class PickedNow(Message):
        """Something else is picked now."""

    def __init__(self, field: Shown) -> None:
        super().__init__(classes="control line")
        self.field = field

    def on_mount(self) -> None:
        self.show()

    def show(self) -> None:
        self.update(Content(legible(self.field.shown()) or "-"))
        self.post_message(self.PickedNow())

    def on_click(self) -> None:
        if self.has_focus:
            self.action_change()
        else:
            self.focus()

    def action_enter(self) -> None:
        """Going on from field to field with Enter changes nothing by the way."""
        if self.field.opens:
            self._change()
        else:
            self.screen.focus_next()

    def action_change(self) -> None:
        self._change()

    def on_key(self, event: events.Key) -> None:
        if self.field.typed(event.key):
            event.stop()
            self.show()

    @work(exclusive=True)
    async def _change(self) -> None:
        await self.field.change(self)
        self.show()

    def action_clear(self) -> None:
        self.field.clear(self)
        self.show()


class Shown(Field):
    """A field whose value is shown on a line and changed elsewhere; `opens`: in a list."""

    opens: ClassVar[bool] = True

    def __init__(self, key: Key, label: str, value: Any) -> None:
        super().__init__(key, label, value)
        self.now = value
        self._line = FieldLine(self)

    def control(self) -> Widget:
        return self._line

    def answer(self) -> Any:
        return self.now

    @property
    def said(self) -> Any:
        return self.now

    @property
    def touched(self) -> bool:
        return bool(self.now != self.value)

    async def change(self, line: FieldLine) -> None:
        raise NotImplementedError

    def clear(self, line: FieldLine) -> None:
        """Backspace: nothing picked."""

    def typed(self, key: str) -> bool:  # noqa: ARG002
        """Take a letter typed on the line; whether it was one that says something."""
        return False


class YesNo(Shown):
    """Space turns it round; y and n say it."""

    opens = False

    def shown(self) -> str:
        return "yes" if self.now else "no"

    async def change(self, line: FieldLine) -> None:  # noqa: ARG002
        self.now = not self.now

    def typed(self, key: str) -> bool:
        if key in ("y", "n"):
            self.now = key == "y"
        return key in ("y", "n")

    def clear(self, line: FieldLine) -> None:  # noqa: ARG002
        self.now = False

    def answer(self) -> Any:
        return True if self.now else None
