"""Holds: what sets, cures or has to arrive, since when, until when, and who let it go."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.types import CSSPathType
from textual.widget import Widget

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.telling.holds import hold_lines, hold_rows, shop_in_words
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.on_hold import together_title
from crewboard.telling.row import Row
from crewboard.terminal.cells import bar
from crewboard.terminal.doing.others import Other
from crewboard.terminal.entry_lines import hold_history
from crewboard.terminal.keys import OTHER_KEY
from crewboard.terminal.meant import Meant
from crewboard.terminal.page import PageWithBeside
from crewboard.terminal.screens.day_layout import IN_SHORT
from crewboard.terminal.widgets.prose import Prose, rows_and_beside
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (
    Column(8),
    Column(),
    Column(14, right=True, tone="faint", spare=True),
    Column(12, right=True, tone="plain", spare=True),
)


def with_bar(row: Row, *, plain: bool) -> Row:
    """The row in few words, with how far it is drawn in its last column."""
    if not row.id:
        return row
    word, *rest = row.cells
    drawn = bar(row.share, 4 if plain else 6, plain=plain)
    return row._replace(cells=(IN_SHORT.get(word, word), *rest, drawn))


class HoldsPage(PageWithBeside):
    """Release, extend and start holds."""

    CSS_PATH: ClassVar[CSSPathType | None] = "holds.tcss"
    word = "Holds"
    explains: ClassVar[tuple[str, ...]] = (
        "A hold is a time in which work must be left alone: a bent arch on the form, a joint in "
        "clamps, a coat that dries, an epoxy that cures, a delivery or an inspection waited for. "
        "It starts when its task is finished, and runs on while nobody is in the shop.",
        "Due for a look: the time is up, and somebody has to look before the work goes on. "
        "v releases it. Released before its time a hold asks for the reason; e gives it more "
        "time, with the reason, also one whose time is over: what comes after it waits again. "
        "Who and why stay in the logbook.",
        "A hold may count only the hours in which the shop was warm or dry enough: then shop "
        "readings decide, and it stands still outside its conditions. Nothing here shortens the "
        "time on a product's label.",
        "Leave alone means that nobody works on the whole component until the hold is released.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("v", "release", "release", id="release", tooltip="release the hold after a look"),
        Binding("e", "edit", "edit: more time", id="extend", tooltip="give it more time, with why"),
        Binding("a", "add", "add", id="add", tooltip="start a hold by hand"),
        Binding("r", "reading", "reading", id="reading", tooltip="write down a shop reading"),
        OTHER_KEY,
    ]

    def body(self) -> Iterable[Widget]:
        yield rows_and_beside(RowList(COLUMNS, empty="nothing is on hold", id="holds"))
        yield Prose(id="shop")

    def on_mount(self) -> None:
        super().on_mount()
        self.query_one("#shop").can_focus = False

    def show(self, board: Board) -> None:
        plain = self.board_app.plain
        rows = [with_bar(row, plain=plain) for row in hold_rows(board)]
        self.query_one("#holds", RowList).fill(rows)
        self.query_one("#shop", Prose).tell([Line(shop_in_words(board), "faint", 0, "shop:")])
        self.tell_beside()

    @property
    def chosen(self) -> str:
        return self.query_one("#holds", RowList).at

    def _details(self) -> list[Line]:
        """All that is known of the holds in the row under the cursor, what they share once."""
        holds = self._holds
        if not holds:
            return []
        several = len(holds) > 1
        head = together_title(self.board, holds)
        told = [line for h in holds for line in hold_lines(self.board, h, named=several)]
        history = [line for hold in holds for line in hold_history(self.board, hold)]
        return [title(head), *dict.fromkeys(told), GAP, title("In the logbook"), *history]

    @property
    def _holds(self) -> list[StandingHold]:
        """Those in the row under the cursor, several where they stand alike."""
        row = self.query_one("#holds", RowList).row
        ids = (row.tasks or (row.id,)) if row is not None else ()
        return [self.board.holds[hold_id] for hold_id in ids if hold_id in self.board.holds]

    def beside(self) -> list[Line]:
        return self._details()

    def on_row_list_opened(self) -> None:
        from crewboard.terminal.dialogs.dialog import Panel

        self.app.push_screen(Panel("Hold", self._details()))

    def action_other(self) -> None:
        """What else there is for the hold's task, and its sheet."""
        from crewboard.terminal.doing.other import other

        hold = self.board.holds.get(self.chosen)
        task = hold.task if hold is not None and hold.task in self.board.plan.tasks else ""
        sheet = Other("sheet of its task", "all that is known of it", partial(self._sheet, task))
        meant, first = (Meant((task,)), [sheet]) if task else (Meant(()), [])
        self.board_app.run_worker(other(self.board_app, meant, first=first))

    async def _sheet(self, task: str) -> None:
        self.board_app.open_task(task)

    # --- acts ----------------------------------------------------------------------------------

    async def _meant(self) -> list[StandingHold]:
        """The hold under the cursor; of several pieces those that are picked."""
        from crewboard.terminal.doing.hold import which_holds

        holds = self._holds
        return await which_holds(self.board_app, holds) if len(holds) > 1 else holds

    @work
    async def action_release(self) -> None:
        from crewboard.terminal.doing.hold import release

        holds = await self._meant()
        if any(not hold.stops_work for hold in holds):
            self.board_app.tell("that hold is over already", warning=True)
        elif holds:
            await release(self.board_app, *holds)

    @work
    async def action_edit(self) -> None:
        from crewboard.terminal.doing.hold import extend

        holds = await self._meant()
        if any(hold.released_at is not None for hold in holds):
            sentence = "that hold was released, and stays so: a starts a new one"
            self.board_app.tell(sentence, warning=True)
        elif holds:
            await extend(self.board_app, *holds)

    @work
    async def action_add(self) -> None:
        from crewboard.terminal.doing.hold import start_hold

        await start_hold(self.board_app)

    @work
    async def action_reading(self) -> None:
        from crewboard.terminal.doing.reading import reading

        await reading(self.board_app)
