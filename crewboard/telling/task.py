"""A task's sheet: where it stands and why, what it needs, how it is done, its hazards."""

from collections.abc import Iterable, Iterator

from crewboard.logbook.acts import CheckSigned
from crewboard.order.board import Board, Standing
from crewboard.order.may.needs import needs_of
from crewboard.order.reasons.why import hold_in_words, roots
from crewboard.order.safety.checks import hazards_of
from crewboard.order.said import (
    component_name,
    day_and_time,
    day_in_words,
    listed,
    person,
    quoted_name,
    quoted_title,
    supply_name,
)
from crewboard.order.within_words import followed_in_words
from crewboard.plan.task import Task
from crewboard.telling.holds import limits_in_words, planned_hold
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.notes import notes_around
from crewboard.telling.row import STATE_TONE
from crewboard.telling.why import frees, then_lines, why_under_title

_ENTRIES = 40  # the latest entries shown of a task's history
_BEFORE = 6  # tasks right before it that are named before the rest is counted


def short_sheet(board: Board, task_id: str, *, state: bool = True) -> list[Line]:
    """What is wanted at the bench: state, people, hazards, how, what then."""
    from crewboard.telling.safety import safety_short  # the day's rows do without

    standing = board[task_id]
    task = standing.task
    lines = [title(task.title), *([state_line(board, standing)] if state else [])]
    lines += safety_short(board, task_id)
    lines += needs(board, standing)
    lines.append(then_line(board, task_id))
    if task.method.strip():
        lines += [GAP, Line(task.method.strip())]
    return lines


def full_sheet(board: Board, task_id: str) -> list[Line]:
    """The whole sheet. Raises KeyError for an unknown task."""
    from crewboard.telling.record_of_task import record_of_task
    from crewboard.telling.safety import safety_lines  # the day's rows do without

    standing = board[task_id]
    task = standing.task
    lines = [title(task.title)._replace(handle=task_id), state_line(board, standing), GAP]
    lines += _facts(board, standing)
    lines += notes_around(board, task_id)
    if task.method.strip():
        lines += [GAP, title("How it is done"), Line(task.method.strip(), indent=2)]
    lines += _chapter("Why", why_under_title(board, task_id))
    lines += _chapter("What comes next", then_lines(board, task_id))
    lines += record_of_task(board, task)
    lines += safety_lines(board, task_id)
    lines += _chapter("Pictures and drawings", map(Line, task.pictures))
    lines += _chapter("In the logbook", list(_history(board, task))[-_ENTRIES:])
    return lines


def _chapter(heading: str, lines: Iterable[Line]) -> list[Line]:
    inside = [line._replace(indent=line.indent + 2) for line in lines]
    return [GAP, title(heading), *inside] if inside else []


def state_line(board: Board, standing: Standing) -> Line:
    """Where it stands: the state's word and what goes with it."""
    tone = STATE_TONE[standing.state]
    text = _stands(board, standing)
    if any(board.holds[h].stage == "due" for h in standing.holds):
        tone = "must"
    word = "waiting for" if standing.state == "waiting" and text else standing.state
    return Line(text, tone, 0, f"{word}{':' if text else ''}")


def _stands(board: Board, standing: Standing) -> str:
    match standing.state:
        case "under way":
            return under_way(board, standing)
        case "finished" if standing.finished:
            by = f", {person(board.plan, standing.finished_by)}" if standing.finished_by else ""
            return f"{day_and_time(standing.finished)}{by}"
        case "on hold" | "waiting" if standing.holds:
            return "; ".join(hold_in_words(board, board.holds[h]) for h in standing.holds)
        case "on hold" | "needs supplies" | "waiting":
            return _first_root(board, standing.task.id)
        case "set aside":
            return standing.aside
    return ""


def under_way(board: Board, standing: Standing) -> str:
    """ "since Sat 2 May 2026 09:00, Ada Marsh and Ben Holt"."""
    crew = listed(person(board.plan, who) for who in standing.crew)
    since = f"since {day_and_time(standing.begun)}" if standing.begun else ""
    return ", ".join(filter(None, (since, crew)))


def _first_root(board: Board, task_id: str) -> str:
    causes = roots(board, task_id)
    more = f" (and {len(causes) - 1} more)" if len(causes) > 1 else ""
    return f"{causes[0].says}{more}" if causes else "earlier work"


