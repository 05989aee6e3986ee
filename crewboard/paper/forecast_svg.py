"""The forecast as a drawing: bars of when it ends, and the curve of how sure it is by then."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from html import escape

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.forecast.bars import Bar, bars
from crewboard.order.forecast.finish import Forecast
from crewboard.order.said import day_in_words
from crewboard.telling.forecast import finish_date

WIDTH, HEIGHT = 720, 400
_LEFT, _RIGHT, _TOP, _BOTTOM = 48, 20, 64, 72
_INK, _FAINT, _BAR, _CURVE = "#1a1a1a", "#8a8a8a", "#c9d3dc", "#1f4e79"


def forecast_svg(board: Board, forecast: Forecast) -> str:
    """One drawing in SVG 1.1, readable without colour; what it shows stands in its `desc` too."""
    name = board.plan.vehicle.name
    finish = forecast.vehicle
    dates = (
        f"even chance by {finish_date(finish.even)}, four in five by {finish_date(finish.likely)}, "
        f"nearly sure by {finish_date(finish.nearly_sure)}"
    )
    spans = bars(forecast.courses)
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'width="{WIDTH}" height="{HEIGHT}" font-family="sans-serif" role="img">',
        f"<title>{_text(f'When {name} will be finished')}</title>",
        f"<desc>{_text(dates)}</desc>",
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>',
        _words(_LEFT, 24, f"When {name} will be finished", size=16),
        _words(_LEFT, 44, f"{dates}; as seen on {day_in_words(forecast.at)}", size=11),
        *_axis(),
        *_bars(spans),
        *_curve(forecast.courses, spans),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _axis() -> list[str]:
    parts = []
    for share in (0, 0.5, 0.8, 0.95, 1):
        y = _height(share)
        parts.append(
            f'<line x1="{_LEFT}" y1="{y:.1f}" x2="{WIDTH - _RIGHT}" y2="{y:.1f}" '
            f'stroke="{_FAINT}" stroke-width="0.5"/>'
        )
        parts.append(_words(_LEFT - 6, y + 4, f"{share:.0%}", anchor="end", size=10))
    return parts


def _bars(spans: Sequence[Bar]) -> list[str]:
    if not spans:
        return [_words(_LEFT + 10, HEIGHT / 2, "no trial run ended within fifty years")]
    wide = (WIDTH - _LEFT - _RIGHT) / len(spans)
    parts = []
    for place, bar in enumerate(spans):
        x, y = _LEFT + place * wide, _height(bar.share)
        parts.append(
            f'<rect x="{x + 1:.1f}" y="{y:.1f}" width="{max(1.0, wide - 2):.1f}" '
            f'height="{_height(0) - y:.1f}" fill="{_BAR}" stroke="{_FAINT}" stroke-width="0.5"/>'
        )
        middle, base = x + wide / 2, _height(0) + 10
        parts.append(
            f'<text x="{middle:.1f}" y="{base:.1f}" font-size="10" fill="{_INK}" '
            f'text-anchor="end" transform="rotate(-40 {middle:.1f} {base:.1f})">'
            f"{_text(bar.label)}</text>"
        )
    return parts


def _curve(courses: Sequence[date | None], spans: Sequence[Bar]) -> list[str]:
    if not spans:
        return []
    first, last = spans[0].first, spans[-1].until
    whole = (last - first).days
    step = max(1, len(courses) // 200)
    points = [
        (_LEFT + (day - first).days / whole * (WIDTH - _LEFT - _RIGHT), (n + 1) / len(courses))
        for n, day in enumerate(courses)
        if day is not None and (n % step == 0 or n == len(courses) - 1)
    ]
    line = " ".join(f"{x:.1f},{_height(share):.1f}" for x, share in points)
    return [f'<polyline points="{line}" fill="none" stroke="{_CURVE}" stroke-width="2"/>']


def _height(share: float) -> float:
    return _TOP + (1 - share) * (HEIGHT - _TOP - _BOTTOM)


def _words(x: float, y: float, text: str, *, anchor: str = "start", size: int = 12) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{_INK}" '
        f'text-anchor="{anchor}">{_text(text)}</text>'
    )


def _text(text: str) -> str:
    return escape(legible(text))
