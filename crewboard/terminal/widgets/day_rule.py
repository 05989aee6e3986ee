"""The work day as a rule on the bench: hours ticked off, how far it is, what comes when."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.said import day_and_time
from crewboard.telling.clocks import STEAM_ROW
from crewboard.telling.line import Tone
from crewboard.telling.moments import Moment, moments
from crewboard.terminal.cells import cell_len, shortened
from crewboard.terminal.tones import tones_of

_LABEL, _SHORTEST = 44, 18  # cells a label may take, and wants at least


class DayRule(Widget):
    """Two lines: the rule from opening to closing, and what stands on it."""

    DEFAULT_CSS = "DayRule { height: 2; min-width: 1; }"

    def __init__(self) -> None:
        super().__init__()
        self._board: Board | None = None
        self._moments: list[Moment] = []

    def show(self, board: Board) -> None:
        self._board = board
        self._moments = moments(board)
        self.refresh()

    def render_line(self, y: int) -> Strip:
        width, base, board = self.size.width, self.rich_style, self._board
        plain = bool(getattr(self.app, "plain", False))
        if board is None or width < 4 or y > 1:
            return Strip.blank(max(0, width), base)
        if not board.openings:
            return _no_work_day(board, y, width, base)
        day = board.at.date()
        opens = datetime.combine(day, board.openings[0].opens)
        closes = datetime.combine(day, board.openings[-1].closes)
        scale = _Scale(opens, max(closes, opens + timedelta(minutes=1)), width - 2)
        tones = tones_of(self.app)
        strip = (
            _rule(scale, board.at, self._moments, base, plain, tones)
            if y == 0
            else _labels(scale, _to_come(self._moments, board.at), base, plain, tones)
        )
        return Strip([Segment(" ", base), *strip]).adjust_cell_length(width, base)


class _Scale:
    """Where a moment lies on the rule."""

    def __init__(self, opens: datetime, closes: datetime, width: int) -> None:
        self.opens, self.closes, self.width = opens, closes, max(2, width)

    def place(self, at: datetime) -> int:
        share = (at - self.opens) / (self.closes - self.opens)
        return round(min(1.0, max(0.0, share)) * (self.width - 1))


def _rule(
    scale: _Scale,
    now: datetime,
    moments: list[Moment],
    base: Style,
    plain: bool,
    tones: Mapping[Tone, str],
) -> list[Segment]:
    passed, ahead, mark, event = ("=", "-", "V", "|") if plain else ("━", "─", "▼", "╇")
    here = scale.place(now)
    cells = [
        (passed if x < here else ahead, "plain" if x < here else "faint")
        for x in range(scale.width)
    ]
    hour = scale.opens.replace(minute=0) + timedelta(hours=1 if scale.opens.minute else 0)
    while hour <= scale.closes:
        label = f"{hour.hour}"
        start = min(scale.place(hour), scale.width - len(label))
        if start <= here < start + len(label):  # beside the mark of now, not under it
            start = here + 1 if here + 1 + len(label) <= scale.width else here - len(label)
        for number, letter in enumerate(label):
            cells[start + number] = (letter, "strong" if hour <= now else "plain")
        hour += timedelta(hours=1)
    for moment in moments:
        x = scale.place(moment.at)
        if not cells[x][0].isdigit():
            cells[x] = (event, moment.tone)
    cells[here] = (mark, "strong")
    return [
        Segment(letter, base + Style(color=tones[tone], bold=tone == "strong"))
        for letter, tone in cells
    ]


def _to_come(moments: list[Moment], now: datetime) -> list[Moment]:
    """Those that are still ahead, first what has to come out of the steam box, also once that is
    overdue. What else has passed has its mark and its row below; where none is ahead, all."""
    out = [moment for moment in moments if moment.row.startswith(STEAM_ROW)]
    ahead = [moment for moment in moments if moment.at >= now and moment not in out]
    return [*out, *ahead] or moments


def _labels(
    scale: _Scale, moments: list[Moment], base: Style, plain: bool, tones: Mapping[Tone, str]
) -> list[Segment]:
    """The moments under their places; what finds no room is counted."""
    segments: list[Segment] = []
    used = 0
    for number, moment in enumerate(moments):
        later = len(moments) - number - 1
        more = f"and {later + 1} more"
        room = scale.width - used - (len(more) + 2 if later else 0)
        if room < _SHORTEST:
            segments.append(Segment(more, base + Style(color=tones["faint"])))
            break
        text = f"{moment.at:%H:%M} {legible(moment.text)}"
        text = shortened(text, min(_LABEL, room), plain=plain)
        start = max(used, min(scale.place(moment.at), used + room - cell_len(text)))
        segments.append(Segment(" " * (start - used), base))
        segments.append(Segment(text, base + Style(color=tones[moment.tone])))
        segments.append(Segment("  ", base))
        used = start + cell_len(text) + 2
    return segments


def _no_work_day(board: Board, y: int, width: int, base: Style) -> Strip:
    work_days = board.plan.vehicle.work_days
    opens, why = work_days.next_after(board.at), work_days.called_off(board.at.date())
    today = " No work day today" if why is None else " Today is called off"
    if why is None and (holiday := work_days.holiday(board.at.date())) is not None:
        today, why = " Holidays today", holiday.why
    today += f": {legible(why)}." if why else "."
    text = (
        ""
        if y
        else today + (f" The next is {day_and_time(opens)}." if opens else " None is planned.")
    )
    return Strip([Segment(text, base)]).adjust_cell_length(width, base)
