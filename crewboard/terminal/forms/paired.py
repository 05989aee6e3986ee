"""A field of things picked from a list, each with something typed beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import FieldLine, Shown
from crewboard.terminal.forms.reading import Wrong

if TYPE_CHECKING:
    from crewboard.folder.edit.plan_edits import Key


class Paired(Shown):
    """Each thing with its value: "Fit: 2", "Blast: 4 hours". What is left empty goes out of it.

    `read` makes a value of what was typed, or raises Wrong; `asks` is what stands over the line.
    """

    def __init__(
        self,
        key: Key,
        label: str,
        value: Mapping[str, Any],
        choices: Callable[[], Sequence[Choice]],
        *,
        read: Callable[[str], Any],
        asks: str,
        hint: str = "",
    ) -> None:
        super().__init__(key, label, dict(value))
        self.choices, self._read, self._asks, self._hint = choices, read, asks, hint

    def shown(self) -> str:
        names = {choice.id: choice.text.strip() for choice in self.choices()}
        return ", ".join(f"{names.get(key, key)}: {value}" for key, value in self.now.items())

    async def change(self, line: FieldLine) -> None:
        from crewboard.terminal.dialogs.ask import AskLine
        from crewboard.terminal.dialogs.pick import PickOne

        known = list(self.choices())
        listed = {choice.id for choice in known}
        stray = [Choice(key, key) for key in self.now if key not in listed]
        picked = await line.app.push_screen_wait(
            PickOne(self.label, [*stray, *map(self._with_value, known)])
        )
        if picked is None:
            return
        name = next((choice.text.strip() for choice in known if choice.id == picked), picked)
        value = str(self.now.get(picked, ""))
        ask = AskLine(
            name, self._asks, value=value, hint=self._hint, needed=False, check=self._wrong
        )
        typed = await line.app.push_screen_wait(ask)
        if typed is not None:
            self._put(picked, typed)

    def _with_value(self, choice: Choice) -> Choice:
        value = self.now.get(choice.id)
        return choice._replace(note=str(value), tone="strong") if value is not None else choice

    def _wrong(self, typed: str) -> str | None:
        try:
            self._read(typed)
        except Wrong as wrong:
            return str(wrong)
        return None

    def _put(self, key: str, typed: str) -> None:
        value = self._read(typed) if typed else None
        rest = {name: old for name, old in self.now.items() if name != key or value is not None}
        self.now = rest if value is None else {**rest, key: value}

    def clear(self, line: FieldLine) -> None:  # noqa: ARG002
        self.now = {}

    def answer(self) -> Any:
        return self.now or None
