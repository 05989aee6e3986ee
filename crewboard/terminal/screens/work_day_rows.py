"""The rows of the work day: what must be looked at, what is under way, what goes first."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board, Standing
from crewboard.order.hold_words import hold_title
from crewboard.order.reasons.waiting_on import cause_in_words, waiting_on
from crewboard.order.reasons.why import stop_in_words
from crewboard.order.running import StandingHold
from crewboard.order.safety.checks import checks_of, coming_round
from crewboard.order.safety.clocks import still_running
from crewboard.order.safety.signatures import signatures
from crewboard.order.said import day_in_words, how_long, how_many, listed, person, when
from crewboard.plan.hazard import When
from crewboard.telling.line import Tone
from crewboard.telling.row import Row, heading
from crewboard.telling.tones import STATE_TONE

_NAMED = 2  # followers named before the rest is counted
_IN_FULL = 5  # of the work that goes first, how much is told in full


def work_day_rows(board: Board, *, brief: bool = False) -> Iterator[Row]:
    """Every row of the page, in its sections; `brief` for a low window, with fewer lines each."""
    first = what_goes_first(board)
    today = set(signatures(board).worked)
    yield from _section("Must be looked at", "must", _to_look_at(board, brief=brief))
    going = [f for f in first if f.task in today and board[f.task].state == "under way"]
    yield from _section("Under way today", "strong", [_going(board, f) for f in going])
    rest = [f for f in first if f not in going]
    rows = [_next(board, number, f, brief=brief) for number, f in enumerate(rest, 1)]
    yield from _section("What goes first today", "safe", rows)
    yield from _section("Leave alone, setting, awaited", "caution", _running(board))
    yield from _held_back(board)


def _section(name: str, tone: Tone, rows: list[Row]) -> Iterator[Row]:
    if rows:
        yield heading(f"{name} ({len(rows)})", tone)
        yield from rows


def _to_look_at(board: Board, *, brief: bool) -> list[Row]:
    due = [_due(board, hold, brief=brief) for hold in board.stopping() if hold.stage == "due"]
    for each in coming_round(board):
        if each.due is not None and each.due <= board.at:
            title = board.plan.tasks[each.task].title
            says = f"{each.check.id}: {title}"
            below = (f"since {each.due:%H:%M}: {each.text}",)
            due.append(
                Row(f"check:{each.task}:{each.check.id}", ("check due", says), "must", below)
            )
    for clock in still_running(board):
        title = board.plan.tasks[clock.task].title
        until = f"until {when(clock.until, board.at)}" if clock.until else "not started"
        says = f"{clock.clock.kind} after {title}"
        tell = "nobody leaves before" if clock.clock.guards == "closing" else "work waits for it"
        row_id = f"check:{clock.task}:{clock.clock.id}"
        due.append(Row(row_id, (clock.clock.kind, says), "warning", (f"{until}; {tell}",)))
    return due


def _due(board: Board, hold: StandingHold, *, brief: bool) -> Row:
    since = f" since {when(hold.until, board.at)}" if hold.until else ""
    below = f"{hold.kind}, due{since}"
    below += f"; leave {_component(board, hold.component)} alone" if hold.leave_alone else ""
    where = _component(board, hold.component)
    if brief and hold.until is not None:
        where = f"since {day_in_words(hold.until).rpartition(' ')[0]}"
    cells = ("due: look", hold_title(board.plan, hold), where)
    return Row(f"hold:{hold.id}", cells, "must", () if brief else (below,))


def _going(board: Board, first: First) -> Row:
    """Work that people are on today."""
    standing = board[first.task]
    task = standing.task
    crew = listed(person(board.plan, who) for who in standing.crew)
    since = f"since {when(standing.begun, board.at)}" if standing.begun else ""
    below = ", ".join(each for each in (since, crew, _checks(board, first.task, "during")) if each)
    cells = ("under way", task.title, _component(board, task.component), _left(standing))
    stop = stop_in_words(board, standing)
    lines = (stop, below) if stop else (below,)
    tone: Tone = "danger" if stop else "strong"
    return Row(task.id, cells, tone, lines, find=task.id, body_tone=tone)


def _next(board: Board, number: int, first: First, *, brief: bool) -> Row:
    """Work that can be taken up, with why it comes here and what it lets go."""
    standing = board[first.task]
    task = standing.task
    below = [_why(first)]
    if stop := stop_in_words(board, standing):
        below.insert(0, stop)
    if number <= _IN_FULL:
        lets_go = [f"{board.plan.tasks[each].title}" for each in first.lets_go[:_NAMED]]
        if more := len(first.lets_go) - len(lets_go):
            lets_go.append(f"{more} more")
        after = " after its hold" if task.hold else ""
        told = [f"lets go {listed(lets_go)}{after}"] if lets_go else []
        told += [says] if (says := _checks(board, task.id, "before")) else []
        if standing.begun is not None:
            told.append(f"begun {when(standing.begun, board.at)}")
        below += ["; ".join(told)] if told else []
    if brief:
        checks = _checks(board, task.id, "before") if task.hazards else ""
        below = [f"{below[0]}; {checks}" if checks else below[0]]
    if first.not_today:
        below.insert(0, first.not_today)
    cells = (
        standing.state,
        task.title if first.against else f"{number}. {task.title}",
        _component(board, task.component),
        _left(standing),
    )
    tone = STATE_TONE[standing.state]
    return Row(task.id, cells, tone, tuple(below), find=task.id, body_tone="strong")


def _checks(board: Board, task_id: str, moment: When) -> str:
    """How many checks before it are unsigned; when the next one during it comes round."""
    if not board.plan.tasks[task_id].hazards:
        return ""
    asked = checks_of(board, task_id, when=moment)
    if moment == "before":
        count = sum(a.open for a in asked)
        return f"{how_many(count, 'check')} to sign first" if count else ""
    due = min((a.due for a in asked if a.due is not None), default=None)
    return f"next check {due:%H:%M}" if due else ""


def _why(first: First) -> str:
    if not first.finish_today:
        return first.says
    # Its hold runs while nobody is here, so it is best started before everybody goes home.
    return f"finish it today: {first.says}"


def _running(board: Board) -> list[Row]:
    found = [h for h in board.stopping() if h.stage == "running"]
    alone = [h for h in board.stopping() if h.leave_alone]
    rows = [_alone(board, hold) for hold in alone]
    rows += [_held(board, hold) for hold in found if not hold.leave_alone]
    return rows


def _alone(board: Board, hold: StandingHold) -> Row:
    what = _component(board, hold.component) or hold_title(board.plan, hold)
    end = f"until {when(hold.until, board.at)}" if hold.until else "until somebody releases it"
    if hold.stage == "due":
        end = "until it was looked at and released"
    cells = ("leave alone", what, "", "")
    below = (f"{end}: {hold_title(board.plan, hold)}, {hold.kind}",)
    return Row(f"alone:{hold.id}", cells, "danger", below, body_tone="danger")


def _held(board: Board, hold: StandingHold) -> Row:
    to_go = f"{how_long(hold.until - board.at)} to go" if hold.until is not None else ""
    end = f"until {when(hold.until, board.at)}" if hold.until else "until somebody releases it"
    below = f"{hold.kind} since {when(hold.since, board.at)}, {end}"
    if hold.outside:
        below += "; the shop is outside its conditions: the clock stands still"
    cells = ("held", hold_title(board.plan, hold), to_go)
    return Row(f"hold:{hold.id}", cells, "caution", (below,))


def _held_back(board: Board) -> Iterator[Row]:
    """Held tasks, then the waiting ones under what they wait for first."""
    held = [s.task.id for s in board.in_state("held") if not s.work_done]
    yield from _section("Held", "caution", [_later(board, each) for each in held])
    groups = sorted(waiting_on(board).items(), key=lambda group: -len(group[1]))
    for cause, tasks in groups:
        name = f"Waiting for {cause_in_words(board, cause)}"
        yield from _section(name, "faint", [_later(board, each) for each in tasks])


def _later(board: Board, task_id: str) -> Row:
    standing = board[task_id]
    where = _component(board, standing.task.component)
    cells = (standing.state, standing.task.title, where, _left(standing))
    tone = STATE_TONE[standing.state]
    return Row(task_id, cells, tone, find=task_id, body_tone="faint")


def _component(board: Board, component_id: str) -> str:
    component = board.plan.components.get(component_id)
    return component.name if component else component_id


def _left(standing: Standing) -> str:
    return f"{standing.left:g} h" if standing.left else ""
