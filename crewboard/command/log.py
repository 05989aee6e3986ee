"""`crewboard log`: the logbook by day, person or task."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench, parse_day
from crewboard.command.typed import Call, Command, Option
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.telling.logbook import about, logbook_lines

if TYPE_CHECKING:
    from crewboard.workbench import Workbench

_OPTIONS = (
    Option("day", "only this day", "DATE"),
    Option("person", "only what a person did or wrote", "WHO"),
    Option("task", "only what is about a task", "TASK"),
    Option("component", "only what is about a component and its tasks", "COMPONENT"),
    Option("kind", 'only this kind of entry, such as "hours" or "finished"', "KIND"),
    AT,
    JSON,
)


def _log(call: Call) -> Exit:
    bench = open_bench(call)
    wanted = _Wanted(call, bench)
    if call.given("json"):
        from crewboard.command.json_logbook import log_form

        call.out.json(log_form(bench.logbook, wanted))
    else:
        call.out.lines(logbook_lines(bench.plan, bench.logbook, call.out.width, wanted))
    return Exit.FINE


class _Wanted:
    """Which entries the options ask for."""

    def __init__(self, call: Call, bench: Workbench) -> None:
        plan = bench.plan
        self.day = parse_day(call.option("day"), plan) if call.given("day") else None
        self.until: datetime | None = moment(call, plan) if call.given("at") else None
        self.kind = call.option("kind")
        self.ids: list[set[str]] = []
        if call.given("person"):
            self.ids.append({self._known(call.option("person"), bench)})
        if call.given("task"):
            self.ids.append({naming.task(plan, call.option("task"))})
        if call.given("component"):
            branch = plan.with_parts(naming.component(plan, call.option("component")))
            tasks = {task.id for task in plan.tasks.values() if task.component in branch}
            self.ids.append(branch | tasks)

    def _known(self, said: str, bench: Workbench) -> str:
        """A person of the crew, or one whom only the logbook knows."""
        written = any(said in about(e) for d in bench.logbook.days.values() for e in d.entries)
        return said if written else naming.person(bench.plan, said)

    def __call__(self, day: Day, entry: Entry) -> bool:
        return (
            (self.day is None or day.date == self.day)
            and (self.until is None or entry.at <= self.until)
            and (not self.kind or entry.kind == self.kind)
            and all(about(entry) & ids for ids in self.ids)
        )


log = Command(
    _log,
    "Prints the logbook: every line with its id, who wrote it, and whether it was corrected or "
    "taken back. Options narrow it down; several together all have to hold.",
    (DIR,),
    _OPTIONS,
    (
        "crewboard log sample_project --day 2026-05-02",
        "crewboard log sample_project --person ada --kind hours",
        "crewboard log sample_project --task lay-boards",
    ),
)
