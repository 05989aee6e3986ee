"""When each component will be finished, as a table."""

from collections.abc import Iterable
from datetime import date, datetime

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.forecast.finish import Finish, Forecast
from crewboard.order.said import day_in_words
from crewboard.telling.drawn import cells, padded

YEARS = 50  # as far as the trial runs go


def component_table(board: Board, forecast: Forecast, width: int) -> list[str]:
    """The three dates of each component that has work left, with a head, parts set in."""
    rows = [
        (f"{'  ' if part else ''}{legible(name)}", finish)
        for name, part, finish in _with_work(board, forecast)
    ]
    if not rows:
        return []
    wide = min(max(cells(name) for name, _ in rows), max(10, width - 42))
    head = f"{padded('', wide)}  {'50 %':>11} {'80 %':>12} {'95 %':>12}"
    return [head, *(_component_row(name, finish, wide, forecast.at) for name, finish in rows)]


def _with_work(board: Board, forecast: Forecast) -> Iterable[tuple[str, bool, Finish]]:
    """Name, whether it is a part, and its dates, for components not finished yet."""
    for component_id, finish in forecast.components:
        done, of = board.progress(component_id)
        if done < of:
            component = board.plan.components[component_id]
            yield component.name, bool(component.part_of), finish


def _component_row(name: str, finish: Finish, wide: int, at: datetime) -> str:
    while cells(name) > wide:
        name = name[:-1]
    even, likely, sure = (short_date(day, at) for day in finish)
    return f"{padded(name, wide)}  {even:>11} {likely:>12} {sure:>12}"


def short_date(day: date | None, at: datetime) -> str:
    """ "20 May 2028" for a narrow column."""
    return f"> {at.year + YEARS}" if day is None else day_in_words(day).partition(" ")[2]
