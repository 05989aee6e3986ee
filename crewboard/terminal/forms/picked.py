"""The fields of a form that are picked from a list."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual.message import Message

from crewboard.order.admit.refusal import Refusal
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.forms.fields import FieldLine, Shown
from crewboard.terminal.forms.reading import Wrong
from crewboard.terminal.widgets.rows import RowList

NEW = "~new"  # the choice of something that is not in the list yet


class PickSome(PickSeveral):
    """Answers what is marked, nothing too; None when left.

    Enter also takes the row under the cursor where it was just looked for, where it stands for
    something new, and where nothing was ever marked.
    """

    keys: ClassVar[str] = "Space mark   Enter OK   Esc cancel"

    def opened(self) -> None:
        super().opened()
        self._untouched = not self.marked

    def action_mark(self) -> None:
        self._untouched = False
        super().action_mark()

    def action_accept(self) -> None:
        at = self.query_one(RowList).at
        if at and (self._typed or at == NEW or self._untouched):
            self.marked[at] = None
        self.dismiss(tuple(c.id for c in self.choices if c.id in self.marked))


if TYPE_CHECKING:
    from crewboard.folder.edit.plan_edits import Key

Check = Callable[[Any], Sequence[Refusal]]


class Unfit(Message):
    """What was picked is refused at once; the form says why."""

    def __init__(self, refusals: Sequence[Refusal]) -> None:
        super().__init__()
        self.refusals = tuple(refusals)


class OneOf(Shown):
    """One thing of a list, or none; with `new` also words that are not in it yet."""

    def __init__(
        self,
        key: Key,
        label: str,
        value: str,
        choices: Callable[[], Sequence[Choice]],
        *,
        needed: bool = False,
        new: str = "",
    ) -> None:
        super().__init__(key, label, value)
        self.choices, self.needed, self.new = choices, needed, new

    def shown(self) -> str:
        return next((c.text.strip() for c in self.choices() if c.id == self.now and c.id), self.now)

    async def change(self, line: FieldLine) -> None:
        from crewboard.terminal.dialogs.pick import PickOne

        more = [Choice(NEW, f"{self.new} ...")] if self.new else []
        more += [] if self.needed else [Choice("~none", "none")]
        dialog = PickOne(self.label, [*self.choices(), *more], at=self.now)
        answer = await line.app.push_screen_wait(dialog)
        if answer == NEW:
            from crewboard.terminal.dialogs.ask import AskLine

            answer = await line.app.push_screen_wait(AskLine(self.new))
        if answer is not None:
            self.now = "" if answer == "~none" else answer

    def clear(self, line: FieldLine) -> None:  # noqa: ARG002
        if not self.needed:
            self.now = ""

    def answer(self) -> Any:
        if self.needed and not self.now:
            raise Wrong("something has to be picked: Enter opens the list")
        return self.now or None


class SomeOf(Shown):
    """Several things of a list; with `new` also words that are not in it yet.

    `check` says what stands against a choice before the form is kept, `tells` what has to be known
    of one that may be made all the same.
    """

    def __init__(
        self,
        key: Key,
        label: str,
        value: Sequence[str],
        choices: Callable[[], Sequence[Choice]],
        *,
        new: str = "",
        check: Check | None = None,
        tells: Check | None = None,
    ) -> None:
        super().__init__(key, label, tuple(value))
        self.choices, self.new, self.check, self.tells = choices, new, check, tells

    def shown(self) -> str:
        names = {c.id: c.text.strip() for c in self.choices()}
        return ", ".join(names.get(picked_id, picked_id) for picked_id in self.now)

    async def change(self, line: FieldLine) -> None:
        from crewboard.terminal.dialogs.ask import AskLine
        from crewboard.terminal.forms.picked import NEW, PickSome

        known = list(self.choices())
        ids = {choice.id for choice in known}
        stray = [Choice(picked_id, picked_id) for picked_id in self.now if picked_id not in ids]
        more = [Choice(NEW, f"{self.new} ...")] if self.new else []
        dialog = PickSome(self.label, [*stray, *known, *more], marked=self.now)
        picked = await line.app.push_screen_wait(dialog)
        if picked is None:
            return
        if NEW in picked:
            word = await line.app.push_screen_wait(AskLine(self.new))
            picked = tuple(picked_id for picked_id in picked if picked_id != NEW) + (
                (word,) if word else ()
            )
        self._take(picked, line)

    def _take(self, picked: tuple[str, ...], line: FieldLine) -> None:
        kept = [picked_id for picked_id in self.now if picked_id in picked]
        wanted = (*kept, *(picked_id for picked_id in picked if picked_id not in kept))
        refused = self.check(wanted) if self.check and wanted != self.value else ()
        if not refused:
            self.now = wanted
            refused = self.tells(wanted) if self.tells else ()
        line.post_message(Unfit(refused))

    def clear(self, line: FieldLine) -> None:
        self._take((), line)
