"""The forecast as a drawing: the years ahead as a ruler with the dates flagged on it."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.forecast.finish import Forecast
from crewboard.order.said import day_in_words
from crewboard.telling.date_ruler import Mark, Scale, Side, scale_of, ticks
from crewboard.telling.forecast import (
    EXPECTED,
    PLANNED,
    finish_date,
    growth_in_words,
    range_in_words,
    sides_of,
    title_of,
)

WIDTH, HEIGHT = 720, 360
_LEFT, _RIGHT = 24, 132  # what stands beside the last flag needs room
_RULER = 196  # from the top
_STEP, _FIRST = 26, 34  # from flag to flag, and to the one nearest to the ruler
_ROOM = 56  # from one label of the ruler to the next
_BEYOND = 44  # of the ruler behind the last flag
_INK, _FAINT, _EXPECTED, _PLANNED = "#1a1a1a", "#6a6a6a", "#1f4e79", "#6a6a6a"


def forecast_svg(board: Board, forecast: Forecast) -> str:
    """One drawing in SVG 1.1, readable without colour: what is expected stands above the ruler on
    whole poles, the plan as it stands below it on broken ones, each flag with its chance and date.
    What it shows stands in its `desc` too. One unit is one pixel at its own size."""
    above, below = sides_of(forecast)
    says = _dates(forecast)
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'width="{WIDTH}" height="{HEIGHT}" font-family="sans-serif" role="img">',
        f"<title>{_text(title_of(board))}</title>",
        f"<desc>{_text('; '.join(says))}</desc>",
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>',
        _words(_LEFT, 28, title_of(board), size=17),
        _words(_LEFT, 48, f"as seen on {day_in_words(forecast.at)}", size=11, ink=_FAINT),
        *_flagged(forecast, above, below),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _dates(forecast: Forecast) -> list[str]:
    if forecast.too_little:
        rough = forecast.rough
        alone = [f"by the estimates alone {range_in_words(rough, forecast.at)}"] if rough else []
        return [forecast.too_little, *alone]
    return [
        f"{name}: even chance by {finish_date(finish.even, forecast.at)}, four in five by "
        f"{finish_date(finish.likely, forecast.at)}, nearly sure by "
        f"{finish_date(finish.nearly_sure, forecast.at)}"
        for name, finish in ((EXPECTED, forecast.vehicle), (PLANNED, forecast.as_planned))
    ]


def _flagged(forecast: Forecast, above: Side, below: Side) -> Iterator[str]:
    days = [mark.day for mark in (*above.marks, *below.marks)]
    if forecast.too_little or not days:
        says = forecast.too_little or f"no date before {forecast.at.year + 50}"
        yield _words(_LEFT, 72, says, size=12)
    if not days:
        return
    scale = scale_of(forecast.at.date(), days, WIDTH - _LEFT - _RIGHT, _BEYOND)
    yield from _ruler(scale)
    exact = not forecast.too_little
    yield from _flags(scale, above, -1, exact=exact)
    yield from _flags(scale, below, 1, exact=exact)
    if forecast.growth is not None and not forecast.too_little:
        yield _words(_LEFT, HEIGHT - 16, growth_in_words(forecast.growth), size=12)


def _ruler(scale: Scale) -> Iterator[str]:
    yield _line(_LEFT, _RULER, WIDTH - 12, _RULER, _INK, width=2)
    yield _line(_LEFT, _RULER - 7, _LEFT, _RULER + 7, _INK, width=2)
    yield _words(_LEFT, _RULER + 20, "today", size=11, ink=_FAINT)
    for tick in ticks(scale, _ROOM):
        x = _LEFT + scale.place(tick.day)
        yield _line(x, _RULER, x, _RULER + 6, _INK, width=1)
        if x > _LEFT + 40:
            yield _words(x, _RULER + 20, tick.label, size=11, anchor="middle")


def _flags(scale: Scale, side: Side, way: int, *, exact: bool) -> Iterator[str]:
    """A pole for each mark; the earliest is the longest, so that no flag lies over another."""
    ink, broken = (_EXPECTED, "") if way < 0 else (_PLANNED, ' stroke-dasharray="3 3"')
    foot = _RULER if way < 0 else _RULER + 26
    for place, mark in enumerate(side.marks):
        x = _LEFT + scale.place(mark.day)
        top = foot + way * (_FIRST + _STEP * (len(side.marks) - 1 - place) - (0 if way < 0 else 16))
        yield _line(x, foot, x, top, ink, width=2, more=broken)
        ring = f'fill="#ffffff" stroke="{ink}" stroke-width="2"'
        yield f'<circle cx="{x:.1f}" cy="{_RULER}" r="4" {ring}/>'
        yield _words(
            x + 5, top + (10 if way < 0 else 0), _flag(mark, exact=exact), size=12, ink=ink
        )
    if side.marks:
        x = _LEFT + scale.place(side.marks[0].day)
        end = foot + way * (_FIRST + _STEP * (len(side.marks) - 1) + (14 if way < 0 else 2))
        anchor = "end" if x > WIDTH / 2 else "start"
        yield _words(x + (-6 if anchor == "end" else 5), end, side.name, size=12, anchor=anchor)


def _flag(mark: Mark, *, exact: bool) -> str:
    """The date, or its month where the day would say more than is known."""
    words = day_in_words(mark.day).split(" ")
    return f"{mark.label}: {' '.join(words[1 if exact else 2 :])}"


def _line(
    x: float, y: float, x2: float, y2: float, ink: str, *, width: float, more: str = ""
) -> str:
    return (
        f'<line x1="{x:.1f}" y1="{y:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" '
        f'stroke="{ink}" stroke-width="{width:g}"{more}/>'
    )


def _words(
    x: float, y: float, text: str, *, anchor: str = "start", size: int = 12, ink: str = _INK
) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{ink}" '
        f'text-anchor="{anchor}">{_text(text)}</text>'
    )


def _text(text: str) -> str:
    return escape(legible(text))
