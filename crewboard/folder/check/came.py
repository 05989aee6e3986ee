"""Tasks that say they came into the plan on a day that is still to come: a date mistyped."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import file_of
from crewboard.folder.read.folder import Folder
from crewboard.order.said import day_in_words


def came_in_the_future(folder: Folder, today: date) -> Iterator[Remark]:
    for task in folder.plan.all_written().values():
        if task.added is not None and task.added > today:
            sentence = (
                f'"{task.title}" came into the plan on {day_in_words(task.added)}, which is still '
                f"to come: it is {day_in_words(today)}"
            )
            path = ("tasks", task.name, "added")
            yield Remark(file_of(task.id), path, "out-of-time", sentence, "mend the date")
