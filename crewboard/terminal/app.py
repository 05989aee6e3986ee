"""The screens over an open folder: one board, looked at again when anything changes."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from datetime import datetime
from functools import partial
from typing import ClassVar, NamedTuple

from textual.app import App
from textual.binding import Binding, BindingType

from crewboard.logbook.acts import Act
from crewboard.order.board import Board
from crewboard.terminal.page import Page
from crewboard.terminal.recording import Attempt, answered
from crewboard.terminal.screens import PAGES
from crewboard.terminal.tones import COLOURS, SHOP
from crewboard.terminal.widgets.edges import PageLine
from crewboard.terminal.widgets.prose import Line
from crewboard.workbench import Outcome, Said, Workbench

_SAID_FOR = 6.0  # seconds for which something told stays


class Told(NamedTuple):
    """A sentence told at the edge of the screen for a moment."""

    sentence: str
    tone: str


Then = Callable[[Outcome], None]


class CrewboardApp(App[int]):
    """`clock` is the shop's clock, `by` the person who writes, `plain` asks for ASCII."""

    CSS_PATH = "app.tcss"
    TITLE = "Crewboard"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-tiny"), (60, "-narrow"), (110, "-wide")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-flat"), (16, "-low"), (30, "-tall")]  # noqa: RUF012
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(p.key, f"open('{p.name}')", p.word, show=False, id=p.name) for p in PAGES),
        Binding("f1,question_mark", "help", "help", show=False, id="help"),
        Binding("ctrl+z,u", "undo", "undo", show=False, id="undo"),
        Binding("m", "mistakes", "mistakes", show=False, id="mistakes"),
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
        super().__init__()
        self.workbench = workbench
        self.clock = clock
        self.by = by
        self.plain = plain or bool(os.environ.get("CREWBOARD_ASCII"))
        self.animation_level = "none"
        self.register_theme(SHOP)
        self.theme = SHOP.name
        self.board: Board = workbench.board(self.now())
        self.page_name = ""
        self.said: Told | None = None
        self.unread = False  # the folder could not be looked at

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The tones as `$tone-...` for the stylesheets, whatever the theme."""
        return {f"tone-{name}": colour for name, colour in COLOURS.items()}

    def now(self) -> datetime:
        """The shop's clock, to the second."""
        return self.clock().replace(microsecond=0)

    def on_mount(self) -> None:
        self.set_class(self.plain, "-plain")
        self.action_open(PAGES[0].name)
        self.set_interval(1.0, self.look)
        if not self.workbench.folder.paths("vehicle"):
            from crewboard.terminal.planning.first_run import first_run

            self.run_worker(first_run(self))

    # --- looking -------------------------------------------------------------------------------

    def look(self) -> None:
        """Look at the disk and the clock; tell the page where either moved on."""
        try:
            changed = self.workbench.refresh()
        except OSError:
            changed, unread = frozenset[str](), True
        else:
            unread = False
        minute_passed = self.now().replace(second=0) != self.board.at.replace(second=0)
        if changed or minute_passed or unread != self.unread:
            self.unread = unread
            self.look_now()

    def look_now(self) -> None:
        """Take the board of this moment and show it."""
        self.board = self.workbench.board(self.now())
        for screen in self.screen_stack:
            if isinstance(screen, Page):
                screen.look_again()

    # --- recording -----------------------------------------------------------------------------

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
        attempt = Attempt(tuple(acts), at, by or self.by)
        return self.do(lambda: attempt.write(self.workbench, self.now()), then, attempt)

    async def keep(
        self, acts: Sequence[Act | Said], at: datetime | None = None, *, by: str = ""
    ) -> Outcome:
        """As `record`, for a worker that goes on once the entries are kept or were given up."""
        attempt = Attempt(tuple(acts), at, by or self.by)

        def write() -> Outcome:
            return attempt.write(self.workbench, self.now())

        outcome = write()
        self.look_now()
        return outcome if outcome.kept else await answered(self, outcome, write, None, attempt)

    def do(
        self,
        operation: Callable[[], Outcome],
        then: Then | None = None,
        attempt: Attempt | None = None,
    ) -> Outcome:
        """Run an operation of the workbench; a refusal is shown, and may be tried again."""
        outcome = operation()
        self.look_now()
        if outcome.kept:
            if then is not None:
                then(outcome)
        else:
            self.run_worker(answered(self, outcome, operation, then, attempt), exit_on_error=True)
        return outcome

    def tell(self, sentence: str, *, warning: bool = False) -> None:
        """Say something at the edge of the screen for a moment."""
        self.said = Told(sentence, "warning" if warning else "safe")
        self.set_timer(_SAID_FOR, partial(self._unsay, self.said))
        self._refresh_page_line()

    def _unsay(self, said: Told) -> None:
        if self.said is said:
            self.said = None
            self._refresh_page_line()

    def _refresh_page_line(self) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, Page) and screen.is_mounted:
                screen.query_one(PageLine).refresh()

    def action_undo(self) -> None:
        says = self.workbench.done[-1].says if self.workbench.done else ""
        outcome = self.workbench.undo(by=self.by, now=self.now())
        self.look_now()
        if outcome.kept:
            self.tell(f"undone: {says}")
        else:
            self.tell("; ".join(str(r) for r in outcome.refused), warning=True)

    # --- going about ---------------------------------------------------------------------------

    def action_open(self, name: str) -> None:
        """Open one of the pages, whatever lies over it."""
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
        """Open a task's sheet over the present page."""
        from crewboard.terminal.screens.task_sheet import TaskSheetPage

        if task_id in self.board.plan.tasks:
            self.push_screen(TaskSheetPage(task_id))

    def why(self, task_id: str) -> None:
        """Say why a task stands where it stands."""
        from crewboard.terminal.told import why_lines

        self._panel(task_id, "Why", why_lines)

    def what_then(self, task_id: str) -> None:
        """Say what finishing a task lets go."""
        from crewboard.terminal.told import then_lines

        self._panel(task_id, "What then", then_lines)

    def _panel(
        self, task_id: str, word: str, lines: Callable[[Board, str], Sequence[Line]]
    ) -> None:
        from crewboard.terminal.dialogs.panel import Panel

        if task_id in self.board.plan.tasks:
            title = self.board.plan.tasks[task_id].title
            self.push_screen(Panel(f"{word}: {title}", lines(self.board, task_id)))

    def action_help(self) -> None:
        from crewboard.terminal.dialogs.panel import Panel

        page = self.screen
        if isinstance(page, Page):
            self.push_screen(Panel(f"{page.word}: help", page.explained()))

    def action_mistakes(self) -> None:
        """Read the mistakes found in the folder's files."""
        from crewboard.terminal.screens.mistakes import MistakesPage

        if not isinstance(self.screen, MistakesPage):
            self.push_screen(MistakesPage())

    async def action_quit(self) -> None:
        self.exit(0)
