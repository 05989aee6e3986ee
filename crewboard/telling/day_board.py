"""The day's board in plain lines: what a person wants to know who opens the shop."""

from __future__ import annotations

from collections.abc import Callable

from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board, Standing
from crewboard.order.expected import expected_on
from crewboard.order.reasons.waiting_on import cause_in_words, waiting_on
from crewboard.order.reasons.why import hold_in_words, stop_in_words
from crewboard.order.said import day_and_time, day_in_words, how_many, listed, person
from crewboard.paper.plain import Paper
from crewboard.telling.left_open import left_open_lines

_FIRST = 5  # how many tasks are said to go first
_NAMED = 3  # how many followers are named before the rest is counted
_WAITING = 4  # how many waiting tasks are named under one cause


def day_board(board: Board, width: int, *, mistakes: int = 0, folder: str = "DIR") -> list[str]:
    """The board at its moment, as lines of at most `width` columns where words allow."""
    paper = Paper(width)
    _heading(paper, board)
    for line in left_open_lines(board):
        paper.told(line)
    _people(paper, board)
    first = what_goes_first(board)
    _goes_first(paper, board, first)
    _tasks(paper, board, "Under way", first, _under_way)
    _due(paper, board)
    _tasks(paper, board, "Ready", first, _ready)
    _running(paper, board)
    _leave_alone(paper, board)
    _waiting(paper, board)
    _ending(paper, board, mistakes, folder)
    return paper.lines


def _heading(paper: Paper, board: Board) -> None:
    paper.line(f"{board.plan.vehicle.name}: {day_and_time(board.at)}")
    if board.openings:
        paper.line(f"Work day, open {listed(map(str, board.openings))}.")
        return
    work_days = board.plan.vehicle.work_days
    opens, why = work_days.next_after(board.at), work_days.called_off(board.at.date())
    closed = "No work day" if why is None else "No work day: it is called off"
    closed += f" ({why})." if why else "."
    paper.line(f"{closed} The next is {day_and_time(opens)}." if opens else closed)


def _people(paper: Paper, board: Board) -> None:
    here = [f"{person(board.plan, v.who)} (since {v.since:%H:%M})" for v in board.present]
    paper.line(f"Here: {listed(here) if here else 'nobody is signed in'}.", hang=2)
    expected = expected_on(board.logbook, board.at.date())
    seen = {visit.who for visit in board.history.visits}
    coming = [
        person(board.plan, w) for w, said in expected.items() if said.coming and w not in seen
    ]
    away = [person(board.plan, who) for who, said in expected.items() if not said.coming]
    if coming:
        paper.line(f"Expected: {listed(coming)}.", hang=2)
    if away:
        paper.line(f"Not coming: {listed(away)}.", hang=2)


def _goes_first(paper: Paper, board: Board, first: list[First]) -> None:
    possible = [each for each in first if not each.against]
    if possible:
        paper.heading("Goes first today")
    for number, each in enumerate(possible[:_FIRST], 1):
        says = f"{number}. {board.plan.tasks[each.task].title}: {each.says}"
        if each.finish_today:
            says += "; finish it today, its hold runs while nobody is here"
        paper.line(says, indent=2, hang=3)


def _tasks(
    paper: Paper,
    board: Board,
    heading: str,
    first: list[First],
    says: Callable[[Board, Standing], list[str]],
) -> None:
    """The tasks of one state, the most pressing first."""
    listed_tasks = [each for each in first if board[each.task].state == heading.lower()]
    if not listed_tasks:
        return
    paper.heading(f"{heading} ({len(listed_tasks)})")
    for each in listed_tasks:
        standing = board[each.task]
        paper.line(f"{standing.task.title}  [{each.task}]", indent=2, hang=2)
        for line in says(board, standing):
            paper.line(line, indent=6, hang=2)
        if each.not_today:
            paper.line(each.not_today, indent=6, hang=2)
        paper.line(_let_go(board, each), indent=6, hang=2)


