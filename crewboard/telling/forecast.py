"""The forecast in plain lines: dates, bars, components, what sets the date, what would help."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.forecast.bars import Bar, bars
from crewboard.order.forecast.finish import Finish, Forecast, Sooner
from crewboard.order.said import day_in_words, how_long, how_many
from crewboard.paper.plain import Paper
from crewboard.telling.drawn import cells, padded

# How many tasks of the longest chain are named.
CHAIN = 8
_LATER = "not within fifty years"
_EIGHTHS = " ▏▎▍▌▋▊▉█"


def forecast_lines(board: Board, forecast: Forecast, width: int, plain: bool = False) -> list[str]:
    """The whole forecast. `plain` draws the bars in ASCII."""
    paper = Paper(width)
    for line in finish_lines(board, forecast):
        paper.line(line, hang=2)
    for remark in forecast.remarks:
        paper.line(remark, indent=2, hang=2)
    paper.heading("When it ends: share of the courses, and of all up to then")
    paper.lines += bar_lines(forecast.courses, width, plain)
    paper.heading("Components, with the same chances")
    paper.lines += component_lines(board, forecast, width)
    paper.heading("What sets the date: how often each task was on the longest chain")
    for line in chain_lines(board, forecast):
        paper.line(line, indent=2, hang=7)
    if forecast.sooner:
        paper.heading("What would bring it forward, on average")
        for line in sooner_lines(forecast.sooner):
            paper.line(line, indent=2, hang=2)
    return paper.lines


def finish_lines(board: Board, forecast: Forecast) -> list[str]:
    """The three dates of the vehicle, and on how much they stand."""
    finish = forecast.vehicle
    stopped = f", stopped before {forecast.asked}" if forecast.stopped else ""
    return [
        f"{board.plan.vehicle.name}: when it will be finished",
        f"  even chance (50 %)     by {said(finish.even)}",
        f"  four in five (80 %)    by {said(finish.likely)}",
        f"  nearly sure (95 %)     by {said(finish.nearly_sure)}",
        f"  soonest of all            {said(forecast.soonest)}, if nothing ever waited for people",
        f"Played the rest of the job {how_many(forecast.runs, 'time')} (seed {forecast.seed}"
        f"{stopped}), from "
        f"{how_many(forecast.basis.work_days, 'work day')} of sign-ins and "
        f"{how_many(forecast.basis.tasks_with_hours, 'finished task')} with hours.",
    ]


def said(day: date | None) -> str:
    """The date in words; none means that it lies too far off."""
    return _LATER if day is None else day_in_words(day)


def short(day: date | None) -> str:
    """ "20 May 2028" for a narrow column."""
    return "> 50 years" if day is None else day_in_words(day).partition(" ")[2]


def bar_lines(courses: Sequence[date | None], width: int, plain: bool = False) -> list[str]:
    """A bar for each span of months, its share, and the share of all up to then."""
    found = bars(courses)
    if not found:
        return ["  no course ended within fifty years"]
    wide = max(len(bar.label) for bar in found)
    room = max(4, min(50, width - wide - 18))
    longest = max(bar.share for bar in found)
    return [_bar_line(bar, wide, room, longest, plain) for bar in found]


def _bar_line(bar: Bar, wide: int, room: int, longest: float, plain: bool) -> str:
    drawn = padded(drawn_bar(bar.share / longest, room, plain), room)
    return f"  {bar.label:<{wide}}  {drawn} {_percent(bar.share)} {_percent(bar.by_then)}"


def _percent(share: float) -> str:
    return f"{share * 100:4.0f} %"


def drawn_bar(share: float, room: int, plain: bool = False) -> str:
    """A bar of `share` (0 to 1) of `room` columns; in eighths of a column unless `plain`."""
    if plain:
        return "#" * round(share * room)
    full, eighth = divmod(round(share * room * 8), 8)
    return "█" * full + _EIGHTHS[eighth].strip()


def component_lines(board: Board, forecast: Forecast, width: int) -> list[str]:
    """The three dates of each component that has work left, parts set in."""
    rows = [
        (f"{'  ' if part else ''}{name}", finish)
        for name, part, finish in components_with_work(board, forecast)
    ]
    if not rows:
        return ["  no work is left"]
    wide = min(max(cells(name) for name, _ in rows), max(10, width - 42))
    head = f"  {padded('', wide)}  {'50 %':>11} {'80 %':>12} {'95 %':>12}"
    return [head, *(_component_line(name, finish, wide) for name, finish in rows)]


def components_with_work(board: Board, forecast: Forecast) -> Iterable[tuple[str, bool, Finish]]:
    """Name, whether it is a part, and its dates, for components not finished yet."""
    plan = board.plan
    for component, finish in forecast.components:
        done, of = board.progress(component)
        if done < of:
            known = plan.components[component]
            yield known.name, bool(known.part_of), finish


def _component_line(name: str, finish: Finish, wide: int) -> str:
    shown = legible(name)
    while cells(shown) > wide:
        shown = shown[:-1]
    dates = f"{short(finish.even):>11} {short(finish.likely):>12} {short(finish.nearly_sure):>12}"
    return f"  {padded(shown, wide)}  {dates}"


def chain_lines(board: Board, forecast: Forecast, most: int = CHAIN) -> list[str]:
    """The tasks most often on the longest chain."""
    if not forecast.on_chain:
        return ["no work is left"]
    return [
        f"{each.share * 100:3.0f} %  {board.plan.tasks[each.task].title}"
        for each in forecast.on_chain[:most]
    ]


def sooner_lines(sooner: Iterable[Sooner]) -> list[str]:
    """What each change brings; those that bring nothing that can be told come in one line."""
    ways = list(sooner)
    lines = [f"{how_long(each.gain)} sooner: {each.says}" for each in ways if each.tells]
    others = [each.says for each in ways if not each.tells]
    if others:
        lines.append("nothing that could be told from chance: " + "; ".join(others))
    return lines
