"""The commands that look the folder over: `log`, `check`, `review`.

What one of them alone needs is imported when it is called.
"""

from __future__ import annotations

import os
from datetime import datetime
from typing import TYPE_CHECKING

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench, parse_day
from crewboard.command.typed import Call, Command, Option
from crewboard.folder.read.folder import Folder
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.telling.logbook import about
from crewboard.wall_clock import real_now, shop_now

if TYPE_CHECKING:
    from crewboard.folder.check.check import Checked
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
        from crewboard.command.json_folder import log_form

        call.out.json(log_form(bench.logbook, wanted))
    else:
        from crewboard.paper.plain import plain_lines
        from crewboard.telling.logbook import logbook_lines

        lines = logbook_lines(bench.plan, bench.logbook, wanted)
        call.out.lines(plain_lines(lines, call.out.width))
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

    def _known(self, typed: str, bench: Workbench) -> str:
        """A person of the crew, or one whom only the logbook knows."""
        written = any(typed in about(e) for d in bench.logbook.days.values() for e in d.entries)
        return typed if written else naming.person(bench.plan, typed)

    def __call__(self, day: Day, entry: Entry) -> bool:
        return (
            (self.day is None or day.date == self.day)
            and (self.until is None or entry.at <= self.until)
            and (not self.kind or entry.kind == self.kind)
            and all(about(entry) & ids for ids in self.ids)
        )


log = Command(
    _log,
    "Prints the logbook: every entry with its id, who wrote it, and whether it was corrected or "
    "taken back. Options narrow it down; several together all have to hold.",
    (DIR,),
    _OPTIONS,
    (
        "crewboard log sample_project --day 2026-05-02",
        "crewboard log sample_project --person mirela --kind hours",
        "crewboard log sample_project --task lay-boards",
    ),
)


def _check(call: Call) -> Exit:
    from crewboard.folder.check.check import check as look_over

    root = call.word("DIR")
    if not os.path.isdir(root):
        kind = "a file, not a folder" if os.path.lexists(root) else "no folder"
        raise Refused(f'"{root}" is {kind}')
    folder = Folder(root)
    at = moment(call, folder.plan)
    now = max(at, shop_now(folder.plan), real_now(folder.plan))
    checked = look_over(folder, at, now, every=call.given("all"))
    if call.given("json"):
        from crewboard.command.json_folder import check_form

        call.out.json(check_form(checked.files, checked.mistakes, checked.questions))
    else:
        _print(call, checked)
    wrong = checked.mistakes or (call.given("strict") and checked.questions)
    return Exit.REFUSED if wrong else Exit.FINE


def _print(call: Call, checked: Checked) -> None:
    from crewboard.order.said import how_many

    call.out.lines(str(fault) for fault in checked.mistakes)
    call.out.lines(f"{fault} (a question)" for fault in checked.questions)
    mistakes = how_many(len(checked.mistakes), "mistake") if checked.mistakes else "no mistakes"
    questions = f", {how_many(len(checked.questions), 'question')}" if checked.questions else ""
    call.out.talk(f"{mistakes}{questions} in {how_many(checked.files, 'file')}")


check = Command(
    _check,
    "Names every mistake in the folder with file, line and column, and how to mend it; a file that "
    "cannot be read comes first, with the number of questions that follow from it. Questions "
    "are what may be right as it is: hours longer than somebody was there, work finished before "
    "what comes before it, certificates about to lapse. Ends with 1 where there is a mistake.",
    (DIR,),
    (
        Option("strict", "end with 1 for questions too"),
        Option("all", "also what only follows from a file that cannot be read"),
        AT,
        JSON,
    ),
    ("crewboard check sample_project", "crewboard check . --strict --json"),
)


def _review(call: Call) -> Exit:
    from crewboard.folder.check.check import questions_placed
    from crewboard.order.review import review as questions_of

    bench = open_bench(call)
    questions = questions_of(bench.board(moment(call, bench.plan)))
    placed = questions_placed(bench.folder, questions)
    if call.given("json"):
        from crewboard.command.json_board import review_form

        call.out.json(review_form(placed))
        return Exit.FINE
    for question, file, line in placed:
        call.out.line(f"{file}:{line}: {question.says}; {question.do}")
        if call.given("sources"):
            call.out.line(f"  {question.rule}: {question.source.source} ({question.source.mark})")
    from crewboard.order.said import how_many

    call.out.talk(how_many(len(placed), "question") if placed else "no questions")
    return Exit.FINE


review = Command(
    _review,
    "Looks the order of work over as a good schedule reviewer would: tasks that hang on nothing or "
    "lead nowhere, links that follow anyway, implausible holds, missing estimates, skills nobody "
    "has, certificates that lapse too early, supplies not ordered in time, dates that cannot be "
    "kept. Every line is a question: it may be right as it is.",
    (DIR,),
    (Option("sources", "with the rule behind each question, and where it comes from"), AT, JSON),
    ("crewboard review sample_project", "crewboard review . --sources"),
)
