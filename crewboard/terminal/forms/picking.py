"""Pick any number of things, none of them too."""

from __future__ import annotations

from typing import ClassVar

from crewboard.terminal.dialogs.pick import PickSeveral


class PickSome(PickSeveral):
    """Answers what is marked, nothing too; None when left."""

    keys: ClassVar[str] = "Space marks   Enter takes   Esc leaves"

    def action_accept(self) -> None:
        self.dismiss(tuple(c.id for c in self.choices if c.id in self.marked))
