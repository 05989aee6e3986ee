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
    outlook = _played(call, board, runs, seed)
    if path:
        from crewboard.folder.disk.new_file import write_new
        from crewboard.paper.forecast_svg import forecast_svg

        write_new(path, forecast_svg(board, outlook))
        call.out.talk(f"written to {os.path.abspath(path)}")
    if call.given("json"):
        from crewboard.command.json_board import forecast_form

        call.out.json(forecast_form(outlook))
    else:
        from crewboard.paper.plain import plain_lines, plain_rows
        from crewboard.telling.forecast import few_chain_rows, forecast_lines

        width, plain = call.out.width, call.given("ascii") or call.out.plain
        call.out.lines(plain_lines(forecast_lines(board, outlook, width, plain=plain), width))
        call.out.lines(["", *plain_rows(few_chain_rows(board, outlook), width)])
    return Exit.FINE


def _played(call: Call, board: Board, runs: int, seed: int) -> Forecast:
    """The forecast, and what would help unless it was stopped with Ctrl-C."""
    from crewboard.order.forecast.forecast import forecast, with_ways_sooner

    with _Stopping() as stopping:
        outlook = forecast(board, runs, seed, _telling("trial runs", stopping))
        if not (outlook.stopped or call.given("short")):
            ways = min(runs, 300)
            progress = _telling("what would help", stopping)
            outlook = with_ways_sooner(board, outlook, ways, progress)
    return outlook


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


def _telling(what: str, stopping: _Stopping) -> Callable[[int, int], bool]:
    """Progress on one line of a terminal; nothing where nobody looks."""
    shown = sys.stderr is not None and sys.stderr.isatty()

    def progress(done: int, of: int) -> bool:
        if shown:
            end = "\r" if done < of and not stopping.asked else "\n"
            sys.stderr.write(f"{what}: {done} of {of} (Ctrl-C stops) {end}")
            sys.stderr.flush()
        return not stopping.asked

    return progress


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
    "and delays from the logbook, and tells when it is finished with 50, 80 and 95 %, how often "
    "each task set the date, and what would bring it forward. Ctrl-C stops with the runs so far.",
    (DIR,),
    (
        Option("runs", "how many trial runs; 1000 unless said otherwise", "NUMBER"),
        Option("seed", "another number gives other runs, the same the same", "NUMBER"),
        Option("short", "without what would bring it forward"),
        Option("ascii", "bars in plain characters"),
        Option("svg", "also as a drawing, into a new file", "FILE"),
        AT,
        JSON,
    ),
    (
        "crewboard forecast sample_project",
        "crewboard forecast . --runs 300 --svg finish.svg",
    ),
)
