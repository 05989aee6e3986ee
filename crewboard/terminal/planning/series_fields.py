"""The fields of a task that are about pieces, jigs, and how soon it follows."""

from __future__ import annotations

from typing import Any

from crewboard.folder.edit.plan_edits import Add, PlanEdit
from crewboard.folder.edit.references import names_at
from crewboard.folder.read.files import id_from
from crewboard.order.board import Board
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.terminal.forms.fields import Field, YesNo
from crewboard.terminal.forms.paired import Paired
from crewboard.terminal.forms.picked import SomeOf
from crewboard.terminal.forms.reading import count, span
from crewboard.terminal.planning import choices


def series_fields(board: Board, stem: str, task: Task | None, table: dict[str, Any]) -> list[Field]:
    """All of them; `table` is the task's in its file."""
    return [
        *_piece_fields(board, stem, task, table),
        *_shop_fields(board, task),
        *_following_fields(board, task),
    ]


def _piece_fields(board: Board, stem: str, task: Task | None, table: dict[str, Any]) -> list[Field]:
    """Which pieces it is done to, each by itself or all at once."""

    def picked(key: str, label: str) -> SomeOf:
        shown = written_pieces(table, key, stem, board.plan)
        return SomeOf(key, label, shown, lambda: choices.kinds_of_pieces(board))

    return [
        picked("each", "for each of"),
        YesNo("spares", "for spares too", bool(task and task.spares)),
        picked("pieces", "done to"),
    ]


def _following_fields(board: Board, task: Task | None) -> list[Field]:
    """How many of a task for each are enough before it, and how soon it follows."""
    own = task.id if task else ""
    return [
        Paired(
            "enough",
            "enough of",
            task.enough if task else {},
            lambda: choices.series_choices(board, own),
            read=count,
            asks="so many are enough before this one; empty: all of them",
            hint="2",
        ),
        Paired(
            "within",
            "soon after",
            task.within if task else {},
            lambda: choices.task_choices(board, own),
            read=span,
            asks="begun at most so long after it was finished; empty: no matter",
            hint="8 hours",
        ),
    ]


def _shop_fields(board: Board, task: Task | None) -> list[Field]:
    """What it occupies, and whether it can be left half done."""
    return [
        SomeOf(
            "uses",
            "uses jigs",
            task.uses if task else (),
            lambda: choices.jig_choices(board),
            new="another jig",
        ),
        YesNo("in_one_go", "in one go", bool(task and task.in_one_go)),
    ]


def new_jigs(values: dict[Any, Any], plan: Plan, known_before: tuple[str, ...]) -> list[PlanEdit]:
    """A jig that was typed, not picked, is written into vehicle.toml first; `values` name it by
    its short name then."""
    known = set(plan.vehicle.jigs)
    edits: list[PlanEdit] = []
    named: list[str] = []
    for jig in values.get("uses") or ():
        if jig not in known and jig not in known_before:
            new = id_from(jig, known)
            known.add(new)
            edits.append(Add("jig", new, {"name": jig}))
            jig = new
        named.append(jig)
    if edits:
        values["uses"] = tuple(named)
    return edits


def written_pieces(table: dict[str, Any], key: str, stem: str, plan: Plan) -> tuple[str, ...]:
    """The names in a list of pieces: full ids of pieces and tables, or as they were written."""
    known = {*plan.several, *plan.pieces}
    return tuple(
        next((full for full in (f"{stem}/{name}", name) if full in known), name)
        for _, name in names_at(table.get(key))
    )
