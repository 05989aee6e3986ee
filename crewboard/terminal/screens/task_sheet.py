"""One task's whole sheet on a screen of its own."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.pictures import files_of_task
from crewboard.telling.task import full_sheet
from crewboard.terminal.keys import HOURS_KEY, TASK_KEYS, PlanKeys, TaskKeys
from crewboard.terminal.picture_keys import PICTURES_SHOWN_KEY, PictureKeys
from crewboard.terminal.widgets.prose import Prose


class TaskSheetPage(PictureKeys, PlanKeys, TaskKeys):
    """Read a task, and act on it."""

    CSS_PATH = "task_sheet.tcss"
    word = "Task sheet"
    explains: ClassVar[tuple[str, ...]] = (
        "Everything known of one task: where it stands and why, what it needs, how it is done, "
        "what its finish frees, every hazard with its bench card and its checks, and what the "
        "logbook says of it. g shows the cards alone, and from there the whole hazard sheets with "
        "law, sources and numbers.",
        "Checks are signed with c. A signed check authorises nothing: law, product labels and "
        "licensed trades prevail.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *TASK_KEYS[:2],
        HOURS_KEY,
        *TASK_KEYS[2:],
        PICTURES_SHOWN_KEY,
        Binding("g", "talk", "card", id="talk", tooltip="the bench cards of its hazards"),
        Binding("e", "edit", "edit", id="edit", tooltip="edit the task in the plan"),
        Binding("escape", "back", "back", id="back"),
    ]

    def __init__(self, task_id: str) -> None:
        super().__init__()
        self.task_id = task_id

    def body(self) -> Iterable[Widget]:
        yield Prose(id="sheet")

    def show(self, board: Board) -> None:
        prose = self.query_one(Prose)
        if self.task_id not in board.plan.tasks:
            gone = f'there is no task "{self.task_id}" in the plan any more'
            prose.tell([Line(gone, "warning")])
            return
        prose.tell(full_sheet(board, self.task_id), from_top=False)

    def action_talk(self) -> None:
        from crewboard.terminal.doing.cards import show_cards_of

        if self.chosen_task:
            show_cards_of(self.board_app, self.chosen_task)

    @property
    def chosen_task(self) -> str:
        return self.task_id if self.task_id in self.board.plan.tasks else ""

    @property
    def shown_files(self) -> tuple[str, ...]:
        fabric = self.board_app.workbench.fabric(self.board.at)
        return files_of_task(self.board, fabric, self.task_id)

    @property
    def chosen(self) -> str:
        return self.chosen_task

    def reveal(self, some_id: str) -> None:
        self.task_id = some_id
        self.show(self.board)
