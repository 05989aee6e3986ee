"""Which work day hours are of: asked where one is open behind today, or any past day on request."""

from __future__ import annotations

from datetime import date, timedelta

from crewboard.order.board import Board
from crewboard.order.safety.left_open import days_left_open, left_open_in_words
from crewboard.order.said import day_in_words, how_many
from crewboard.plan.as_typed import Unread
from crewboard.plan.as_typed import day as typed_day
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOne

_ANOTHER = "(another day)"
_BACK = timedelta(days=62)  # work days of which nothing was written are offered so far back


async def which_day(app: BoardApp) -> date | None:
    """Today, or, where a day is open behind it, the one that is picked; None when left."""
    board = app.board
    if not days_left_open(board.plan, board.logbook, board.at.date()):
        return board.at.date()
    return await ask_day(app, only_open=True)


async def ask_day(
    app: BoardApp,
    at: date | None = None,
    *,
    only_open: bool = False,
    title: str = "Hours of which day?",
) -> date | None:
    """Ask for today or a past day: from the list, or typed."""
    board, today = app.board, app.board.at.date()
    notes = _open_days(board) if only_open else _past_days(board)
    notes[today] = "today"
    choices = [
        Choice(day.isoformat(), day_in_words(day), notes[day])
        for day in sorted(notes, reverse=True)
    ]
    choices.append(Choice(_ANOTHER, "another day", "type its date"))
    behind = max((day for day in notes if day < today), default=today)
    start = at or (today if board.history.visits else behind)
    pick = PickOne(title, choices, at=start.isoformat())
    picked = await app.push_screen_wait(pick)
    if picked == _ANOTHER:
        return await _typed_day(app, title)
    return date.fromisoformat(picked) if picked else None


def _open_days(board: Board) -> dict[date, str]:
    """The past days that nobody closed, or on which somebody never signed out."""
    left_open = days_left_open(board.plan, board.logbook, board.at.date())
    return {day.day: "; ".join(left_open_in_words(board.plan, day)[-1:]) for day in left_open}


def _past_days(board: Board) -> dict[date, str]:
    """Every day of the logbook up to today, and the work days lately of which nothing is there."""
    today, work_days = board.at.date(), board.plan.vehicle.work_days
    silent = work_days.coming(today - _BACK, _BACK.days)
    notes = dict.fromkeys(silent, "nothing written yet")
    for day, of_day in board.logbook.days.items():
        if day < today:
            notes[day] = how_many(len(of_day.counting), "entry", "entries")
    return notes | _open_days(board)


async def _typed_day(app: BoardApp, title: str) -> date | None:
    today = app.board.at.date()

    def wrong(text: str) -> str:
        try:
            day = typed_day(text, today)
        except Unread as error:
            return str(error)
        return f"{day_in_words(day)} is still to come" if day > today else ""

    ask = AskLine(title, "its date", hint="2026-05-02", check=wrong)
    text = await app.push_screen_wait(ask)
    return typed_day(text, today) if text else None
