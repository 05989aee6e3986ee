"""`crewboard forecast`: when it will be finished, and what would bring that forward."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Option
from crewboard.order.unreadable import not_to_be_told

if TYPE_CHECKING:
    from collections.abc import Callable

    from crewboard.order.board import Board
    from crewboard.order.forecast.figures import Figures
    from crewboard.order.forecast.finish import Forecast

MOST_RUNS = 100_000


def _forecast(call: Call) -> Exit:
    runs, seed = _whole(call, "runs", 1000, 1, MOST_RUNS), _whole(call, "seed", 1, 0, 10**9)
    path = call.option("svg")
    if path and os.path.lexists(path):
        raise Refused(f'"{path}" is there already', "name another file")
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if lost := not_to_be_told(board.unreadable):
        sentence = f"no date can be told: {'; '.join(unread.says for unread in lost[:3])}"
        raise Refused(sentence, lost[0].mend)
    with _Stopping() as stopping:
        outlook = _dates(call, board, runs, seed, stopping)
        if path:
            _draw(call, path, board, outlook)
        if not call.given("json"):
            _tell(call, board, outlook)
        behind = _figures(call, board, outlook, stopping) if call.given("figures") else None
        if not (stopping.asked or outlook.too_little or call.given("short")):
            outlook = _with_ways(call, board, outlook, stopping)
    if call.given("json"):
        from crewboard.command.json_forecast import forecast_form

        call.out.json(forecast_form(outlook, behind))
    return Exit.FINE


def _dates(call: Call, board: Board, runs: int, seed: int, stopping: _Stopping) -> Forecast:
    from crewboard.order.forecast.forecast import first_runs, forecast

    first = first_runs(board)
    if _somebody_looks() and runs > first:
        _tell_first(call, forecast(board, first, seed, _telling(call, "the first runs", stopping)))
    return forecast(board, runs, seed, _telling(call, "the trial runs", stopping))


def _tell_first(call: Call, soon: Forecast) -> None:
    """Whoever waits at a terminal reads at once about when it will be."""
    from crewboard.telling.forecast import EXPECTED, finish_date

    if soon.too_little or soon.stopped:
        return
    even, likely, sure = (finish_date(day, soon.at) for day in soon.vehicle)
    call.out.talk(f"after {soon.runs} trial runs, {EXPECTED}:")
    call.out.talk(f"even chance by {even}, four in five by {likely}, nearly sure by {sure}")


def _figures(call: Call, board: Board, outlook: Forecast, stopping: _Stopping) -> Figures | None:
    """The figures behind the dates, told at once; none where too little is known."""
    from crewboard.order.forecast.figures import RUNS, figures
    from crewboard.paper.plain import plain_lines
    from crewboard.telling.forecast_figures import figure_lines

    progress = _telling(call, "the figures", stopping)
    runs = min(outlook.runs, RUNS)
    behind = None if outlook.too_little else figures(board, outlook, runs, progress)
    if not call.given("json"):
        lines = figure_lines(board, outlook, behind)
        call.out.lines(["", *plain_lines(lines, call.out.width)])
    return behind


def _with_ways(call: Call, board: Board, outlook: Forecast, stopping: _Stopping) -> Forecast:
    """With what would bring it forward, told as soon as it is known: the dates stand already."""
    from crewboard.order.forecast.forecast import WAYS, with_ways_sooner
    from crewboard.paper.plain import plain_lines
    from crewboard.telling.forecast import way_lines

    progress = _telling(call, "what would help", stopping)
    outlook = with_ways_sooner(board, outlook, min(outlook.asked, WAYS), progress)
    if not call.given("json"):
        lines = way_lines(outlook)
        call.out.lines(["", *plain_lines(lines, call.out.width)] if lines else [])
    return outlook


def _tell(call: Call, board: Board, outlook: Forecast) -> None:
    from crewboard.paper.plain import plain_lines, plain_rows
    from crewboard.telling.forecast import date_lines, few_chain_rows, rest_lines

    width, plain = call.out.width, call.given("ascii") or call.out.plain
    dates = date_lines(board, outlook, width, plain=plain)
    call.out.lines(plain_lines([*dates, *rest_lines(board, outlook, width)], width))
    if rows := few_chain_rows(board, outlook):
        call.out.lines(["", *plain_rows(rows, width)])


def _draw(call: Call, path: str, board: Board, outlook: Forecast) -> None:
    from crewboard.folder.disk.new_file import write_new
    from crewboard.paper.forecast_svg import forecast_svg

    write_new(path, forecast_svg(board, outlook))
    call.out.talk(f"written to {os.path.abspath(path)}")


class _Stopping:
    """Ctrl-C ends the playing and leaves what was found; a second one ends the program."""

    def __init__(self) -> None:
        self.asked = False

    def __enter__(self) -> _Stopping:
        import signal

        def stop(*_: object) -> None:
            self.asked = True
            signal.signal(signal.SIGINT, signal.default_int_handler)

        self._before = signal.signal(signal.SIGINT, stop)
        return self

    def __exit__(self, *_: object) -> None:
        import signal

        signal.signal(signal.SIGINT, self._before)


def _telling(call: Call, what: str, stopping: _Stopping) -> Callable[[int, int], bool]:
    """A bar on one line of a terminal; nothing where nobody looks."""
    from crewboard.telling.forecast import how_far

    shown = _somebody_looks()
    plain = call.given("ascii") or call.out.plain

    def progress(done: int, of: int) -> bool:
        if shown:
            over = done >= of or stopping.asked
            bar = f"{how_far(what, done, of, plain=plain)} (Ctrl-C stops)"
            sys.stderr.write(f"\r{' ' * len(bar)}\r" if over else f"{bar} \r")
            sys.stderr.flush()
        return not stopping.asked

    return progress


def _somebody_looks() -> bool:
    """Whether what is talked of on the way is seen."""
    return sys.stderr is not None and sys.stderr.isatty()


def _whole(call: Call, name: str, otherwise: int, least: int, most: int) -> int:
    typed = call.option(name, str(otherwise))
    if not (typed.isascii() and typed.isdigit() and least <= int(typed[:12]) <= most):
        raise WrongCall(
            f'"{typed}" is no number for --{name}', f"write a whole number from {least} to {most}"
        )
    return int(typed)


forecast = Command(
    _forecast,
    "Runs the rest of the job through many times on trial, with the crew's own attendance, pace "
    "and delays from the logbook and with the work that usually turns up on the way, and tells "
    "when it is finished with 50, 80 and 95 %, what that supposes, how often each task set the "
    "date, and what would bring it forward. Ctrl-C stops with the runs so far.",
    (DIR,),
    (
        Option("runs", "how many trial runs; 1000 unless said otherwise", "NUMBER"),
        Option("seed", "another number gives other runs, the same the same", "NUMBER"),
        Option("short", "without what would bring it forward"),
        Option("figures", "also the figures behind the dates: pace, people, the longest waits"),
        Option("ascii", "the ruler in plain characters"),
        Option("svg", "also as a drawing, into a new file", "FILE"),
        AT,
        JSON,
    ),
    (
        "crewboard forecast sample_project",
        "crewboard forecast . --short --figures",
        "crewboard forecast . --runs 300 --svg finish.svg",
    ),
)
