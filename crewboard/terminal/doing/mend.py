"""Correct an entry of the record where it is read, or take it back; it goes by its first id,
whatever corrected it since."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable
from functools import partial

from crewboard.logbook.entry import Entry
from crewboard.order.said import day_shortly
from crewboard.telling.entry_words import words_of
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.dialog import Panel
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.correct import correct, take_back
from crewboard.terminal.doing.others import Other
from crewboard.terminal.entry_lines import entry_lines


async def correct_entry(app: BoardApp, entry_id: str) -> None:
    """Show what it says now, to be changed."""
    if place := app.board.logbook.find(entry_id):
        await correct(app, *place)


async def take_back_entry(app: BoardApp, entry_id: str) -> None:
    """Take it back, with all that corrected it."""
    if place := app.board.logbook.find(entry_id):
        await take_back(app, *place, wholly=True)


def show_entry(app: BoardApp, entry_id: str) -> None:
    """All that it says now, field by field."""
    if place := app.board.logbook.find(entry_id):
        day, entry = place
        lines = entry_lines(app.board, day, day.wording(entry))
        app.push_screen(Panel("An entry of the logbook", lines))


def ways_to_mend(app: BoardApp, entries: Iterable[Entry]) -> list[Other]:
    """Correcting one of these, and taking one back; none where there are none."""
    told = sorted(entries, key=lambda entry: entry.at, reverse=True)
    if not told:
        return []
    return [
        Other("correct", "an entry on it", partial(_one_of, app, told, correct_entry)),
        Other("take back", "an entry on it", partial(_one_of, app, told, take_back_entry)),
    ]


async def _one_of(
    app: BoardApp, entries: Iterable[Entry], mend: Callable[[BoardApp, str], Awaitable[None]]
) -> None:
    words, today = words_of(app.board), app.board.at.date()
    choices = [
        Choice(entry.id, words.of(entry), day_shortly(entry.at.date(), today)) for entry in entries
    ]
    if picked := await app.push_screen_wait(PickOne("Which entry?", choices)):
        await mend(app, picked)
