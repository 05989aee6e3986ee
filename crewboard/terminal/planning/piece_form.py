"""The form of pieces: of a table of several, of a single piece, or of one of several alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, get_args

from crewboard.folder.edit.as_written import said_alone, written_table
from crewboard.folder.edit.plan_edits import Change, Key, PlanEdit, Rename
from crewboard.folder.edit.references import names_at
from crewboard.order.admit.refusal import Refusal
from crewboard.order.said import table_name
from crewboard.plan.extent import extent
from crewboard.plan.piece import AsFound, Piece
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.longer import Longer
from crewboard.terminal.forms.picked import OneOf
from crewboard.terminal.forms.reading import count, needed, words
from crewboard.terminal.planning import choices
from crewboard.terminal.planning.written import (
    NAME,
    change_here,
    changed_meanwhile,
)

_TEXTS = (
    ("kind", "kind", "rib, sash, wire"),
    ("material", "material", "ash"),
    ("size", "size", "38 x 32 x 2400 mm"),
    ("place", "place on it", "fourth from the front"),
)
_FOUND = tuple(Choice(word, word) for word in get_args(AsFound) if word != "unknown")
_LIVE = (
    Choice("live", "live", "it carries something"),
    Choice("dead", "dead", "it carries nothing any more"),
)
_OF_TABLE = (
    *("name", "kind", "material", "size", "place", "as_found", "period", "condition"),
    *("intended", "why", "runs_from", "runs_to", "serves", "extent", "finding"),
)


def _extent(typed: str) -> str | None:
    """A length, area or volume as it is typed; None for none."""
    if typed.strip():
        extent(typed)
    return typed.strip() or None


async def edit_piece(app: BoardApp, some_id: str) -> str:
    """Edit a piece or a table of several; its id afterwards, empty where it was left."""
    form = PieceForm(app, some_id)
    if not await app.push_screen_wait(form.form()):
        return ""
    app.tell("saved in the plan")
    return form.id


class PieceForm:
    """Makes the form and keeps what it says; `id` is the id once kept.

    Of one of several the form shows what is so of it, and only what is so of it alone is written
    into its own table.
    """

    def __init__(self, app: BoardApp, some_id: str) -> None:
        self.app, self.id = app, some_id
        plan = app.board.plan
        several = plan.several.get(some_id)
        self.table = written_table(app.workbench.folder, "piece", some_id)
        one = plan.pieces[several[0] if several else some_id]
        self.own = not several and bool(one.several)
        # What a table says of all, not what its first piece says of itself.
        self.shown = _as_the_table_says(one, table_name(some_id), self.table) if several else one

    def form(self) -> Form:
        title = f"Edit: {self.shown.name}"
        intro = "What is said here is said of this one alone." if self.own else ""
        rows: list[Field | str] = [Typed("name", "name", self.shown.name, needed)]
        if not self.own:
            rows += self._table_fields()
        rows += self._facts()
        rows += ["Of a wire or pipe", *self._wire()]
        if not self.own:
            rows.append(Typed(NAME, "short name", self.id.partition("/")[2]))
        return Form(title, rows, self.keep, intro=intro)

    def _table_fields(self) -> list[Field]:
        stem = self.id.partition("/")[0]
        number, spares = self.table.get("count"), self.table.get("spares")
        part = self.shown.component.partition("/")[2]
        board = self.app.board
        return [
            Typed("count", "how many", str(number or ""), count, "9; empty: there is only one"),
            Typed("spares", "spares", str(spares or ""), count, "1: made beside those, in case"),
            OneOf("part", "part of", part, lambda: choices.part_choices(board, stem)),
        ]

    def _facts(self) -> list[Field | str]:
        piece = self.shown
        found = "" if piece.as_found == "unknown" else piece.as_found
        return [
            *(Typed(key, label, getattr(piece, key), hint=hint) for key, label, hint in _TEXTS),
            "As it was found",
            OneOf("as_found", "as found", found, lambda: _FOUND),
            Typed("period", "of which time", piece.period, hint="about 1930"),
            Longer("condition", "condition", piece.condition),
            "What is to become of it",
            Typed("intended", "intended", piece.intended, hint="splice, copy, leave"),
            Longer("why", "why", piece.why),
            YesNo("keep", "keep for ever", piece.keep),
            Typed("extent", "counts as", piece.extent, _extent, "2.4 m, 0.8 m2; empty: one piece"),
            Typed("pictures", "pictures", ", ".join(piece.pictures), words, "photos/rib-3.jpg"),
        ]

    def _wire(self) -> list[Field]:
        piece = self.shown
        live = "" if piece.live is None else "live" if piece.live else "dead"
        return [
            Typed("runs_from", "runs from", piece.runs_from, hint="switchboard"),
            Typed("runs_to", "runs to", piece.runs_to, hint="tail lamp"),
            Typed("serves", "what for", piece.serves, hint="tail lamp, left"),
            OneOf("live", "live or dead", live, lambda: _LIVE),
        ]

    # --- keeping -------------------------------------------------------------------------------

    def keep(self, answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        values = dict(answers)
        name = values.pop(NAME, None)
        if values.get("live"):
            values["live"] = values["live"] == "live"
        folder = self.app.workbench.folder
        values = said_alone(folder, self.app.board.plan, self.id, values)
        if new := changed_meanwhile(folder, "piece", self.id, self.table, values):
            return new
        edits: list[PlanEdit] = [Change("piece", self.id, values)] if values else []
        if name and name != self.id.partition("/")[2]:
            edits.append(Rename("piece", self.id, name))
        refused = change_here(self.app, edits, f'the plan of "{self.shown.name}"')
        if not refused and name:
            self.id = f"{self.id.partition('/')[0]}/{name}"
        return refused


def _as_the_table_says(first: Piece, name: str, table: Mapping[str, Any]) -> Piece:
    """A value of the wrong type, which the folder's mistakes name, counts as not said."""
    bare = Piece(first.id, name, first.component)
    texts = {key: table[key] for key in _OF_TABLE if isinstance(table.get(key), str)}
    flags = {key: table[key] for key in ("keep", "live") if isinstance(table.get(key), bool)}
    pictures = tuple(picture for _, picture in names_at(table.get("pictures")))
    return bare._replace(**{**texts, **flags, "pictures": pictures})
