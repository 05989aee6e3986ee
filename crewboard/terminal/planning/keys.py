"""The keys that edit the plan, the same on every page that shows it."""

from __future__ import annotations

from typing import ClassVar, cast

from textual.binding import Binding

from crewboard.terminal.board_app import BoardApp

PLAN_KEYS: list[Binding] = [
    Binding("e", "edit", "edit", id="edit", tooltip="edit what the cursor is on"),
    Binding("a", "add", "add", id="add", tooltip="add a task, a part or a component"),
    Binding("x", "remove", "take out", show=False, id="remove", tooltip="take it out of the plan"),
]


class PlanKeys:
    """Mixed into a page: `chosen` is the id of the component, part or task under the cursor."""

    app: ClassVar[property]

    @property
    def chosen(self) -> str:
        raise NotImplementedError

    @property
    def _whole(self) -> BoardApp:
        return cast("BoardApp", self.app)

    def reveal(self, some_id: str) -> None:
        """Show what was just kept, where the page can."""

    def action_edit(self) -> None:
        if self.chosen:
            self._whole.run_worker(self._edit(self.chosen))

    def action_add(self) -> None:
        self._whole.run_worker(self._add(self.chosen))

    def action_remove(self) -> None:
        from crewboard.terminal.planning.edit import remove

        if self.chosen:
            self._whole.run_worker(remove(self._whole, self.chosen))

    async def _edit(self, some_id: str) -> None:
        from crewboard.terminal.planning.edit import edit

        if kept := await edit(self._whole, some_id):
            self.reveal(kept)

    async def _add(self, near: str) -> None:
        from crewboard.terminal.planning.edit import add

        if kept := await add(self._whole, near):
            self.reveal(kept)
