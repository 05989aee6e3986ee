"""The screens over an open folder: one board, looked at again when anything changes."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from datetime import datetime
from functools import partial
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.driver import Driver
from textual.filter import LineFilter
from textual.widgets import Input, TextArea

from crewboard.on_this_computer import remember, remembered
from crewboard.order.board import Board
from crewboard.order.said import quoted_name
from crewboard.telling.line import Line
from crewboard.terminal.dialogs.choose import last_writer
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.ending import EndingApp
from crewboard.terminal.in_turn import KeysInTurn, Typed
from crewboard.terminal.page import Page
from crewboard.terminal.parsed_once import ParsedOnce
from crewboard.terminal.plain_signs import InAscii
from crewboard.terminal.screens import PAGES
from crewboard.terminal.tones import DAYLIGHT, EVENING, THEMES, variables_of
from crewboard.workbench import Workbench
from crewboard.workbench.kept_page import KeptPage


class CrewboardApp(EndingApp):
    """`clock` is the shop's clock, `by` the person who writes, `plain` asks for ASCII."""

    CSS_PATH = "app.tcss"
    TITLE = "Crewboard"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-tiny"), (60, "-narrow"), (110, "-wide")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-flat"), (16, "-low"), (30, "-tall")]  # noqa: RUF012
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(p.keys, f"open('{p.name}')", p.word, show=False, id=p.name) for p in PAGES),
        Binding("f1,question_mark", "help", "help", show=False, id="help"),
        Binding("ctrl+z,u", "undo", "undo", show=False, id="undo"),
        Binding("f10", "light", "light", show=False, id="light"),
        Binding("ctrl+p", "paper", "print", show=False, id="paper"),
        Binding("m", "mistakes", "mistakes", show=False, id="mistakes"),
        Binding("y", "your_name", "your name", show=False, id="your-name"),
        Binding("ctrl+q,q", "quit", "leave", show=False, id="quit"),
    ]

    def __init__(
        self,
        workbench: Workbench,
        clock: Callable[[], datetime],
        *,
        by: str = "",
        plain: bool = False,
    ) -> None:
        plain = plain or bool(os.environ.get("CREWBOARD_ASCII"))
        super().__init__(workbench, clock, by, plain=plain)
        self.animation_level = "none"
        self.stylesheet = ParsedOnce(variables=self.get_css_variables())
        for theme in THEMES.values():
            self.register_theme(theme)
        last = remembered("light")
        self.theme = last if last in THEMES else EVENING.name
        self._in_turn = KeysInTurn(self, self._take, lambda: self.asking)
        self._on_the_wall: KeptPage | None = None

    def keep_on_the_wall(self, path: str) -> None:
        """Keep the page for the wall at `path`, new with every board; an empty one keeps none."""
        from crewboard.paper.wall import WALL_PAGE, wall_page

        self._on_the_wall = KeptPage(path, wall_page, WALL_PAGE) if path else None

    def get_driver_class(self) -> type[Driver]:
        """The way to the terminal that this system has."""
        if os.name != "posix":
            return super().get_driver_class()
        from crewboard.terminal.posix_driver import PosixDriver

        return PosixDriver

    def get_line_filters(self) -> Sequence[LineFilter]:
        """What each line passes through before it is drawn: in ASCII where that was asked for."""
        filters = super().get_line_filters()
        return [*filters, InAscii()] if self.plain else filters

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The tones and grounds as the stylesheets name them."""
        return variables_of(self)

    def on_mount(self) -> None:
        self.set_class(self.plain, "-plain")
        self._in_turn.begin()
        self.by = self.by or last_writer(self)
        self.action_open(PAGES[0].name)
        self.set_interval(1.0, self.look)
        self._put_up()
        if not self.workbench.folder.paths("vehicle"):
            from crewboard.terminal.planning.first_run import first_run

            self.run_worker(first_run(self))

    # --- looking -------------------------------------------------------------------------------

    def look(self) -> None:
        changed = self.workbench.refresh()
        unread = self.workbench.folder.gone  # the last board stays on the screen
        minute_passed = self.now().replace(second=0) != self.board.at.replace(second=0)
        if changed or minute_passed or unread != self.unread:
            self.unread = unread
            self.look_now()
            self.redraw_edges()

    def look_now(self) -> None:
        self.board = self.workbench.board(self.now())
        for screen in self.screen_stack:
            if isinstance(screen, Page):
                screen.look_again()
        self._put_up()

    def redraw_edges(self) -> None:
        super().redraw_edges()
        for screen in self.screen_stack:
            if isinstance(screen, Page):
                screen.show_long_notice()

    def _put_up(self) -> None:
        if self._on_the_wall is not None and (wrong := self._on_the_wall.put_up(self.board)):
            self.tell(wrong, warning=True)

    # --- going about ---------------------------------------------------------------------------

    async def on_event(self, event: events.Event) -> None:
        """What is typed is taken in turn; where letters are no text, a capital is a small one."""
        if isinstance(event, events.Key | events.Paste) and not event.is_forwarded:
            self._in_turn.put(event)
        else:
            await super().on_event(event)

    async def _take(self, event: Typed) -> None:
        if isinstance(event, events.Key) and not self._is_typing:
            event = as_small(event)
        await super().on_event(event)

    @property
    def _is_typing(self) -> bool:
        """Whether letters are text where the keys go now."""
        screen = self.screen
        typed_in = isinstance(screen, Dialog) and screen.typed_in
        return typed_in or isinstance(screen.focused, Input | TextArea)

    def on_unmount(self) -> None:
        self._in_turn.end()

    def action_open(self, name: str) -> None:
        page = self.screen
        if isinstance(page, Page):
            page.leave(partial(self._open, name))
        else:
            self._open(name)

    def _open(self, name: str) -> None:
        entry = next(page for page in PAGES if page.name == name)
        if not self.is_screen_installed(name):
            self.install_screen(entry.load()(), name)
        while len(self.screen_stack) > 2:
            self.pop_screen()
        if len(self.screen_stack) == 1:
            self.push_screen(name)
        elif self.page_name != name:
            self.switch_screen(name)
        self.page_name = name

    def open_task(self, task_id: str) -> None:
        from crewboard.terminal.screens.task_sheet import TaskSheetPage

        if task_id in self.board.plan.tasks:
            self.push_screen(TaskSheetPage(task_id))

    def why(self, task_id: str) -> None:
        """Say why a task stands where it stands; of a series its pieces, each in short."""
        from crewboard.telling.series_why import why_of_series
        from crewboard.telling.why import why_under_title

        series = task_id in self.board.plan.series
        self._panel(task_id, "Why", why_of_series if series else why_under_title)

    def what_then(self, task_id: str) -> None:
        """Say what finishing a task, or all of a series, lets go."""
        from crewboard.telling.series_why import then_of_series
        from crewboard.telling.why import then_lines

        series = task_id in self.board.plan.series
        self._panel(task_id, "What comes next", then_of_series if series else then_lines)

    def _panel(
        self, task_id: str, word: str, lines: Callable[[Board, str], Sequence[Line]]
    ) -> None:
        from crewboard.terminal.dialogs.dialog import Panel

        if self.board.plan.written(task_id) is not None:
            title = quoted_name(self.board.plan, task_id)
            self.push_screen(Panel(f"{word}: {title}", lines(self.board, task_id)))

    def action_help(self) -> None:
        from crewboard.terminal.dialogs.dialog import Panel

        page = self.screen
        if isinstance(page, Page):
            self.push_screen(Panel(f"{page.word}: help", page.explained()))

    def action_light(self) -> None:
        """From the tints for a dark shop to those for a bright one, and back; remembered here."""
        self.theme = EVENING.name if self.theme == DAYLIGHT.name else DAYLIGHT.name
        remember("light", self.theme)

    def action_paper(self) -> None:
        """Print one of the sheets: the one that belongs to the page stands first."""
        from crewboard.terminal.doing.paper import print_paper

        if isinstance(self.screen, Page):
            self.run_worker(print_paper(self, self.page_name))

    def action_mistakes(self) -> None:
        """Read the mistakes found in the folder's files."""
        from crewboard.terminal.screens.mistakes import MistakesPage

        if not isinstance(self.screen, MistakesPage):
            self.push_screen(MistakesPage())

    def action_your_name(self) -> None:
        """Ask whose name stands under what is written from here on."""
        from crewboard.terminal.dialogs.choose import your_name

        self.run_worker(your_name(self))

    def action_help_quit(self) -> None:
        """Ctrl+C: who presses it in a terminal wants to leave."""
        self.tell("q quits Crewboard; everything is saved already")

    # --- leaving -------------------------------------------------------------------------------

    async def action_quit(self) -> None:
        page = self.screen
        if isinstance(page, Page):
            page.leave(partial(self.exit, 0))
        else:
            self.exit(0)


def as_small(event: events.Key) -> events.Key:
    """The key, a capital letter as its small one: who has Caps Lock on means the same."""
    letter = event.character or ""
    if len(letter) != 1 or letter == letter.lower() or event.key != letter:
        return event
    return events.Key(letter.lower(), letter.lower())