def _let_go(board: Board, first: First) -> str:
    told = []
    if first.lets_go:
        after = "after its hold" if board.plan.tasks[first.task].hold else ""
        told.append(f"lets go {after} {some_titles(board, first.lets_go)}".replace("  ", " "))
    if first.behind:
        told.append(f"{how_many(first.behind, 'task')} behind it")
    return "; ".join(told) if told else "nothing waits for it"


def _ready(_board: Board, standing: Standing) -> list[str]:
    task = standing.task
    needs = [_people_wanted(standing)]
    if standing.left is not None:
        needs.append(f"about {standing.left:g} h left")
    if task.skills:
        needs.append(f"needs {listed(task.skills)}")
    if task.due is not None:
        needs.append(f"due {day_in_words(task.due)}")
    told = [", ".join(needs)]
    if task.hazards:  # by their ids: reading the sheets would take longer than all the rest
        told.append(f"checks before it begins: {listed(task.hazards)}")
    return told


def _people_wanted(standing: Standing) -> str:
    task = standing.task
    if task.most_people is None or task.most_people == task.least_people:
        return "1 person" if task.least_people == 1 else f"{task.least_people} people"
    return f"{task.least_people} to {task.most_people} people"


def some_titles(board: Board, tasks: tuple[str, ...]) -> str:
    named = [f'"{board.plan.tasks[each].title}"' for each in tasks[:_NAMED]]
    if len(tasks) > _NAMED:
        named.append(f"{len(tasks) - _NAMED} more")
    return listed(named)


def _under_way(board: Board, standing: Standing) -> list[str]:
    crew = listed(person(board.plan, who) for who in standing.crew)
    since = f"since {day_and_time(standing.begun)}" if standing.begun else ""
    left = f"about {standing.left:g} h left" if standing.left is not None else ""
    worked = f"{standing.hours:g} h worked" if standing.hours else ""
    told = [each for each in (since, crew, worked, left) if each]
    stop = stop_in_words(board, standing)
    return [*([stop] if stop else []), ", ".join(told)]


def _due(paper: Paper, board: Board) -> None:
    due = [hold for hold in board.stopping() if hold.stage == "due"]
    if due:
        paper.heading(f"Due for a look ({len(due)})")
        paper.items(f"{hold_in_words(board, hold)}  [{hold.id}]" for hold in due)


def _running(paper: Paper, board: Board) -> None:
    running = [hold for hold in board.stopping() if hold.stage == "running"]
    if running:
        paper.heading(f"Setting, curing, awaited ({len(running)})")
        paper.items(f"{hold_in_words(board, hold)}  [{hold.id}]" for hold in running)


def _leave_alone(paper: Paper, board: Board) -> None:
    alone = {hold.component: hold for hold in board.stopping() if hold.leave_alone}
    known = [each for each in alone if each in board.plan.components]
    if known:
        paper.heading("Leave alone")
        for each in known:
            until = alone[each].until
            end = f"until {day_and_time(until)}" if until else "until somebody releases it"
            if alone[each].stage == "due":
                end = "until it was looked at and released"
            paper.line(f"{board.plan.components[each].name}: {end}", indent=2, hang=2)


def _waiting(paper: Paper, board: Board) -> None:
    """Grouped by what they wait for first: dozens of tasks often wait for a few."""
    groups = waiting_on(board)
    if not groups:
        return
    paper.heading(f"Waiting or held ({sum(map(len, groups.values()))})")
    for cause, tasks in sorted(groups.items(), key=lambda group: -len(group[1])):
        titles = [board.plan.tasks[each].title for each in tasks[:_WAITING]]
        more = f" and {len(tasks) - _WAITING} more" if len(tasks) > _WAITING else ""
        says = f"- for {cause_in_words(board, cause)}: {'; '.join(titles)}{more}"
        paper.line(says, indent=2, hang=2)


def _ending(paper: Paper, board: Board, mistakes: int, folder: str) -> None:
    done, of = 0, 0
    for standing in board.standings.values():
        of += standing.state != "set aside"
        done += standing.work_done
    paper.heading(f"{done} of {how_many(of, 'task')} finished.")
    if mistakes:
        says = "is 1 mistake" if mistakes == 1 else f"are {mistakes} mistakes"
        paper.line(f"There {says} in the folder: crewboard check {folder}")
