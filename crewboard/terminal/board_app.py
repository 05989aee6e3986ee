"""What acts, pages, dialogs and widgets need of the app. The app itself knows all of them."""

from __future__ import annotations

from asyncio import shield
from collections.abc import Callable, Sequence
from datetime import datetime
from functools import partial
from typing import Any, NamedTuple, TypeVar

from textual.app import App
from textual.screen import Screen

from crewboard.logbook.acts import Act
from crewboard.order.board import Board
from crewboard.telling.line import Tone
from crewboard.terminal.cells import cell_len
from crewboard.workbench import Outcome, Said, Workbench

_STAYS = 6.0  # seconds for which a notice stays at least
_READ = 15  # characters that somebody reads in a second, between other things
Then = Callable[[Outcome], None]
Result = TypeVar("Result")


class Notice(NamedTuple):
    """A sentence told at the edge of the screen for a moment."""

    sentence: str
    tone: Tone

    def fits(self, width: int) -> bool:
        """Whether the last line of a window of this width holds it whole."""
        return cell_len(self.sentence) <= width - 2


class BoardApp(App[int]):
    """An app over an open folder: its board, the shop's clock, and who writes.

    What writes is given by `RecordingApp`, what opens pages by `CrewboardApp`.
    """

    def __init__(
        self, workbench: Workbench, clock: Callable[[], datetime], by: str, *, plain: bool
    ) -> None:
        super().__init__()
        self.workbench = workbench
        self.clock = clock
        self.by = by
        self.plain = plain  # ASCII only
        self.board: Board = workbench.board(self.now())
        self.notice: Notice | None = None
        self.page_name = ""
        self.last_jotted = ""  # the kind of entry that was last written for the record
        self.last_reckoned = ""  # the kind that was last reckoned
        self.unread = False  # the folder could not be looked at
        self.asking = 0  # how many workers wait for the answer to a question

    def now(self) -> datetime:
        """The shop's clock, to the second."""
        return self.clock().replace(microsecond=0)

    async def push_screen_wait(
        self, screen: Screen[Result] | str, *, mode: str | None = None
    ) -> Result | Any:
        """Put a question and wait for its answer. It is counted once it is there: until then keys
        wait for it."""
        await self._flush_next_callbacks()  # as the toolkit does, which would count too soon
        answer = self.push_screen(screen, wait_for_dismiss=True, mode=mode)
        self.asking += 1
        try:
            return await shield(answer)
        finally:
            self.asking -= 1

    # --- telling -------------------------------------------------------------------------------

    def tell(self, sentence: str, *, warning: bool = False) -> None:
        """Say something at the edge of the screen for a moment."""
        self.notice = Notice(sentence, "warning" if warning else "safe")
        stays = max(_STAYS, len(sentence) / _READ)
        self.set_timer(stays, partial(self._take_away, self.notice))
        self.redraw_edges()

    def _take_away(self, notice: Notice) -> None:
        if self.notice is notice:
            self.notice = None
            self.redraw_edges()

    def redraw_edges(self) -> None:
        """Draw the top and bottom lines again."""
        for screen in self.screen_stack:
            for line in screen.query("PageLine, TopLine"):
                line.refresh()

    # --- looking and writing -------------------------------------------------------------------

    def look(self) -> None:
        """Look at the disk and the clock; tell the page where either moved on."""
        raise NotImplementedError

    def look_now(self) -> None:
        """Take the board of this moment and show it."""
        raise NotImplementedError

    def record(
        self,
        acts: Sequence[Act | Said],
        at: datetime | None = None,
        *,
        by: str = "",
        then: Then | None = None,
    ) -> Outcome:
        """Write acts into the logbook, all or none; `then` is called once they are kept.

        A `Said` brings its own moment, or corrects an entry. Where they are refused, the Outcome
        given back says so, nothing is written, and a dialog takes it from there.
        """
        raise NotImplementedError

    async def keep(
        self, acts: Sequence[Act | Said], at: datetime | None = None, *, by: str = ""
    ) -> Outcome:
        """As `record`, for a worker that goes on once the entries are kept or were given up."""
        raise NotImplementedError

    def do(self, operation: Callable[[], Outcome], then: Then | None = None) -> Outcome:
        """Run an operation of the workbench; a refusal is shown, and may be tried again."""
        raise NotImplementedError

    # --- going about ---------------------------------------------------------------------------

    def action_open(self, name: str) -> None:
        """Open one of the pages, whatever lies over it."""
        raise NotImplementedError

    def open_task(self, task_id: str) -> None:
        """Open a task's sheet over the present page."""
        raise NotImplementedError

    def why(self, task_id: str) -> None:
        """Say why a task stands where it stands."""
        raise NotImplementedError

    def what_then(self, task_id: str) -> None:
        """Say what finishing a task frees."""
        raise NotImplementedError
