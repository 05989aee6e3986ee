"""Lines of the logbook in words that need no ids looked up."""

from __future__ import annotations

from datetime import datetime

from crewboard.logbook.acts import Extended, Released, TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.said import day_and_time, person
from crewboard.telling.entry_words import put_down_in_words, words_of
from crewboard.telling.line import Line


def entry_text(board: Board, entry: Entry, day: Day | None = None) -> str:
    """What the entry says; holds, checks and taken-back lines by what they are about."""
    return words_of(board).of(entry, day)


def hold_history(board: Board, hold: StandingHold) -> list[Line]:
    """Every line of the logbook that started, extended or released the hold."""
    lines: list[Line] = []
    started = board.logbook.find(hold.id)
    if started is not None:
        day, entry = started
        lines.append(_line(board, entry, day))
        for each_day in board.logbook.days.values():
            lines += [
                _line(board, e, each_day)
                for e in each_day.counting
                if isinstance(e.act, Extended | Released) and e.act.hold == hold.id
            ]
    if not lines:
        lines.append(Line("the plan says that the work was finished; the logbook has no entry"))
    return lines


def _line(board: Board, entry: Entry, day: Day) -> Line:
    by = f" by {person(board.plan, entry.by)}" if entry.by else ""
    put_down = put_down_in_words(entry) or ("written" if by else "")
    written = f", {put_down}{by}" if put_down else ""
    return Line(f"{entry_text(board, entry, day)}{written}", "faint", 0, day_and_time(entry.at))


def fate_in_words(board: Board, day: Day, fate: str) -> str:
    """ "CORRECTED by Ada Marsh", "TAKEN BACK by Ada Marsh: wrong day": by the entry of that id."""
    taker = next((entry for entry in day.entries if entry.id == fate), None)
    word = "TAKEN BACK" if taker and isinstance(taker.act, TakenBack) else "CORRECTED"
    whom = f" by {person(board.plan, taker.by)}" if taker and taker.by else ""
    why = taker.act.why if taker and isinstance(taker.act, TakenBack) else ""
    return f"{word}{whom}{f': {why}' if why else ''}"


def entry_lines(board: Board, day: Day, entry: Entry) -> list[Line]:
    """Everything an entry holds, field by field, as it stands in the day's file."""
    from crewboard.folder.read.day_file import entry_fields
    from crewboard.folder.read.files import day_path

    fate = day.fate().get(entry.id, "")
    lines = [Line(entry_text(board, entry, day), "strong", bold=True), Line("")]
    fields = {"id": entry.id, **entry_fields(entry)}
    for key, value in fields.items():
        text = day_and_time(value) if isinstance(value, datetime) else value
        text = ", ".join(map(str, text)) if isinstance(text, list) else str(text)
        lines.append(Line(text, "faint", 0, f"{key}:"))
    lines.append(Line(day_path(day.date), "faint", 0, "file:"))
    if fate:
        lines += [
            Line(""),
            Line(f"it does not count any more: {fate_in_words(board, day, fate)}", "warning"),
        ]
    return lines
