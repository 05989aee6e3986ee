"""Jot something down for the record: found, done to a piece, put away, measured, a picture."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from crewboard.logbook.acts import (
    DoneTo,
    Found,
    Measured,
    Stored,
    TakenOff,
)
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.logbook.on_several import on_pieces
from crewboard.logbook.record.seen import TookIn
from crewboard.order.board import Board
from crewboard.order.said import component_name, pieces_in_words
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.entry_form import record_here, write_entry
from crewboard.terminal.doing.old_piece import OTHER, place_choices, type_place

_FIRST = (Found, DoneTo, Stored, TakenOff)


class Of(NamedTuple):
    """What it is of: pieces, else a component, else the vehicle as a whole; and a task."""

    pieces: tuple[str, ...] = ()
    component: str = ""
    task: str = ""

    def named(self, board: Board) -> str:
        if self.pieces:
            return pieces_in_words(board.plan, self.pieces)
        return component_name(board.plan, self.component) if self.component else "the vehicle"


def of_tasks(board: Board, tasks: Sequence[str]) -> Of:
    """What tasks are done to: their pieces, else their component."""
    plan = board.plan
    known = [plan.tasks[task] for task in tasks if task in plan.tasks]
    pieces = tuple(dict.fromkeys(piece for task in known for piece in task.pieces))
    components = tuple(dict.fromkeys(task.component for task in known))
    task = known[0].id if len(known) == 1 else ""
    return Of(pieces, "" if pieces or len(components) != 1 else components[0], task)


async def jot(app: BoardApp, of: Of) -> bool:
    """Ask what is to be jotted down of it, and write it; whether it was kept."""
    kinds = [KINDS_OF_ENTRY[act] for act in (*_FIRST, Measured)]
    kinds += [k for k in KINDS_OF_ENTRY.values() if _fits(k) and k not in kinds]
    offered = [kind for kind in kinds if of.pieces or not _needs_piece(kind)]
    choices = [Choice(kind.word, kind.title.lower()) for kind in offered]
    word = await app.push_screen_wait(PickOne(f"For the record: {of.named(app.board)}", choices))
    kind = next((kind for kind in offered if kind.word == word), None)
    if kind is None:
        return False
    if kind.act is Stored:
        return await _put_away(app, of)
    return await jot_kind(app, kind, of)


async def jot_kind(app: BoardApp, kind: KindOfEntry, of: Of, **also: Any) -> bool:
    """The form of one kind, on what it is of."""
    fields = {field.name: field.kind for field in kind.fields}
    preset: dict[str, Any] = dict(also)
    if "pieces" in fields and of.pieces:
        preset["pieces"] = of.pieces
    elif "piece" in fields and of.pieces:
        preset["piece"] = of.pieces[0]
        if "component" in fields:
            preset["component"] = ""
    elif "component" in fields and of.component:
        preset |= {"component": of.component, **({"piece": ""} if "piece" in fields else {})}
    if "task" in fields and of.task:
        preset["task"] = of.task
    kept = await write_entry(
        app,
        kind,
        preset,
        f"{kind.title}: {of.named(app.board)}",
        spread=lambda act: on_pieces(act, of.pieces) if "piece" in fields and of.pieces else [act],
    )
    if kept:
        app.tell("saved in the logbook")
    return kept


def _fits(kind: KindOfEntry) -> bool:
    return (kind.of_record or kind.word in ("temporary", "undone")) and kind.act is not TookIn


def _needs_piece(kind: KindOfEntry) -> bool:
    return any(field.kind == "piece" and field.needed for field in kind.fields)


async def _put_away(app: BoardApp, of: Of) -> bool:
    """Where the pieces lie now; where another sits in a piece's place, the old one is meant."""
    fabric = app.workbench.fabric(app.now())
    title = f"Where does it lie now? {of.named(app.board)}"
    choices = place_choices(app)
    place: str | None = OTHER
    if len(choices) > 1:
        place = await app.push_screen_wait(PickOne(title, choices))
    if place == OTHER:
        place = await type_place(app, title)
    if not place:
        return False
    olds = {piece: bool(fabric.pieces[piece].old) for piece in of.pieces}
    refused = record_here(app, *(Stored(piece, place, old) for piece, old in olds.items()))
    if refused:
        app.tell(refused[0].says, warning=True)
        return False
    app.tell(f"put away: {of.named(app.board)}, {place}")
    return True
