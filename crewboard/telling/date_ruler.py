"""The years ahead as a ruler, with the dates of the forecast marked on it.

What is expected stands above the ruler, what the plan alone says below it. Each mark has its chance
beside it, so that it is read without colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from crewboard.order.said import SHORT_MONTHS

_YEARS = (1, 2, 5, 10, 20, 50)  # from one label to the next
_MONTHS_UP_TO = timedelta(days=600)  # a ruler shorter than this has months on it


class Mark(NamedTuple):
    """A date to mark and what stands beside it."""

    day: date
    label: str


class Tick(NamedTuple):
    """A first of the month with its label: the year in January, else the month."""

    day: date
    label: str


class Scale(NamedTuple):
    """A length of `width` from `start` to `end`; `place` says where on it a day lies."""

    start: date
    end: date
    width: float

    def place(self, day: date) -> float:
        share = (day - self.start) / max(timedelta(days=1), self.end - self.start)
        return min(1.0, max(0.0, share)) * self.width


def scale_of(today: date, days: Sequence[date], width: float, beyond: float) -> Scale:
    """From today to past the last of the days, so that `beyond` of the width is left behind it."""
    last = max([*days, today])
    more = max(timedelta(days=14), (last - today) * (beyond / (width - beyond)))
    return Scale(today, min(last, date.max - more) + more, width)


def ticks(scale: Scale, room: float) -> list[Tick]:
    """As many as leave `room` from each to the next: years, or months where it is short."""
    if scale.end - scale.start <= _MONTHS_UP_TO:
        for step in (1, 2, 3, 6):
            months = [_tick(day) for day in _firsts(scale, step)]
            if len(months) * room <= scale.width:
                return months
    years = range(scale.start.year + 1, scale.end.year + 1)
    step = next((s for s in _YEARS if len(years) / s * room <= scale.width), _YEARS[-1])
    return [Tick(date(year, 1, 1), str(year)) for year in years if year % step == 0]


def _firsts(scale: Scale, step: int) -> list[date]:
    first = scale.start.year * 12 + scale.start.month
    last = scale.end.year * 12 + scale.end.month
    return [date(m // 12, m % 12 + 1, 1) for m in range(first, last) if m % 12 % step == 0]


def _tick(day: date) -> Tick:
    return Tick(day, str(day.year) if day.month == 1 else SHORT_MONTHS[day.month - 1])


# --- in characters -------------------------------------------------------------------------------


class Side(NamedTuple):
    """What stands on one side of the ruler: its name, where there is room for it, and the marks."""

    name: str
    marks: Sequence[Mark]


def drawn(scale: Scale, above: Side, below: Side, *, plain: bool = False) -> list[str]:
    """Lines of at most the scale's width: the marks above with what they say, the ruler, and the
    marks below, where there are any."""
    down, up = ("v", "^") if plain else ("▼", "▲")
    lines = [_marked(scale, above, down)] if above.marks else []
    lines.append(_ruler(scale, plain=plain))
    return lines + ([_marked(scale, below, up)] if below.marks else [])


def _ruler(scale: Scale, *, plain: bool) -> str:
    width = int(scale.width)
    line = list(("|" if plain else "├") + ("-" if plain else "─") * (width - 1))
    for tick in ticks(scale, 7):
        at = round(scale.place(tick.day))
        if at > 1 and at + len(tick.label) <= width:
            line[at : at + len(tick.label)] = tick.label
    return "".join(line)


def _marked(scale: Scale, side: Side, sign: str) -> str:
    """The signs in their columns; each label to the right of its sign, or to the left, or shorter,
    or left out, as the next sign leaves room."""
    width = int(scale.width)
    labels: dict[int, list[str]] = {}
    for mark in side.marks:
        labels.setdefault(min(width - 1, round(scale.place(mark.day))), []).append(mark.label)
    line = [" "] * width
    for at in labels:
        line[at] = sign
    for at, of in labels.items():
        whole = "-".join(dict.fromkeys([of[0], of[-1]]))
        for label, columns in _beside(at, whole, whole.replace(" %", "")):
            if _free(line, columns, at):
                line[columns.start : columns.stop] = label
                break
    room = len(side.name) + 2
    if not "".join(line[:room]).strip():
        line[: room - 2] = side.name
    return "".join(line).rstrip()


def _beside(at: int, *labels: str) -> Iterator[tuple[str, range]]:
    """Each label with the columns to the right of a sign, then with those to its left."""
    for label in labels:
        yield label, range(at + 1, at + 1 + len(label))
        yield label, range(at - len(label), at)


def _free(line: Sequence[str], columns: range, at: int) -> bool:
    """Whether nothing but the sign itself stands there, or right beside."""
    if columns.start < 0 or columns.stop > len(line):
        return False
    around = range(max(0, columns.start - 1), min(len(line), columns.stop + 1))
    return all(line[column] == " " or column == at for column in around)
