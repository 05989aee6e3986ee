"""The forecast: dates, bars, components, what sets the date, what would bring it forward."""

from collections.abc import Iterable, Sequence
from datetime import date

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.forecast.bars import Bar, bars
from crewboard.order.forecast.finish import Finish, Forecast, Sooner
from crewboard.order.said import day_in_words, how_long, how_many, piece_first
from crewboard.telling.drawn import cells, drawn_bar, padded
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.row import STATE_TONE, Row, heading

_FEW = 8  # tasks of the longest chain that are named where there is no list to go through
_TOO_FAR = "not within fifty years"


def forecast_lines(board: Board, forecast: Forecast, width: int, *, plain: bool) -> list[Line]:
    """All but the chain, for lines of at most `width` columns; `plain` draws in ASCII."""
    table = component_table(board, forecast, width)
    return [
        title(f"When {board.plan.vehicle.name} will be finished"),
        *finish_lines(forecast),
        *(Line(remark, "warning", 2) for remark in forecast.remarks[:-1]),
        *(Line(remark, "faint", 2) for remark in forecast.remarks[-1:]),
        GAP,
        title("Share of the trial runs that end then, and of all up to then"),
        *(Line(bar, indent=2) for bar in bar_table(forecast.courses, width - 2, plain=plain)),
        GAP,
        *_sooner(forecast.sooner),
        title("Components, with the same chances"),
        *(Line(row, indent=2) for row in table or ["no work is left"]),
        GAP,
        Line(basis_in_words(forecast), "faint"),
    ]


def finish_lines(forecast: Forecast) -> list[Line]:
    """The dates of the whole vehicle."""
    finish = forecast.vehicle
    earliest = f"{finish_date(forecast.soonest)}, with people always free"
    return [
        Line(finish_date(finish.even), "caution", 2, "even chance (50 %), by "),
        Line(finish_date(finish.likely), "must", 2, "four in five (80 %), by"),
        Line(finish_date(finish.nearly_sure), "safe", 2, "nearly sure (95 %), by "),
        Line(earliest, "faint", 2, "earliest possible      "),
    ]


def chain_rows(board: Board, forecast: Forecast, most: int | None = None) -> list[Row]:
    """The tasks by how often they set the date, `most` of them or all."""
    if not forecast.on_chain:
        return []
    rows = [heading("What sets the date, in how many runs")]
    for link in forecast.on_chain[:most]:
        standing = board[link.task]
        tone = "warning" if link.share >= 0.5 else "plain"
        cells_of = (
            f"{link.share * 100:.0f} %",
            piece_first(board.plan, standing.task),
            standing.state,
        )
        rows.append(Row(link.task, cells_of, tone, find=STATE_TONE[standing.state]))
    return rows


def few_chain_rows(board: Board, forecast: Forecast) -> list[Row]:
    """The tasks that most often set the date."""
    return chain_rows(board, forecast, _FEW)


def basis_in_words(forecast: Forecast) -> str:
    """On how much the dates stand."""
    stopped = f" of {forecast.asked:,}, stopped" if forecast.stopped else ""
    runs = "1 trial run" if forecast.runs == 1 else f"{forecast.runs:,} trial runs"
    days = how_many(forecast.basis.work_days, "work day")
    tasks = how_many(forecast.basis.tasks_with_hours, "finished task")
    return f"{runs}{stopped}, seed {forecast.seed}; from {days} of sign-ins and {tasks} with hours."


def finish_date(day: date | None) -> str:
    """The date in words; none means that it lies too far off."""
    return _TOO_FAR if day is None else day_in_words(day)


def short_date(day: date | None) -> str:
    """ "20 May 2028" for a narrow column."""
    return "> 50 years" if day is None else day_in_words(day).partition(" ")[2]


def bar_table(courses: Sequence[date | None], width: int, *, plain: bool = False) -> list[str]:
    """A bar for each span of months, its share, and the share of all up to then."""
    spans = bars(courses)
    if not spans:
        return ["no trial run ended within fifty years"]
    wide = max(len(bar.label) for bar in spans)
    room = max(4, min(50, width - wide - 16))
    longest = max(bar.share for bar in spans)
    return [_bar_row(bar, wide, room, longest, plain=plain) for bar in spans]


def _bar_row(bar: Bar, wide: int, room: int, longest: float, *, plain: bool) -> str:
    drawn = padded(drawn_bar(bar.share / longest, room, plain=plain), room)
    return f"{bar.label:<{wide}}  {drawn} {bar.share * 100:4.0f} % {bar.by_then * 100:4.0f} %"


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
    return [head, *(_component_row(name, finish, wide) for name, finish in rows)]


def _with_work(board: Board, forecast: Forecast) -> Iterable[tuple[str, bool, Finish]]:
    """Name, whether it is a part, and its dates, for components not finished yet."""
    for component_id, finish in forecast.components:
        done, of = board.progress(component_id)
        if done < of:
            component = board.plan.components[component_id]
            yield component.name, bool(component.part_of), finish


def _component_row(name: str, finish: Finish, wide: int) -> str:
    while cells(name) > wide:
        name = name[:-1]
    even, likely, sure = map(short_date, finish)
    return f"{padded(name, wide)}  {even:>11} {likely:>12} {sure:>12}"


def _sooner(ways: Sequence[Sooner]) -> list[Line]:
    if not ways:
        return []
    return [title("What would bring it forward, on average"), *sooner_lines(ways), GAP]


def sooner_lines(ways: Sequence[Sooner]) -> list[Line]:
    """What each change brings; those that bring nothing that can be told come in one line."""
    lines = [
        Line(way.says, "safe", 2, f"{how_long(way.gain)} sooner:") for way in ways if way.tells
    ]
    others = "; ".join(way.says for way in ways if not way.tells)
    return [*lines, Line(others, "faint", 2, "no clear gain:")] if others else lines
