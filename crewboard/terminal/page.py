"""What every page of the board has in common: the edges, finding, and being told of changes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import ClassVar, cast

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Input

from crewboard.order.board import Board
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.widgets.edges import KeyLine, LongNotice, PageLine, TinyNotice, TopLine
from crewboard.terminal.widgets.prose import Prose
from crewboard.terminal.widgets.rows import RowList


class FindLine(Input):
    """The line in which a find is typed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "show all", show=False),
        Binding("down,enter", "rows", "to the rows", show=False, priority=True),
    ]

    def __init__(self) -> None:
        super().__init__(placeholder="find: type a few letters   Enter OK   Esc cancel")

    def action_leave(self) -> None:
        self.value = ""
        self.display = False
        page = cast("Page", self.screen)
        page.find("")
        page.searched.focus()

    def action_rows(self) -> None:
        page = cast("Page", self.screen)
        if not self.value:
            self.action_leave()
        page.searched.focus()


class Page(Screen[None]):
    """A screen of the board. Subclasses give `word`, `explains`, `body` and `show`."""

    word: ClassVar[str] = ""
    # What F1 says of the page, in the trade's words; the keys are added by themselves.
    explains: ClassVar[tuple[str | Line, ...]] = ()
    AUTO_FOCUS = "RowList, Prose"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("slash", "find", "find", show=False, id="find"),
        Binding("escape", "back", "back", show=False, id="back"),
    ]

    def compose(self) -> ComposeResult:
        yield TopLine()
        yield from self.body()
        yield KeyLine()
        yield PageLine()
        yield TinyNotice()

    def body(self) -> Iterable[Widget]:
        """What stands between the edges."""
        raise NotImplementedError

    def show(self, board: Board) -> None:
        """Show this board: called when the page is opened and whenever anything changed."""
        raise NotImplementedError

    # --- what the app calls --------------------------------------------------------------------

    @property
    def board_app(self) -> BoardApp:
        return cast("BoardApp", self.app)

    @property
    def board(self) -> Board:
        return self.board_app.board

    def on_mount(self) -> None:
        self._shown: Board | None = None

    def on_screen_resume(self) -> None:
        self.look_again()

    def look_again(self) -> None:
        """Show the app's board unless it is the one already shown."""
        if not self.is_mounted or getattr(self, "_shown", None) is self.board:
            return
        if not self.query(TopLine):  # opened and left in one burst of keys: it is being taken down
            return
        self._shown = self.board
        self.query_one(TopLine).refresh()
        self._show_unread()
        self.show(self.board)

    def _show_unread(self) -> None:
        """Before all else what cannot be read; the line is made when there first is something."""
        notices = self.query("UnreadNotice")
        if not notices and not self.board.unreadable:
            return
        from crewboard.terminal.widgets.unread_notice import UnreadNotice

        if notices:
            notices.first(UnreadNotice).show(self.board)
        else:
            notice = UnreadNotice()
            self.mount(notice, after=self.query_one(TopLine))
            notice.show(self.board)

    def show_long_notice(self) -> None:
        """What was just told, whole where the last line has no room for it; the widget is made
        when there first is such a thing."""
        notice = self.board_app.notice
        shown = self.query(LongNotice)
        if shown:
            shown.first().tell(notice)
        elif notice is not None and not notice.fits(self.size.width):
            self.mount(long := LongNotice())
            long.tell(notice)

    def leave(self, then: Callable[[], object]) -> None:
        """Go on to something else; a page that holds what is not written yet asks first."""
        then()

    def unkept(self) -> list[str]:
        """What was typed here and is not written yet, in lines."""
        return []

    def explained(self) -> Iterable[Line]:
        """What F1 shows."""
        from crewboard.terminal.explained import page_help

        return page_help(self, self.explains)

    # --- finding -------------------------------------------------------------------------------

    @property
    def searched(self) -> RowList | Prose:
        """What a find looks in: the first list, unless a page says otherwise."""
        lists = self.query(RowList)
        return lists.first() if lists else self.query(Prose).first()

    def find(self, text: str) -> None:
        listing = self.searched
        if isinstance(listing, RowList):
            listing.find(text)
        else:
            listing.go_to_text(text)

    async def action_find(self) -> None:
        line = self._find_line
        if line is None:  # made when it is first wanted: pages open sooner without it
            line = FindLine()
            await self.mount(line, before=self.query_one(KeyLine))
        line.display = True
        self.set_focus(line)

    @property
    def _find_line(self) -> FindLine | None:
        lines = self.query(FindLine)
        return lines.first() if lines else None

    def on_input_changed(self, event: Input.Changed) -> None:
        if isinstance(event.input, FindLine):
            self.find(event.value)

    def action_back(self) -> None:
        find = self._find_line
        if find is not None and find.display:
            find.action_leave()
        elif len(self.app.screen_stack) > 2:
            self.app.pop_screen()
        elif self.board_app.page_name != "day":
            self.board_app.action_open("day")


class PageWithBeside(Page):
    """A page of rows, and beside them what there is to read of the one under the cursor."""

    def beside(self) -> Sequence[Line]:
        """What there is to read now."""
        raise NotImplementedError

    def tell_beside(self) -> None:
        self.query_one("#beside", Prose).tell(self.beside())

    def on_row_list_moved(self) -> None:
        self.tell_beside()
