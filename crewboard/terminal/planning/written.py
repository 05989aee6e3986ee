"""What stands in a plan's file, as it was written: forms show that, not what was made of it; and
what a form changes there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Key, PlanEdit, Remove, Thing, dated
from crewboard.folder.edit.references import names_at, pointed_at
from crewboard.folder.read.files import HAZARDS
from crewboard.folder.read.folder import Folder
from crewboard.folder.toml.decode import parse_toml
from crewboard.folder.toml.meant import exists, value_at
from crewboard.folder.toml.text import BrokenText
from crewboard.order.admit.refusal import Refusal
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp, Then
from crewboard.terminal.dialogs.dialog import Confirm

NAME = "~name"  # the short name: no key of the file, but the name of the table


def written_order(table: dict[str, Any], key: str, some_id: str, plan: Plan) -> tuple[str, ...]:
    """The ids that a list of names points at; a name that points at nothing as it was written."""
    stem = some_id.partition("/")[0]
    known = plan.order_ids()
    return tuple(pointed_at(name, stem, known) or name for _, name in names_at(table.get(key)))


def names_taken(stem: str, plan: Plan) -> set[str]:
    """The short names of parts and tasks in a main component's file."""
    return {known.partition("/")[2] for known in plan.order_ids() if known.startswith(f"{stem}/")}


def own_hazards(folder: Folder) -> list[str]:
    """The ids of the sheets in the crew's own file."""
    values = parse_toml(folder.data(HAZARDS))
    return [] if isinstance(values, BrokenText) else list(values)


def thing_of(plan: Plan, some_id: str) -> Thing:
    """What kind of thing an id is of."""
    component = plan.components.get(some_id)
    if component is None:
        return "task"
    return "part" if component.part_of else "component"


def change_here(app: BoardApp, edits: Sequence[PlanEdit], what: str) -> Sequence[Refusal]:
    """Make the edits; what stands against them goes back to the form, where nothing is lost.

    `what` names the change when it is undone.
    """
    outcome = app.workbench.change(*dated(edits, app.board.at.date()), says=what)
    if outcome.kept:
        app.look_now()
    return outcome.refused


async def take_out_here(
    app: BoardApp,
    edit: Remove,
    lines: Sequence[Line | str],
    what: str,
    *,
    then: Then | None = None,
) -> None:
    """Ask first, unless it will be refused: then the refusal says why."""
    sure = Confirm("Remove?", lines, yes="remove")
    if not app.workbench.trial(edit) and not await app.push_screen_wait(sure):
        return
    app.do(lambda: app.workbench.change(edit, says=what), then)


def changed_meanwhile(
    folder: Folder, thing: Thing, some_id: str, shown: dict[str, Any], keys: Iterable[Key]
) -> list[Refusal]:
    """Of the keys that a form would write, those that the file no longer says as it was `shown`.

    Somebody else's word is not written over: it is told, and the form can be opened again.
    """
    now = written_table(folder, thing, some_id)
    paths = [(key,) if isinstance(key, str) else key for key in keys]
    different = [path for path in paths if _value(now, path) != _value(shown, path)]
    return [
        Refusal(
            "changed",
            f'"{" ".join(path)}" was changed in the file meanwhile: {_value(now, path)}',
            "cancel the form and open it again",
        )
        for path in different
    ]


def _value(table: dict[str, Any], path: tuple[str, ...]) -> Any:
    return value_at(table, path) if exists(table, path) else None


def ask_about_words(app: BoardApp, task_ids: Iterable[str]) -> None:
    """What the titles and methods point to and the tasks do not name: said as they are planned."""
    from crewboard.order.safety.unnamed import ANSWER, question_in_words, unanswered

    board, ids = app.board, set(task_ids)
    firsts = dict[str, Task]()  # of a task for each of several pieces one is enough
    for task in board.plan.tasks.values():
        if not ids.isdisjoint((task.id, task.series)):
            firsts.setdefault(task.series or task.id, task)
    for question in unanswered(board, list(firsts.values())):
        words = question_in_words(board.plan, question)
        app.tell(f"{words}: {ANSWER}", warning=True)
