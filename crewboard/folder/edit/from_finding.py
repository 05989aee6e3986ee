"""What comes of a finding in the plan: a task, or a piece that is kept for ever; each names it."""

from __future__ import annotations

from typing import Any

from crewboard.folder.edit.plan_edits import Add, Change, Key, PlanEdit
from crewboard.folder.read.files import id_from
from crewboard.logbook.acts import Found
from crewboard.logbook.entry import Entry
from crewboard.plan.plan import Plan


def home_of(plan: Plan, finding: Found) -> str:
    """The component or part in which its work stands; empty where it is on none."""
    piece = plan.pieces.get(finding.piece)
    home = piece.component if piece else finding.component
    return home if home in plan.components else ""


def task_from(plan: Plan, entry: Entry, title: str, home: str) -> Add:
    """A task of that title in a component or part, done to the finding's piece where it has one."""
    act = entry.act
    assert isinstance(act, Found)
    stem, _, part = home.partition("/")
    taken = {known.rpartition("/")[2] for known in plan.order_ids() if known.startswith(f"{stem}/")}
    values: dict[Key, Any] = {"title": title, "part": part or None, "finding": entry.id}
    piece = plan.pieces.get(act.piece)
    if piece is not None:
        values["pieces"] = (piece.id,)
    return Add("task", f"{stem}/{id_from(title, taken)}", values)


def kept_from(plan: Plan, entry: Entry) -> list[PlanEdit]:
    """That its piece is kept for ever as it is, because of what was found; none on no piece."""
    act = entry.act
    assert isinstance(act, Found)
    if act.piece not in plan.pieces:
        return []
    why = plan.pieces[act.piece].why or act.thought or act.seen
    return [Change("piece", act.piece, {"keep": True, "why": why, "finding": entry.id})]
