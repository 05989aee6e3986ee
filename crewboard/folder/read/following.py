"""A task that has to be begun soon after another comes after it: else its time says nothing."""

from collections.abc import Collection, Iterable, Mapping

from crewboard.folder.read.component_file import UNREADABLE
from crewboard.folder.read.fault import Misfit, Remark
from crewboard.folder.read.files import file_of
from crewboard.order.sequence.links import Link, closing
from crewboard.plan.series import Series
from crewboard.plan.task import Task

NOT_BEFORE = "not-before"


def only_after(
    written: Mapping[str, Task],
    series: Mapping[str, Series],
    links: Iterable[Link],
    remarks: list[Remark],
) -> dict[str, Task]:
    """The tasks with only those in their `within` that come before them; the others are told."""
    before: dict[str, list[str]] = {}
    for link in links:
        before.setdefault(link.after, []).append(link.before)
    kept = dict(written)
    for task in written.values():
        wrong = [
            named
            for named in task.within
            if named not in written or not _comes_before(named, task, series, before)
        ]
        remarks += (
            _remark(task, named, written)
            for named in wrong
            if f"{named}/{UNREADABLE}" not in written
        )
        if wrong:
            within = {name: span for name, span in task.within.items() if name not in wrong}
            kept[task.id] = task._replace(within=within)
    return kept


def _comes_before(
    named: str, task: Task, series: Mapping[str, Series], before: Mapping[str, list[str]]
) -> bool:
    """Whether the task waits for that other one, or the series for that other series."""
    if named in task.after or named in task.during:
        return True
    ends = {named, closing(named), *(series[named].members.values() if named in series else ())}
    own = series[task.id].members.values() if task.id in series else (task.id,)
    return not ends.isdisjoint(_reached(own, before))


def _reached(nodes: Iterable[str], before: Mapping[str, list[str]]) -> set[str]:
    """All that comes before any of these."""
    seen: set[str] = set()
    ahead = list(nodes)
    while ahead:
        for node in before.get(ahead.pop(), ()):
            if node not in seen:
                seen.add(node)
                ahead.append(node)
    return seen


def _remark(task: Task, named: str, tasks: Collection[str]) -> Remark:
    name = named.removeprefix(f"{task.id.partition('/')[0]}/")
    if named in tasks:
        sentence = f'"{name}" does not come before this task, which is to follow it so soon'
        hint = f'add "{name}" to its after, or remove it here'
    else:
        sentence = f'"{name}" is a component, and a task follows another task'
        hint = "name the task of it that this one has to follow"
    path = ("tasks", task.name, "within", name)
    return Remark(file_of(task.id), *Misfit(path, NOT_BEFORE, sentence, hint))
