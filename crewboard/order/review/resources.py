"""Questions about people, their papers and supplies."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from crewboard.order.ahead.calendar_path import CalendarPath
from crewboard.order.ahead.waits import free_from
from crewboard.order.board import Board
from crewboard.order.may.needs import CertificateOf, Needs, hazards_named, needs_of
from crewboard.order.review.question import Question
from crewboard.order.said import day_in_words, listed
from crewboard.order.supplies import expected_by, supply_in_words
from crewboard.plan.task import Task


def about_people(board: Board, path: CalendarPath) -> Iterator[Question]:
    today = board.at.date()
    crew = [v for v in board.plan.crew.values() if v.with_us_on(today)]
    skills = {skill for volunteer in crew for skill in volunteer.skills}
    questioned: set[str] = set()
    for name in path.work:
        task = board.plan.tasks[name]
        if board[name].state == "set aside":
            continue
        needs = needs_of(task, hazards_named(board, task))
        for skill in needs.skills:
            if skill not in skills:
                yield Question(
                    "no such skill",
                    "task",
                    name,
                    f'"{task.title}" needs the skill {skill}, and nobody has it',
                    f"find somebody who has it; the crew has {listed(sorted(skills)) or 'none'}",
                    "skills",
                )
        if needs.least > len(crew):
            yield Question(
                "too few people",
                "task",
                name,
                f'"{task.title}" needs {needs.least} people, and the crew has {len(crew)}',
                "ask for help on that day, or correct the number",
                "people",
            )
        yield from _certificates(board, path, task, needs, questioned)


def _certificates(
    board: Board, path: CalendarPath, task: Task, needs: Needs, questioned: set[str]
) -> Iterator[Question]:
    """Papers that nobody will hold on the first day on which the work can begin."""
    day = max(board.at.date(), path.time.moment(path.start[task.id]).date())
    for asked in (*needs.each, *needs.one):
        kind = asked.need.kind
        if kind in questioned or _anyone(board, asked, day):
            continue
        questioned.add(kind)
        if _anyone(board, asked, board.at.date()):
            yield Question(
                "certificate lapses",
                "task",
                task.id,
                f'on {day_in_words(day)}, when "{task.title}" can begin, nobody holds the '
                f'certificate "{kind}" any more',
                "have it renewed in time",
            )
        else:
            yield Question(
                "no certificate",
                "task",
                task.id,
                f'"{task.title}" needs the certificate "{kind}" ({asked.hazard.name}), and '
                "nobody holds it",
                "have somebody get it, or leave this work to those who hold it",
            )


def _anyone(board: Board, asked: CertificateOf, day: date) -> bool:
    return any(asked.held_by(v, day) for v in board.plan.crew.values() if v.with_us_on(day))


def about_supplies(board: Board, path: CalendarPath) -> Iterator[Question]:
    needed: dict[str, tuple[date, Task]] = {}
    for name in path.work:
        standing = board[name]
        if standing.state == "set aside":
            continue
        ready = path.ready_at(name, path.done, path.clear)
        own = free_from(board, path.time, standing, supplies=False)
        day = path.time.moment(path.time.open_from(max(ready, own))).date()
        for supply_id in standing.short_of:
            if supply_id not in needed or day < needed[supply_id][0]:
                needed[supply_id] = (day, standing.task)
    for supply_id, (day, task) in needed.items():
        yield from _supply(board, supply_id, day, task)
    named = {supply_id for task in board.plan.tasks.values() for supply_id in task.supplies}
    for supply in board.plan.supplies.values():
        if supply.id not in named:
            yield Question(
                "needed nowhere",
                "supply",
                supply.id,
                f"no task needs {supply.name}",
                "name it in the supplies of the task that needs it, or remove it",
            )


def _supply(board: Board, supply_id: str, day: date, task: Task) -> Iterator[Question]:
    """`day` is when the task could begin if the supply were there."""
    account = board.stock[supply_id]
    supply, today = account.supply, board.at.date()
    stands = f"{supply.name}: {supply_in_words(account)}"
    for_work = f'"{task.title}" could begin on {day_in_words(day)}'
    if account.overdue:
        yield Question(
            "delivery overdue",
            "supply",
            supply_id,
            f"{stands}; {for_work}",
            "ask where it is, and write down the new date",
        )
    elif not account.unordered:
        return
    elif supply.lead_time is None:
        yield Question(
            "no lead time",
            "supply",
            supply_id,
            f"{stands}, and nobody has said how long it takes to come; {for_work}",
            'write lead_time = "6 weeks", or in_stock = true',
        )
    elif (here := expected_by(board.plan, account, today)) and here > day:
        yield Question(
            "order late",
            "supply",
            supply_id,
            f"{stands}, and it takes {supply.lead_time}; {for_work} and would "
            f"have to wait until {day_in_words(here)}",
            "order it now",
        )
