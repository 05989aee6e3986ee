"""Forecast: when it will be finished, what sets that date, and what would bring it forward."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.message import Message
from textual.types import CSSPathType
from textual.widget import Widget
from textual.worker import Worker, WorkerState, get_current_worker

from crewboard.order.board import Board
from crewboard.order.forecast.finish import Forecast
from crewboard.order.unreadable import Unreadable, not_to_be_told
from crewboard.telling.forecast import chain_rows, forecast_lines, how_far
from crewboard.telling.line import Line
from crewboard.telling.row import Row
from crewboard.terminal.page import Page
from crewboard.terminal.widgets.prose import Prose
from crewboard.terminal.widgets.rows import Column, RowList

COLUMNS = (Column(5, right=True), Column(), Column(9, wide_only=True))


class ForecastPage(Page):
    """Play the rest of the job, with progress, and stop it."""

    CSS_PATH: ClassVar[CSSPathType | None] = "forecast.tcss"
    word = "Forecast"
    explains: ClassVar[tuple[str, ...]] = (
        "The rest of the job is run through a thousand times on trial, day by day: who comes, as "
        "the sign-ins tell; how long work takes, as the hours beside the estimates tell; how long "
        "holds and deliveries take; on the work days of the calendar.",
        "Even chance: half of the trial runs were finished by then. Four in five and nearly sure: "
        "80 and 95 of a hundred. Promise nobody the even chance. With little in the logbook the "
        "dates lie far apart: that is what is known, and it gets better with every work day "
        "written up; before three work days with hours there is only a range.",
        "With what usually turns up: as much new work is found on the way as was so far. As the "
        "plan stands: nothing is. The first is the one to give to others. Above the ruler stands "
        "the first, below it the second.",
        "What nobody has seen to yet is named: the dates suppose that it is ordered, decided, "
        "inspected, and that somebody is found for work that nobody may do.",
        "What sets the date: how often each task was on the chain that set the finish. What "
        "would bring it forward was tried with the same chances, one change at a time; it is told "
        "where it gains more than chance could. w shows the figures behind it all, to explain the "
        "dates to others.",
        "The same plan, logbook and seed give the same dates. Ctrl+R stops while it runs: the "
        "runs so far count.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            *("ctrl+r", "again", "run again, or stop"),
            id="again",
            tooltip="run it again as things stand now; stop, and the runs so far count",
        ),
        Binding(
            *("w", "why", "why"),
            id="why",
            tooltip="why these dates: pace, people, what turns up, the longest waits",
        ),
        Binding(
            *("o", "other", "other: drawing"), id="other", tooltip="save the dates as a drawing"
        ),
    ]
    runs: ClassVar[int] = 1000
    ways: ClassVar[int] = 200

    class Progress(Message):
        """So many courses played."""

        def __init__(self, progress: str) -> None:
            super().__init__()
            self.progress = progress

    class Forecasted(Message):
        """A forecast of a board."""

        def __init__(self, board: Board, forecast: Forecast) -> None:
            super().__init__()
            self.board = board
            self.forecast = forecast

    def __init__(self) -> None:
        super().__init__()
        self.forecast: Forecast | None = None
        self.of_board: Board | None = None
        self.playing = ""  # how far it is, empty when nothing is being played
        self._stop = False

    def body(self) -> Iterable[Widget]:
        yield Container(
            Prose(id="chances"),
            RowList(COLUMNS, empty="not known yet", id="chain"),
            id="split",
        )

    def show(self, board: Board) -> None:  # noqa: ARG002
        if self.forecast is None and not self.playing and not self._lost():
            self._run()
        self._tell()

    def on_resize(self) -> None:
        self._tell()

    def _tell(self) -> None:
        if not self.is_mounted or not self.query("#chain"):  # the page is being taken down
            return
        lines = [Line(unread.says, "danger", 0, "no date can be told:") for unread in self._lost()]
        if self.forecast is not None and not lines and not self.playing and self._is_old():
            lines.append(Line("the plan or the logbook has changed: Ctrl+R runs anew", "caution"))
        prose, rows = self.query_one("#chances", Prose), self.query_one("#chain", RowList)
        if self.forecast is None and self.playing:
            lines.append(Line(self.playing, "must", 0, "running:"))
        if self._lost():
            rows.fill([])
        elif self.forecast is not None and self.of_board is not None:
            width, plain = max(40, prose.size.width - 2), self.board_app.plain
            of, running = self.of_board, self.playing
            lines += forecast_lines(of, self.forecast, width, plain=plain, running=running)
            rows.empty = "no work is left"
            self._fill(rows, chain_rows(self.of_board, self.forecast))
        prose.tell(lines, from_top=False)

    def _fill(self, rows: RowList, found: list[Row]) -> None:
        """The cursor stays on its row, unless nobody has moved it from the first."""
        first = next((row.id for row in rows.rows if row.id), "")
        rows.fill(found, at="" if rows.at == first else None)

    def _is_old(self) -> bool:
        now, then = self.board, self.of_board
        if then is None or now.unreadable != then.unreadable:
            return True
        return now.plan is not then.plan or now.logbook is not then.logbook

    def _lost(self) -> list[Unreadable]:
        return not_to_be_told(self.board.unreadable)

    # --- playing -------------------------------------------------------------------------------

    def action_again(self) -> None:
        if self.playing:
            self._stop_it()
        else:
            self._run()

    def _run(self) -> None:
        if self._lost():
            self.board_app.tell("no date can be told while something cannot be read", warning=True)
            return
        self._stop = False
        self.playing = "getting ready"
        self._play(self.board)
        self._tell()

    def _stop_it(self) -> None:
        self._stop = True
        self.playing = "stopping"
        self._tell()

    @work(thread=True, exclusive=True, exit_on_error=False)
    def _play(self, board: Board) -> None:
        from crewboard.order.forecast.forecast import with_ways_sooner

        dates = self._dates(board)
        self.post_message(self.Forecasted(board, dates))
        if not (self._stop or dates.too_little):
            ways = with_ways_sooner(board, dates, self.ways, self._progress("what would help"))
            self.post_message(self.Forecasted(board, ways))

    def _dates(self, board: Board) -> Forecast:
        """Told first after a few runs, then given after all of them, or as many as there were."""
        from crewboard.order.forecast.forecast import first_runs, forecast

        first = min(first_runs(board), self.runs)
        soon = forecast(board, first, progress=self._progress("the first runs"))
        if soon.too_little:
            return soon
        if self._stop or soon.runs == self.runs:
            return soon._replace(asked=self.runs)
        self.post_message(self.Forecasted(board, soon))
        all_runs = forecast(board, self.runs, progress=self._progress("the trial runs"))
        return all_runs if all_runs.runs > soon.runs else soon._replace(asked=self.runs)

    def _progress(self, what: str) -> Callable[[int, int], bool]:
        """Tells the page, from the worker's thread, how far it is; False stops the playing."""
        worker, plain = get_current_worker(), self.board_app.plain

        def progress(done: int, of: int) -> bool:
            if worker.is_cancelled or self._stop:
                return False
            self.post_message(
                self.Progress(f"{how_far(what, done, of, plain=plain)}; Ctrl+R stops")
            )
            return True

        progress(0, 1)
        return progress

    def on_forecast_page_progress(self, message: Progress) -> None:
        if self.playing and not self._stop:
            self.playing = message.progress
            self._tell()

    def on_forecast_page_forecasted(self, message: Forecasted) -> None:
        self.forecast, self.of_board = message.forecast, message.board
        self._tell()

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.worker.name != "_play" or not event.worker.is_finished:
            return
        self.playing = ""
        if event.state is WorkerState.ERROR:
            self.board_app.tell(f"the forecast broke off: {event.worker.error}", warning=True)
        self._tell()

    # --- what can be done with it --------------------------------------------------------------

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        self.board_app.open_task(event.row_id)

    def action_why(self) -> None:
        if self.forecast is None or self.of_board is None:
            self.board_app.tell("there are no dates yet to explain")
            return
        self._explain(self.of_board, self.forecast)

    @work(thread=True, group="figures", exclusive=True, exit_on_error=False)
    def _explain(self, board: Board, forecast: Forecast) -> None:
        from crewboard.order.forecast.figures import RUNS, figures
        from crewboard.telling.forecast_figures import TITLE, figure_lines
        from crewboard.terminal.dialogs.dialog import Panel

        runs = min(forecast.runs, RUNS)
        behind = None if forecast.too_little else figures(board, forecast, runs)
        panel = Panel(TITLE, figure_lines(board, forecast, behind)[1:])
        self.app.call_from_thread(self.app.push_screen, panel)

    @work
    async def action_other(self) -> None:
        from crewboard.terminal.doing.others import Other, one_of

        drawing = Other("drawing", "the dates as an SVG file", self._draw)
        await one_of(self.board_app, [drawing])

    async def _draw(self) -> None:
        from crewboard.paper.forecast_svg import forecast_svg
        from crewboard.terminal.doing.save_drawing import save_drawing

        if self.forecast is None or self.of_board is None:
            self.board_app.tell("there is nothing to draw yet")
            return
        board, forecast = self.of_board, self.forecast
        await save_drawing(self.board_app, "forecast.svg", lambda: forecast_svg(board, forecast))
