"""Why a task stands where it stands, what then, and holds: as lines to read."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from crewboard.order.board import Board
from crewboard.order.reasons.onward import what_then
from crewboard.order.reasons.why import Reason, hold_in_words, why
from crewboard.order.running import StandingHold
from crewboard.order.said import day_and_time, day_in_words, how_long, how_many, listed, person
from crewboard.plan.hold import KINDS
from crewboard.telling.holds import conditions_in_words
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.tones import STATE_TONE

_FEW = 3  # tasks named before the rest is counted
_DEEPEST = 12  # cells of indent beyond which a chain is no longer set in further


def when(moment: datetime, now: datetime) -> str:
    """ "13:47" for today, "Tue 21 Apr 13:47" within a year, else with the year."""
    if moment.date() == now.date():
        return f"{moment:%H:%M}"
    day = day_in_words(moment.date())
    if abs((moment - now).days) < 300:
        day = day.rpartition(" ")[0]
    return f"{day} {moment:%H:%M}"


def why_lines(board: Board, task_id: str) -> list[Line]:
    """The chain that blocks the task, down to what can be done or waited for."""
    chain = why(board, task_id)
    lines = [_step(board, reason) for reason in chain]
    ends = [r for r in chain if r.root]
    if ends:
        lines += [GAP, title("In the end it waits for")]
        lines += [Line(r.says, "plain", 2) for r in ends]
    return lines


def _step(board: Board, reason: Reason) -> Line:
    tone = {"hold": "caution", "supply": "caution", "date": "caution"}.get(reason.about, "plain")
    if reason.about == "task" and reason.id in board.standings:
        tone = STATE_TONE[board[reason.id].state]
    return Line(reason.says, tone, min(_DEEPEST, 2 * reason.depth), bold=reason.depth == 0)


def then_lines(board: Board, task_id: str) -> list[Line]:
    """What finishing the task lets go."""
    task = board.plan.tasks[task_id]
    then = what_then(board, task_id)
    lines: list[Line] = []
    standing = board[task_id]
    if standing.work_done:
        holds = [hold_in_words(board, board.holds[each]) for each in standing.holds]
        lines += [*(Line(says, "caution") for says in holds), GAP] if holds else []
    elif task.hold is not None:
        span = f" of {task.hold.lasts}" if task.hold.lasts else ""
        starts = f"{KINDS[task.hold.kind].words}: a hold{span} starts with the finish"
        lines += [Line(starts, "caution"), GAP]
    parts = (
        ("Ready at once", then.now, "safe"),
        ("Ready after the hold" if task.hold else "Ready later", then.after_hold, "caution"),
        ("Closer, but waiting for other work too", then.closer, "faint"),
    )
    for head, tasks, tone in parts:
        if tasks:
            lines.append(title(f"{head} ({len(tasks)})", tone))
            lines += [Line(_named(board, each), "plain", 2) for each in tasks]
            lines.append(GAP)
    behind = how_many(then.behind, "task")
    waits = "waits" if then.behind == 1 else "wait"
    lines.append(
        Line(f"In all {behind} {waits} behind it." if then.behind else "Nothing waits behind it.")
    )
    return lines


def lets_go(board: Board, task_id: str) -> str:
    """What finishing the task lets go, in a sentence."""
    then = what_then(board, task_id)
    told = [f"lets go {_some(board, then.now)}"] if then.now else []
    if then.after_hold:
        after = "after its hold" if board.plan.tasks[task_id].hold is not None else "later"
        told.append(f"{after} {_some(board, then.after_hold)}")
    if then.behind:
        told.append(f"{how_many(then.behind, 'task')} behind it")
    return "; ".join(told) if told else "nothing waits for it"


def _some(board: Board, tasks: tuple[str, ...]) -> str:
    named = [f'"{board.plan.tasks[each].title}"' for each in tasks[:_FEW]]
    more = len(tasks) - len(named)
    return listed([*named, *([f"{more} more"] if more else [])])


def _named(board: Board, task_id: str) -> str:
    task = board.plan.tasks[task_id]
    return f"{task.title} ({board.plan.components[task.component].name})"


def hold_title(board: Board, hold: StandingHold) -> str:
    """What the hold is on."""
    task = board.plan.tasks.get(hold.task)
    component = board.plan.components.get(hold.component)
    return task.title if task else component.name if component else hold.task or hold.component


def hold_lines(board: Board, hold: StandingHold) -> list[Line]:
    """Everything known of a hold."""
    tone = {"running": "caution", "due": "must", "over": "faint"}[hold.stage]
    word = {"running": "held", "due": "due for a look", "over": "over"}[hold.stage]
    lines = [Line(hold_in_words(board, hold), tone, 0, f"{word}:")]
    if hold.leave_alone and hold.stops_work:
        name = board.plan.components[hold.component].name if hold.component else "it"
        lines.append(
            Line(f"nobody works on {name} until it is released", "danger", 0, "leave alone:")
        )
    lines += [Line(each, "plain", 2) for each in _details(board, hold)]
    return lines


def _details(board: Board, hold: StandingHold) -> Iterable[str]:
    if hold.stage == "running" and hold.until is not None:
        share = hold.share(board.at)
        ends = "it asks for a look then" if hold.release == "look" else "it ends by itself"
        yield f"{share:.0%} passed, {how_long(hold.until - board.at)} to go; {ends}"
    if hold.conditions:
        yield f"counts only {conditions_in_words(hold.conditions, board.plan.vehicle.units)}"
    if hold.outside:
        yield "the shop is outside these conditions: the clock stands still"
    if hold.stood_still:
        yield f"{how_long(hold.lost)} did not count"
    for each in hold.extended:
        by = f" by {person(board.plan, each.by)}" if each.by else ""
        yield f"extended{by} to {day_and_time(each.until)}: {each.why}"
    if hold.released_at is not None:
        by = f" by {person(board.plan, hold.released_by)}" if hold.released_by else ""
        why_so = f": {hold.released_why}" if hold.released_why else ""
        yield f"released{by} {day_and_time(hold.released_at)}{why_so}"
    if hold.note:
        yield hold.note
    if hold.source:
        yield f"source of the time: {hold.source}"
