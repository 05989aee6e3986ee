"""What an entry can cite, to pick from: pictures and recordings, and other entries."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import datetime

from crewboard.folder.read.pictures import files_under
from crewboard.logbook.acts import Found, Pictured, Sourced, Temporary
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import EntryField, named_by
from crewboard.logbook.record.seen import PICTURES, RECORDINGS, TookIn
from crewboard.logbook.record.temporary import still_temporary
from crewboard.logbook.record.waiting import files_waiting
from crewboard.order.board import Board
from crewboard.order.said import day_shortly, name_of
from crewboard.telling.files_waiting import taken_in_words
from crewboard.telling.sorting import shown_in_words
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice

Choices = Callable[[], Sequence[Choice]]
# Which kinds of entries a field of each kind names, those that are picked most first.
_ENTRIES: dict[str, tuple[type, ...]] = {
    "entries": (Sourced, Found),
    "finding": (Found,),
    "temporary": (Temporary,),
}


def to_cite(app: BoardApp, field: EntryField) -> Choices | None:
    """The list that the field is picked from; None where it names no file and no entry. It is made
    when it is first wanted, and once."""
    if field.names == "picture":
        places = _places(field)
        return _once(lambda: picture_choices(app, *places))
    kinds = _ENTRIES.get(field.kind)
    return None if kinds is None else _once(lambda: list(_entry_choices(app.board, kinds)))


def _places(field: EntryField) -> tuple[str, ...]:
    if field.many:
        return (PICTURES,)
    return (RECORDINGS,) if field.name == "recording" else (PICTURES, RECORDINGS)


def _once(make: Choices) -> Choices:
    made: list[Sequence[Choice]] = []

    def choices() -> Sequence[Choice]:
        if not made:
            made.append(make())
        return made[0]

    return choices


def picture_choices(app: BoardApp, *places: str) -> list[Choice]:
    """The files under these places: first those that wait to be sorted, then the others, of both
    what was taken last first."""
    board, root = app.board, app.workbench.folder.root
    waiting = {one.act.file: one.act for one in files_waiting(board.logbook, board.at)}
    said: dict[str, Pictured] = {}
    taken: dict[str, datetime] = {}
    for entry in board.logbook.record():
        if isinstance(entry.act, Pictured):
            said[entry.act.file] = entry.act
        elif isinstance(entry.act, TookIn) and entry.act.taken is not None:
            taken[entry.act.file] = entry.act.taken
    order: list[tuple[bool, float, str]] = []
    for place in places:
        for file in files_under(root, place):
            moment = taken[file.path].timestamp() if file.path in taken else file.written
            order.append((file.path in waiting, moment, file.path))
    choices = []
    for waits, _, path in sorted(order, reverse=True):
        note = shown_in_words(board, said[path]) if path in said else ""
        if waits:
            note = f"to be sorted, taken {taken_in_words(board, waiting[path])}"
        name = waiting[path].called if waits else ""
        tone = "must" if waits else "plain"
        choices.append(Choice(path, name or path.rpartition("/")[2], note, tone, path))
    return choices


def _entry_choices(board: Board, kinds: Sequence[type]) -> Iterator[Choice]:
    temporary = [entry for entry, _ in still_temporary(board.logbook.counting()).values()]
    entries = [*board.logbook.record(), *temporary]
    for kind in kinds:
        found = [entry for entry in entries if isinstance(entry.act, kind)]
        for entry in sorted(found, key=lambda entry: entry.at, reverse=True):
            yield _entry_choice(board, entry)


def _entry_choice(board: Board, entry: Entry) -> Choice:
    act = entry.act
    text = getattr(act, "seen", "") or getattr(act, "what", "")
    names = [name_of(board.plan, n.id) for n in named_by(act) if n.thing in ("piece", "component")]
    day = day_shortly(entry.at.date(), board.at.date())
    return Choice(entry.id, text, ", ".join((day, *names)))