def needs(board: Board, standing: Standing) -> Iterator[Line]:
    """The few facts that matter at the bench."""
    task, plan = standing.task, board.plan
    left = standing.left_in_words
    wants = (people_wanted(board, task), left, listed(task.skills), task.place)
    yield _fact("needs", ", ".join(filter(None, wants)))
    if task.hold is not None:
        word = "started" if standing.work_done else "starts"
        yield _fact(word, planned_hold(task.hold, plan.vehicle.units))
    if standing.short_of:
        yield _fact(
            "not here yet", listed(supply_name(plan, supply_id) for supply_id in standing.short_of)
        )
    if task.due is not None:
        yield _fact("due", day_in_words(task.due))


def people_wanted(board: Board, task: Task) -> str:
    """ "1 person", "2 to 3 people": as many as its hazards want, where the task says fewer."""
    needed = needs_of(task, hazards_of(board, task.id, board[task.id].crew))
    least, most = needed.least, needed.most
    if most is not None and most != least:
        return f"{least} to {most} people"
    return "1 person" if least == 1 else f"{least} people"


def then_line(board: Board, task_id: str) -> Line:
    """What its finish frees."""
    return _fact("then", "; ".join((*followed_in_words(board, (task_id,)), frees(board, task_id))))


def _facts(board: Board, standing: Standing) -> Iterator[Line]:
    task, plan = standing.task, board.plan
    yield _fact("part of", component_name(plan, task.component))
    if standard := plan.standard_of(task.component)[0]:
        yield _fact("finish agreed on", standard)
    yield from needs(board, standing)
    if task.estimate is not None:
        low, likely, high = task.estimate
        yield _fact("hours", f"{low:g} to {high:g} person-hours, most likely {likely:g}")
    if standing.hours:
        yield _fact("worked", f"{standing.hours:g} h so far")
    if task.supplies:
        yield _fact("supplies", listed(supply_name(plan, supply_id) for supply_id in task.supplies))
    if task.conditions:
        yield _fact("only done at", limits_in_words(task.conditions, plan.vehicle.units))
    before = board.order.tasks_right_before(task.id)
    if len(before) > _BEFORE or not set(task.after) <= set(before) or task.during:
        yield from comes_after(board, task_id=task.id)  # what is right before it does not say it
    yield from _right_before(board, task)
    if task.not_before is not None:
        yield _fact("not before", day_in_words(task.not_before))


def comes_after(board: Board, *, task_id: str = "", component_id: str = "") -> Iterator[Line]:
    """What is written in the plan before a task or a component, by name."""
    plan = board.plan
    task = plan.written(task_id) if task_id in plan.series else plan.tasks.get(task_id)
    component = plan.components.get(component_id)
    after = task.after if task else component.after if component else ()
    if after:
        yield _fact("comes after", listed(quoted_name(plan, earlier) for earlier in after))
    if task is not None and task.during:
        names = listed(quoted_name(plan, earlier) for earlier in task.during)
        yield _fact("may begin during the hold of", names)


def _right_before(board: Board, task: Task) -> Iterator[Line]:
    before = board.order.tasks_right_before(task.id)
    if before:
        done = sum(board[task_id].work_done for task_id in before)
        named = listed(quoted_title(board.plan, task_id) for task_id in before[:_BEFORE])
        more = f" and {len(before) - _BEFORE} more" if len(before) > _BEFORE else ""
        yield _fact("right before it", f"{named}{more} ({done} of {len(before)} finished)")


def _fact(word: str, text: str) -> Line:
    return Line(text, "faint", 0, f"{word}:")


def _history(board: Board, task: Task) -> Iterator[Line]:
    from crewboard.telling.entry_words import (  # the day's rows do without
        MOST_OF_A_TEXT,
        EntryWords,
        put_down_in_words,
    )

    words = EntryWords(board.plan, board.logbook, most=MOST_OF_A_TEXT)
    for entry in board.logbook.counting():
        if getattr(entry.act, "task", "") == task.id and entry.at <= board.at:
            signature = isinstance(entry.act, CheckSigned)  # which names its writer itself
            writer = person(board.plan, entry.by) if entry.by and not signature else ""
            facts = ", ".join(filter(None, (writer, put_down_in_words(entry))))
            by = f" ({facts})" if facts else ""
            yield Line(words.of(entry) + by, "faint", 0, f"{day_and_time(entry.at)}:")
