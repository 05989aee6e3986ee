"""`crewboard review`: the order of work looked over, each question with file and line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Option

if TYPE_CHECKING:
    from crewboard.order.review import Question
    from crewboard.workbench import Workbench


def _review(call: Call) -> Exit:
    from crewboard.order.review import review as questions_of

    bench = open_bench(call)
    found = questions_of(bench.board(moment(call, bench.plan)))
    placed = [(each, *_place(bench, each)) for each in found]
    if call.given("json"):
        from crewboard.command.json_order import review_form

        call.out.json(review_form(placed))
        return Exit.FINE
    for each, file, line in placed:
        call.out.line(f"{file}:{line}: {each.says}; {each.do}")
        if call.given("sources"):
            call.out.line(f"  {each.rule}: {each.source.source} ({each.source.mark})")
    from crewboard.order.said import how_many

    call.out.talk(how_many(len(placed), "question") if placed else "no questions")
    return Exit.FINE


def _place(bench: Workbench, each: Question) -> tuple[str, int]:
    """The file and line that a question is about."""
    from crewboard.folder.check.question_place import file_and_key
    from crewboard.folder.read.place import Placing

    file, key = file_and_key(each, bench.plan)
    return file, Placing(bench.folder.data).place(file, key).line


review = Command(
    _review,
    "Looks the order of work over as a good schedule reviewer would: tasks that hang on nothing or "
    "lead nowhere, links that follow anyway, implausible holds, missing estimates, skills nobody "
    "has, papers that lapse too early, supplies not ordered in time, dates that cannot be kept. "
    "Every line is a question: it may be right as it is.",
    (DIR,),
    (Option("sources", "with the rule behind each question, and where it comes from"), AT, JSON),
    ("crewboard review sample_project", "crewboard review . --sources"),
)
