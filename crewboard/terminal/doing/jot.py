"""Jot something down for the record: found, done to a piece, put away, measured, a picture."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from crewboard.logbook.acts import (
    Pictured,
    Stored,
)
from crewboard.logbook.fields import decides
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.logbook.on_several import on_pieces
from crewboard.logbook.record.seen import PICTURES, RECORDINGS, TookIn
from crewboard.order.board import Board
from crewboard.order.said import component_name, pieces_in_words
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.numbered import PickNumbered
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickOrName, PickSeveral, with_key
from crewboard.terminal.doing.entry_form import record_here, write_entry
from crewboard.terminal.doing.old_piece import NEW_PLACE, OTHER, place_choices, type_place
from crewboard.terminal.doing.sort_files import caption
from crewboard.terminal.doing.to_cite import picture_choices
from crewboard.terminal.letters import AT_ONCE
from crewboard.terminal.planning.choices import piece_choices

_NO_PIECES = "no pieces yet"


class Of(NamedTuple):
    """What it is of: pieces, else a component, else the vehicle as a whole; and a task."""

    pieces: tuple[str, ...] = ()
    component: str = ""
    task: str = ""
    ask: bool = False
    """Of which of the pieces is still to be asked: they stand in one row."""

    def named(self, board: Board) -> str:
        if self.pieces:
            return pieces_in_words(board.plan, self.pieces)
        return component_name(board.plan, self.component) if self.component else "the vehicle"


def of_tasks(board: Board, tasks: Sequence[str], *, marked: bool = False) -> Of:
    """What tasks are done to: their pieces, else their component. Of several that are not `marked`
    it is asked which are meant."""
    plan = board.plan
    known = [plan.tasks[task] for task in tasks if task in plan.tasks]
    pieces = tuple(dict.fromkeys(piece for task in known for piece in task.pieces))
    components = tuple(dict.fromkeys(task.component for task in known))
    task = known[0].id if len(known) == 1 else ""
    component = "" if pieces or len(components) != 1 else components[0]
    return Of(pieces, component, task, ask=len(pieces) > 1 and not marked)


def of_holds(board: Board, holds: Sequence[str]) -> Of:
    """What the holds of one row are on: their pieces, else those of their tasks, else the
    component."""
    standing = [board.holds[hold] for hold in holds]
    pieces = tuple(dict.fromkeys(piece for hold in standing for piece in hold.pieces))
    if not pieces:
        tasks = [hold.task for hold in standing if hold.task in board.plan.tasks]
        component = standing[0].component if len(standing) == 1 else ""
        return of_tasks(board, tasks) if tasks else Of(component=component)
    return Of(pieces, ask=len(pieces) > 1)


async def jot(app: BoardApp, of: Of, word: str | None = "") -> bool:
    """Ask what is to be jotted down of it, unless the kind's word is said, the last kind under the
    cursor, and write it; whether it was kept."""
    if of.ask:
        which = await _which_of(app, of)
        if which is None:
            return False
        of = which
    kinds = sorted(filter(jotted_by_hand, KINDS_OF_ENTRY.values()), key=lambda kind: kind.jotted)
    # All of them, so that a digit means the same in a folder without pieces.
    offered = {kind.word: kind for kind in kinds}
    lacks = {k.word for k in kinds if _needs_piece(k) and not app.board.plan.pieces}
    choices = [
        with_key(Choice(kind.word, kind.title.lower(), find=kind.word), AT_ONCE)
        for kind in offered.values()
    ]
    choices = [c._replace(note=_NO_PIECES, tone="faint") if c.id in lacks else c for c in choices]
    last = app.last_jotted if app.last_jotted in offered else ""
    title = f"For the record: {of.named(app.board)}"
    if not word:
        word = await app.push_screen_wait(PickNumbered(title, choices, at=last))
    if word is None:
        return False
    if word in lacks:
        app.tell(f"{_NO_PIECES}: on the vehicle (F3) p adds some", warning=True)
        return False
    app.last_jotted = word
    kind = offered[word]
    if _needs_piece(kind) and not of.pieces:
        of = await _of_piece(app, of) or of
        if not of.pieces:
            return False
    if kind.act is Stored:
        return await _put_away(app, of)
    if kind.act is Pictured:
        return await _pictured(app, of)
    return await jot_kind(app, kind, of)


async def _which_of(app: BoardApp, of: Of) -> Of | None:
    """Which of the pieces in the row: all are marked, so Enter takes them."""
    plan = app.board.plan
    choices = [Choice(piece, plan.pieces[piece].name) for piece in of.pieces]
    asked = PickSeveral(f"Of which? {of.named(app.board)}", choices, marked=of.pieces)
    picked = await app.push_screen_wait(asked)
    return of._replace(pieces=tuple(picked), ask=False) if picked else None


async def _of_piece(app: BoardApp, of: Of) -> Of | None:
    """Of what has to be said of a piece, ask which: those of the component first."""
    every = piece_choices(app.board)
    own = [c for c in every if app.board.plan.pieces[c.id].component == of.component]
    choices = [*own, *(choice for choice in every if choice not in own)]
    piece = await app.push_screen_wait(PickOne("Which piece?", choices))
    return None if piece is None else of._replace(pieces=(piece,))


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
    title = f"{kind.title}: {of.named(app.board)}"
    hangs = decides(kind.fields)
    if hangs is not None and hangs.name not in preset:
        asked = [Choice(word, word) for word in hangs.words]
        word = await app.push_screen_wait(PickNumbered(f"{title}: {hangs.asked}", asked))
        if word is None:
            return False
        preset[hangs.name] = word
        title = f"{title}, {word}"
    kept = await write_entry(
        app,
        kind,
        preset,
        title,
        spread=lambda act: on_pieces(act, of.pieces) if "piece" in fields and of.pieces else [act],
    )
    if kept:
        app.tell("saved in the logbook")
    return kept


def jotted_by_hand(kind: KindOfEntry) -> bool:
    """Whether a person writes it: not what the program itself keeps, a reckoning or an intake."""
    if any(field.kept and field.needed for field in kind.fields):
        return False
    return (kind.of_record or kind.word in ("temporary", "undone")) and kind.act is not TookIn


def _needs_piece(kind: KindOfEntry) -> bool:
    return any(field.kind == "piece" and field.needed for field in kind.fields)


async def _pictured(app: BoardApp, of: Of) -> bool:
    """Pictures of it, those that wait first: which, for what they are, and words for them."""
    choices = picture_choices(app, PICTURES, RECORDINGS)
    title = f"Which pictures? {of.named(app.board)}"
    none = "no picture is in the folder yet: o takes in those of a phone or camera"
    files = await app.push_screen_wait(PickSeveral(title, choices, empty=none))
    if not files:
        return False
    component = "" if of.pieces else of.component
    said = Pictured(files[0], "", of.pieces, component, of.task)
    return await caption(app, files, said)


async def _put_away(app: BoardApp, of: Of) -> bool:
    """Where the pieces lie now; where another sits in a piece's place, the old one is meant."""
    fabric = app.workbench.fabric(app.now())
    title = f"Where does it lie now? {of.named(app.board)}"
    choices = place_choices(app)
    place: str | None = OTHER
    if len(choices) > 1:
        place = await app.push_screen_wait(PickOrName(title, choices, new=NEW_PLACE))
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
