"""Pick any number of things, none of them too."""

from __future__ import annotations

from typing import ClassVar

from crewboard.terminal.dialogs.pick import PickSeveral
from crewboard.terminal.widgets.rows import RowList

NEW = "~new"  # the choice of something that is not in the list yet


class PickSome(PickSeveral):
    """Answers what is marked, nothing too; None when left.

    Enter also takes the row under the cursor where it was just looked for, where it stands for
    something new, and where nothing was ever marked.
    """

    keys: ClassVar[str] = "Space marks   Enter takes   Esc leaves"

    def on_mount(self) -> None:
        super().on_mount()
        self._untouched = not self.marked

    def action_mark(self) -> None:
        self._untouched = False
        super().action_mark()

    def action_accept(self) -> None:
        at = self.query_one(RowList).at
        if at and (self._typed or at == NEW or self._untouched):
            self.marked[at] = None
        self.dismiss(tuple(c.id for c in self.choices if c.id in self.marked))
