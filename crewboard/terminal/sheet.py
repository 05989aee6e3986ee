"""A task's sheet as lines to read: where it stands, what it needs, how, and its dangers."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.board import Board, Standing
from crewboard.order.reasons.why import hold_in_words, roots
from crewboard.order.said import day_and_time, day_in_words, listed, person
from crewboard.plan.hold import Hold
from crewboard.plan.task import Task
from crewboard.telling.entry_words import entry_in_words
from crewboard.telling.holds import conditions_in_words
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.tones import STATE_TONE
from crewboard.terminal.sheet_safety import safety_lines, safety_short
from crewboard.terminal.told import lets_go, then_lines, why_lines

_ENTRIES = 40  # the latest entries shown of a task's history


def short_sheet(board: Board, task_id: str, *, state: bool = True) -> list[Line]:
    """What is wanted at the bench: state, people, dangers, how, what then."""
    standing = board[task_id]
    task = standing.task
    lines = [title(task.title), *([_state(board, standing)] if state else [])]
    lines += safety_short(board, task_id)
    lines += [Line(says, "faint", 0, f"{name}:") for name, says in _needs(board, standing)]
    lines.append(Line(lets_go(board, task_id), "faint", 0, "then:"))
    if task.method.strip():
        lines += [GAP, Line(task.method.strip())]
    return lines


def full_sheet(board: Board, task_id: str) -> list[Line]:
    """The whole sheet."""
    standing = board[task_id]
    task = standing.task
    component = board.plan.components[task.component]
    lines = [_state(board, standing), Line(f"{component.name}   {task.id}", "faint"), GAP]
    lines += [Line(says, "faint", 0, f"{name}:") for name, says in _facts(board, standing)]
    if task.method.strip():
        lines += [GAP, title("How it is done"), Line(task.method.strip(), indent=2)]
    lines += [GAP, title("Why it stands where it stands")]
    lines += [each._replace(indent=each.indent + 2) for each in why_lines(board, task_id)]
    lines += [GAP, title("What then")]
    lines += [each._replace(indent=each.indent + 2) for each in then_lines(board, task_id)]
    lines += safety_lines(board, task_id)
    if task.pictures:
        lines += [GAP, title("Pictures and drawings")]
        lines += [Line(path, indent=2) for path in task.pictures]
    history = list(_history(board, task))
    if history:
        lines += [GAP, title("In the logbook"), *history[-_ENTRIES:]]
    return lines


def _state(board: Board, standing: Standing) -> Line:
    tone = STATE_TONE[standing.state]
    says = ""
    match standing.state:
        case "under way" if standing.begun:
            crew = listed(person(board.plan, who) for who in standing.crew)
            says = f"since {day_and_time(standing.begun)}" + (f", {crew}" if crew else "")
        case "finished" if standing.finished:
            says = day_and_time(standing.finished)
        case "held" if standing.holds:
            says = "; ".join(hold_in_words(board, board.holds[h]) for h in standing.holds)
        case "held" | "waiting":
            found = roots(board, standing.task.id)
            says = found[0].says if found else "earlier work"
            says += f" (and {len(found) - 1} more: w tells)" if len(found) > 1 else ""
        case "set aside":
            says = standing.aside
    if standing.state == "held" and any(board.holds[h].stage == "due" for h in standing.holds):
        tone = "must"
    word = "waiting for" if standing.state == "waiting" and says else standing.state
    return Line(says, tone, 0, f"{word}{':' if says else ''}")


def _needs(board: Board, standing: Standing) -> Iterator[tuple[str, str]]:
    """The few facts that matter at the bench."""
    task = standing.task
    people = f"{task.least_people}"
    if task.most_people is not None and task.most_people != task.least_people:
        people += f" to {task.most_people}"
    wants = [f"{people} {'person' if people == '1' else 'people'}"]
    if standing.left:
        wants.append(f"about {standing.left:g} h left")
    if task.skills:
        wants.append(listed(task.skills))
    if task.place:
        wants.append(task.place)
    yield "needs", ", ".join(wants)
    if task.hold is not None:
        word = "started" if standing.work_done else "starts"
        yield word, hold_of_plan(task.hold, board.plan.vehicle.units)
    short = [s for each in standing.short_of if (s := board.plan.supplies[each].name)]
    if short:
        yield "not here yet", listed(short)
    if task.due is not None:
        yield "due", day_in_words(task.due)


def _facts(board: Board, standing: Standing) -> Iterator[tuple[str, str]]:
    task, plan = standing.task, board.plan
    yield from _needs(board, standing)
    if task.estimate is not None:
        low, likely, high = task.estimate
        yield "hours", f"{low:g} to {high:g} person-hours, most likely {likely:g}"
    if standing.hours:
        yield "worked", f"{standing.hours:g} h so far"
    if task.supplies:
        yield "supplies", listed(plan.supplies[each].name for each in task.supplies)
    if before := board.order.tasks_right_before(task.id):
        done = sum(board[each].work_done for each in before)
        named = listed(plan.tasks[each].title for each in before[:6])
        more = f" and {len(before) - 6} more" if len(before) > 6 else ""
        yield "comes after", f"{named}{more} ({done} of {len(before)} finished)"
    if task.during:
        names = [plan.tasks[d].title if d in plan.tasks else d for d in task.during]
        yield "may begin during the hold of", listed(names)
    if task.not_before is not None:
        yield "not before", day_in_words(task.not_before)


def hold_of_plan(hold: Hold, units: str) -> str:
    """ "a bend set of 1 month, then a look; ..."."""
    ends = "then a look" if hold.release == "look" else "ends by itself"
    told = [
        f"{hold.kind} of {hold.lasts}, {ends}" if hold.lasts else f"{hold.kind}, until released"
    ]
    if hold.conditions:
        told.append(f"counts only {conditions_in_words(hold.conditions, units)}")
    if hold.leave_alone:
        told.append("the whole component is left alone")
    told += [each for each in (hold.note, hold.source and f"source: {hold.source}") if each]
    return "; ".join(told)


def _history(board: Board, task: Task) -> Iterator[Line]:
    for entry in board.logbook.counting():
        if getattr(entry.act, "task", "") == task.id and entry.at <= board.at:
            by = f" ({person(board.plan, entry.by)})" if entry.by else ""
            says = entry_in_words(board.plan, entry) + by
            yield Line(says, "faint", 2, f"{day_and_time(entry.at)}:")
