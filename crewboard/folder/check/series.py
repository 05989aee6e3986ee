"""What is wrong with the keys that only tasks for each of several pieces make sense of."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.references import pointed_at
from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import COMPONENTS, file_of
from crewboard.folder.read.folder import Folder
from crewboard.order.said import how_many
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task

_LIST_IT = "name it in after too, or remove it here"


def keys_without_sense(folder: Folder) -> Iterator[Remark]:
    """`enough` of a task that is done once, of more than there are, or of what does not come
    before; `spares` of a task that is done once."""
    plan = folder.plan
    for task in plan.all_written().values():
        if task.spares and task.id not in plan.series:
            sentence = f'"{task.title}" is for spares too, and is done once'
            hint = "name its pieces in each, or remove spares"
            yield _remark(task, ("spares",), sentence, hint)
        if task.enough:
            yield from _enough(plan, task, written_table(folder, "task", task.id))


def _enough(plan: Plan, task: Task, table: dict[str, Any]) -> Iterator[Remark]:
    for name, number in task.enough.items():
        path = ("enough", _as_written(plan, task, table, name))
        series = plan.series.get(name)
        if series is None:
            title = plan.tasks[name].title if name in plan.tasks else name
            sentence = f'"enough" names "{title}", which is not for each of several'
            yield _remark(task, path, sentence, "remove it here, or give that task its each")
        elif name not in (*task.after, *task.during):
            sentence = f'"enough" names "{series.task.title}", which does not come before'
            yield _remark(task, path, sentence, _LIST_IT)
        elif number > series.places:
            of_them = how_many(series.places, "piece")
            sentence = f'"enough" is {number}, and "{series.task.title}" is for {of_them}'
            yield _remark(task, path, sentence, f"write a number up to {series.places}")


def _as_written(plan: Plan, task: Task, table: dict[str, Any], full: str) -> str:
    """The name of a task as it stands in `enough`."""
    known, stem = plan.order_ids(), task.id.partition("/")[0]
    names = table.get("enough")
    return next((n for n in names or () if pointed_at(n, stem, known) == full), full)


def _remark(task: Task, path: tuple[str, ...], sentence: str, hint: str) -> Remark:
    at = ("tasks", task.name, *path)
    return Remark(file_of(task.id), at, "series", sentence, hint, rests_on=(COMPONENTS,))
