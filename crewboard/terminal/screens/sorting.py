"""Pictures and recordings that were taken in: for what they are, of which pieces, in words.

Three keys and a few letters a picture, one key where it shows what the last one showed; several
that are marked are given one caption.
"""

from __future__ import annotations

from collections.abc import Awaitable, Iterable
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.logbook.acts import Pictured
from crewboard.logbook.record.waiting import FileWaiting, files_waiting
from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.telling.sorting import file_lines, sorting_rows
from crewboard.terminal.doing.others import Other, one_of
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.picture_keys import PICTURES_SHOWN_KEY, PictureKeys
from crewboard.terminal.widgets.prose import Prose
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (Column(9), Column(), Column(36, tone="faint"))


class SortingPage(PictureKeys, PageWithBeside):
    """Files that wait to be sorted, as they were taken; of one after the other it is asked what it
    shows."""

    CSS_PATH: ClassVar[CSSPathType | None] = "sorting.tcss"
    word = "Pictures to sort"
    explains: ClassVar[tuple[str, ...]] = (
        "Pictures, sound and films that were taken in from a phone or camera, in the order in "
        "which they were taken, and of which nobody has said yet what they show.",
        "Enter asks for what a picture is, a digit answers: before the work, during it, what is "
        "hidden now, after it, evidence of how it was, or with a tape in view. Then its pieces or "
        "its component are asked, the last ones stand ready, and words for it, which may be left "
        "empty; and so of the next one, until Esc. = says what was said of the last, here and "
        "where the digits are; there z shows what is asked about.",
        "Space marks a row and goes on to the next; what is said then is said of all that are "
        "marked. z shows the picture. o writes a finding that cites it, or, "
        "until Esc, findings that cite the minutes of a recording.",
        "o also takes in the files of a phone or camera: copies are made under pictures/ and "
        "recordings/, and nothing in them is changed; and it pastes a text dictated elsewhere, "
        "each line of it a finding.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            *("enter", "sort", "sort"),
            id="sort",
            tooltip="say what it shows, then of the next",
            key_display="Enter",
        ),
        Binding(
            *("equals_sign", "like_last", "last"),
            id="like-last",
            tooltip="the same as of the last one",
            key_display="=",
        ),
        Binding(
            *("o", "other", "other"),
            id="other",
            tooltip="a finding that cites it; take in a phone's files; paste findings",
        ),
        PICTURES_SHOWN_KEY,
        Binding("space", "mark", "mark", id="mark", tooltip="mark, and go on"),
        Binding("ctrl+a", "mark_all", "all", show=False, id="mark-all", tooltip="mark all"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._waiting: dict[str, FileWaiting] = {}
        self._last: Pictured | None = None

    def body(self) -> Iterable[Widget]:
        yield Container(
            RowList(COLUMNS, empty="nothing waits to be sorted", id="files"),
            Container(Prose(id="beside"), id="about"),
            id="split",
        )

    @property
    def files(self) -> RowList:
        return self.query_one("#files", RowList)

    def show(self, board: Board) -> None:
        self._waiting = {one.act.file: one for one in files_waiting(board.logbook, board.at)}
        self._last = self._last or last_said(board)
        self.files.fill(sorting_rows(board, self._waiting.values()))
        self.tell_beside()

    def beside(self) -> list[Line]:
        if self._waiting and not self.files.at:  # nothing that waits is called so
            return []
        chosen = self._waiting.get(self.files.at)
        return list(file_lines(self.board, chosen, len(self.files.marks), self._last))

    # --- marking -------------------------------------------------------------------------------

    @property
    def meant(self) -> tuple[str, ...]:
        """The files that the keys are for: those marked, else the one under the cursor."""
        return self.files.marks or ((self.files.at,) if self.files.at else ())

    @property
    def shown_files(self) -> tuple[str, ...]:
        """All that wait, the one under the cursor first."""
        files = [row.id for row in self.files.rows]
        at = files.index(self.files.at) if self.files.at in files else 0
        return (*files[at:], *files[:at])

    def action_mark(self) -> None:
        if self.files.row is not None:
            self.files.mark(self.files.row.tasks)
            self.files.action_step(1)
            self.tell_beside()

    def action_mark_all(self) -> None:
        self.files.mark([row.id for row in self.files.rows])
        self.tell_beside()

    def action_back(self) -> None:
        if self.files.marks:
            self.files.unmark()
            self.tell_beside()
        else:
            super().action_back()

    # --- the keys ------------------------------------------------------------------------------

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        event.stop()
        self.action_sort()

    def action_sort(self) -> None:
        if self.meant:
            self.run_worker(self._sort_on())

    def action_like_last(self) -> None:
        from crewboard.terminal.doing.sort_files import sorted_as

        if self._last is None:
            self.board_app.tell("nothing was said of a picture yet", warning=True)
        elif self.meant:
            self.run_worker(self._sorted(sorted_as(self.board_app, self.meant, self._last)))

    def action_other(self) -> None:
        from crewboard.terminal.doing.dictated import paste_findings
        from crewboard.terminal.doing.take_in import take_in

        app = self.board_app
        found = [Other("found", "a finding that cites it", self._found)] if self.meant else []
        others = [
            *found,
            Other("take in", "the files of a phone or camera", partial(take_in, app)),
            Other("paste", "findings from a text, line by line", partial(paste_findings, app)),
        ]
        self.run_worker(one_of(app, others))

    async def _found(self) -> None:
        from crewboard.terminal.doing.sort_files import found_on

        await self._sorted(found_on(self.board_app, self.meant))

    async def _sort_on(self) -> None:
        """Say what is shown; where no file is marked, of one after the other until it is left."""
        from crewboard.terminal.doing.sort_files import sort_files

        while files := self.meant:
            marked = bool(self.files.marks)
            said = await sort_files(self.board_app, files, self._last)
            if said is not None and said.shows != "of no use":
                self._last = said
            self._unmark(said is not None)
            if marked or said is None:
                break

    async def _sorted(self, act: Awaitable[bool]) -> None:
        self._unmark(await act)

    def _unmark(self, kept: bool) -> None:
        if kept:
            self.files.unmark()
            self.tell_beside()


def last_said(board: Board) -> Pictured | None:
    """What was said of a picture last on the board's day: what was said on another one, months ago
    as it may be, is hardly meant again."""
    day = board.logbook.days.get(board.at.date())
    for entry in reversed(day.record if day is not None else ()):
        if isinstance(entry.act, Pictured) and entry.act.shows != "of no use":
            return entry.act
    return None
