"""`crewboard came`: when each task came into the plan, and how that is known."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from crewboard.command.exits import Exit
from crewboard.command.opened import DIR, open_bench, today
from crewboard.command.typed import Call, Command, Option
from crewboard.command.write import tell
from crewboard.order.said import component_name
from crewboard.workbench import Workbench

_NOT_KNOWN = "nothing says"


class _Told(NamedTuple):
    """When a task came; `writes`: that is known, and its file does not say it yet."""

    task: str
    title: str
    on: date | None
    how: str
    writes: bool


def _came(call: Call) -> Exit:
    bench = open_bench(call)
    known = list(_told(bench))
    new = [one for one in known if one.writes]
    if call.given("do-it"):
        from crewboard.folder.edit.plan_edits import Change

        if not new:
            call.out.talk("There is nothing to write: what is known stands in the files.")
            return Exit.FINE
        edits = [Change("task", one.task, {"added": one.on}) for one in new]
        outcome = bench.change(*edits, says="when tasks came", today=today(bench.plan).on)
        return tell(call, bench, outcome, map(_line, new))
    call.out.lines(map(_line, known))
    missing = sum(one.on is None for one in known)
    if new:
        call.out.talk(f"To write {len(new)} of these dates into the files: --do-it")
    if missing:
        call.out.talk(
            f"Of {missing} nothing says when they came: they count as the plan as first written."
        )
    return Exit.FINE


def _line(one: _Told) -> str:
    return f"{one.on.isoformat() if one.on else '-':<10}  {one.title}  ({one.how})"


def _told(bench: Workbench) -> Iterator[_Told]:
    """By what says it best: the task's file, the finding that it came from, git, the copies."""
    from crewboard.folder.read.first_seen import seen_by_git, seen_in_copies
    from crewboard.order.forecast.came import came_on, first_days_end

    plan, root, now = bench.plan, bench.folder.root, today(bench.plan).on
    seen = (seen_by_git(root), seen_in_copies(root))
    first = first_days_end(bench.logbook, now)
    unread = {path.rpartition("/")[2].removesuffix(".toml") for path in bench.folder.broken}
    for task in plan.all_written().values():
        stem = task.id.partition("/")[0]
        if stem in unread:
            continue
        title = f"{component_name(plan, stem)}: {task.title}"
        if task.added is not None:
            yield _Told(task.id, title, task.added, "its file says so", False)
            continue
        if (day := came_on(bench.logbook, task)) is not None:
            yield _Told(task.id, title, day, "the finding it came from", True)
            continue
        told = [one for one in seen if task.id in one.days]
        surely = [one for one in told if task.id not in one.from_the_start]
        if surely:
            yield _Told(task.id, title, surely[0].days[task.id], surely[0].told_by, True)
        elif told:
            # It was there when git or the copies began: it came some time before.
            day = min(one.days[task.id] for one in told)
            counts = first is not None and day <= first
            how = f"there already on {day}, by {told[0].told_by}"
            yield _Told(task.id, title, day if counts else None, how, counts)
        else:
            yield _Told(task.id, title, None, _NOT_KNOWN, False)


came = Command(
    _came,
    "Shows for each task when it came into the plan, and what says so: its own file, the finding "
    "it came from, the folder's history in git, or its daily copies. The forecast learns from that "
    "how much work turns up on the way. With --do-it what is known is written into the files.",
    (DIR,),
    (Option("do-it", "write the dates into the files"),),
    ("crewboard came .", "crewboard came . --do-it"),
)
