"""Who and what the logbook names: by that logging goes on where the file cannot be read in which
they stand. Of none of them more is known than the short name: no skill, no age, no hold.
"""

from collections.abc import Iterator, Mapping

from crewboard.folder.read.component_file import ComponentFile, unreadable
from crewboard.folder.read.file_read import FileRead
from crewboard.logbook.fields import named_by
from crewboard.logbook.logbook import Logbook
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer


def crew_of(file: FileRead | None, logbook: Logbook) -> Mapping[str, Volunteer]:
    """The crew. Of a crew.toml that cannot be read any more nobody's certificates are held; of one
    that never could be those are known whom the logbook names."""
    if file is None or file.shown is None:
        return people_named(logbook)
    crew: Mapping[str, Volunteer] = file.shown
    if file.value is not None:
        return crew
    return {who: volunteer._replace(certificates=()) for who, volunteer in crew.items()}


def supplies_of(file: FileRead | None, logbook: Logbook) -> Mapping[str, Supply]:
    """The supplies; of a supplies.toml that never could be read those that the logbook names."""
    if file is None or file.shown is None:
        return supplies_named(logbook)
    supplies: Mapping[str, Supply] = file.shown
    return supplies


def component_of(stem: str, logbook: Logbook) -> ComponentFile:
    """What stands in for a component's file that never could be read."""
    return unreadable(stem, tasks_named(logbook, stem))


def people_named(logbook: Logbook) -> dict[str, Volunteer]:
    """Everybody who wrote, came, worked or is named otherwise, by their short names."""
    return {who: Volunteer(who, who) for who in _named(logbook, "person")}


def supplies_named(logbook: Logbook) -> dict[str, Supply]:
    """What was ordered, arrived or used."""
    return {name: Supply(name, name) for name in _named(logbook, "supply")}


def tasks_named(logbook: Logbook, stem: str) -> dict[str, Task]:
    """The tasks of one component's file."""
    start = f"{stem}/"
    return {
        task_id: Task(id=task_id, title=task_id.removeprefix(start), component=stem)
        for task_id in _named(logbook, "task")
        if task_id.startswith(start)
    }


def _named(logbook: Logbook, thing: str) -> list[str]:
    return sorted(set(_every(logbook, thing)))


def _every(logbook: Logbook, thing: str) -> Iterator[str]:
    for day in logbook.days.values():
        for entry in day.counting:
            if thing == "person" and entry.by:
                yield entry.by
            yield from (named.id for named in named_by(entry.act) if named.thing == thing)
