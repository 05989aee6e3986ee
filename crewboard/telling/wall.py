"""What hangs on the wall: what must be left alone, what goes on, who is here, what comes next.

It is read from three metres, so every part has room for a few lines, and says how many more there
are.
"""

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime
from math import ceil
from typing import NamedTuple

from crewboard.order.ahead.first import what_goes_first
from crewboard.order.board import Board
from crewboard.order.left_alone import end_in_short, told_together
from crewboard.order.may.on_it import on_it, people_at
from crewboard.order.said import day_and_time, day_in_words, person, short_names, when
from crewboard.telling.by_plan import by_plan, title_of
from crewboard.telling.drawn import cells
from crewboard.telling.line import Tone
from crewboard.telling.moments import moments
from crewboard.telling.must_follow import must_follow_lines
from crewboard.telling.task import people_wanted

_LINES = 11  # of large letters in the column of what is left alone
_WIDE = 27  # large letters in a line of a column
_LONGEST = 50  # characters of a name there
_BESIDE, _NAMED = 31, 36  # letters of a large and of a small line in the other column
_VEHICLE, _CALL, _MOMENT = 22, 26, 44  # letters of these at most
_GOING, _COMING = 3, 2  # jobs under way, lines of what comes


class WallLine(NamedTuple):
    """A line in large letters, and beside or below it a smaller one."""

    text: str
    small: str = ""


class WallPart(NamedTuple):
    """A heading and its lines. `more` counts those for which there was no room."""

    heading: str
    lines: tuple[WallLine, ...]
    tone: Tone = "strong"
    more: int = 0


class Wall(NamedTuple):
    """The whole of it. `missing` says what cannot be read, before all else."""

    vehicle: str
    at: str
    emergency: str
    missing: tuple[str, ...]
    alone: WallPart
    parts: tuple[WallPart, ...]


def wall(board: Board) -> Wall:
    """What hangs on the wall at the board's moment."""
    return Wall(
        _short(board.plan.vehicle.name, _VEHICLE),
        day_and_time(board.at),
        _short(board.plan.vehicle.shop.emergency, _CALL),
        tuple(f"On hold: {one.in_full}" for one in board.unreadable[:1]),
        _alone(board),
        (_going(board), _here(board), _coming(board), _next_job(board)),
    )


def _alone(board: Board) -> WallPart:
    entries = told_together(board)
    lines = [WallLine(_short(e.name), end_in_short(e, board.at)) for e in entries]
    shown, taken = 0, 0
    for line in lines:
        taken += _lines_of(line)
        if taken > _LINES - (shown + 1 < len(lines)):  # a line is kept for "+3 more"
            break
        shown += 1
    nothing = (WallLine("nothing has to be left alone"),)
    tone: Tone = "danger" if lines else "safe"
    heading = f"LEAVE ALONE ({len(lines)})" if lines else "LEAVE ALONE"
    return WallPart(heading, tuple(lines[:shown]) or nothing, tone, len(lines) - shown)


def _lines_of(line: WallLine) -> int:
    """Large lines that it takes: one where both find room side by side."""
    text, small = cells(line.text), cells(line.small)
    return 1 if text + small <= _WIDE + 1 else ceil(text / _WIDE) + ceil(small / _WIDE)


def _going(board: Board) -> WallPart:
    tasks = [standing.task for standing in board.in_state("under way")]
    going = [task for task in tasks if people_at(board, task.id)]
    room = _NAMED if len(going) >= _GOING else 2 * _NAMED
    lines = [WallLine(_short(task.title, _BESIDE), _names(board, task.id, room)) for task in going]
    return _part("NOW", lines, _GOING, "nothing is under way")


def _here(board: Board) -> WallPart:
    names = [person(board.plan, visit.who) for visit in board.present]
    names += [f"{guest.name} (guest)" for guest in board.guests]
    if board.people_unknown is not None and not names:
        return WallPart("HERE", (WallLine(f"not known: {board.people_unknown.says}"),), "danger")
    if not names:
        return WallPart("HERE", (WallLine("nobody is signed in"),))
    return WallPart(f"HERE ({len(names)})", (WallLine("", _in_a_row(names, 3 * _NAMED)),))


def _coming(board: Board) -> WallPart:
    """What is due for a look now; and what ends or comes round next, today or on a later day."""
    entries = [(e, e.hold) for e in told_together(board) if e.hold is not None]
    due = [entry.name for entry, hold in entries if hold.stage == "due"]
    lines = [WallLine(_in_a_row([f"now: {due[0]}", *due[1:]], _BESIDE))] if due else []
    ahead = (moment for moment in moments(board) if moment.at > board.at)
    coming = [WallLine(f"{_at(m.at, board)}: {_short(m.text, _MOMENT)}") for m in ahead]
    if not coming:
        ends = ((e, h.until) for e, h in entries if h.stage == "running" and h.until is not None)
        coming = [WallLine(f"{_at(until, board)}: {_short(e.name, _BESIDE)}") for e, until in ends][
            :1
        ]
    return _part("NEXT LOOK", [*lines, *coming], _COMING, "nothing has to be looked at")


def _in_a_row(names: Sequence[str], room: int) -> str:
    """As many of the names as go into the room, the first one shortened, and how many more."""
    shown = _short(names[0], room)
    for at, name in enumerate(names[1:], 1):
        if cells(f"{shown}, {name}, +{len(names)} more") > room:
            return f"{shown}, +{len(names) - at} more"
        shown += f", {name}"
    return shown


def _at(moment: datetime, board: Board) -> str:
    return when(moment, board.at)


def _next_job(board: Board) -> WallPart:
    """What must follow soon; or, while there is anybody to do it, what the plan of the day that was
    taken over has next, else what goes first of what nobody is at; or when the shop opens next."""
    soon = must_follow_lines(board)
    if soon:
        return _part("NEXT JOB", [WallLine(_short(text, 2 * _BESIDE)) for text in soon], 1, "")
    if not (board.openings or board.present):
        opens = board.plan.vehicle.work_days.next_after(board.at)
        return WallPart("NEXT WORK DAY", (WallLine(day_in_words(opens) if opens else "not known"),))
    jobs = [
        board.plan.tasks[first.task]
        for first in what_goes_first(board)
        if not first.against and not people_at(board, first.task)
    ]
    lines = list(_planned(board, {task.id for task in jobs}))
    lines = lines or [WallLine(_short(t.title, _BESIDE), people_wanted(board, t)) for t in jobs[:1]]
    return _part("NEXT JOB", lines, 1, "nothing can be begun now")


def _planned(board: Board, can_begin: Collection[str]) -> Iterator[WallLine]:
    """What should be begun now by the plan that was taken over, and can be, with its people; where
    there is none, what comes next by it."""
    told = by_plan(board)
    now = [turn for turn in told.now if turn.task in can_begin]
    for turn in now or told.coming[:1]:
        names = _in_a_row(short_names(board.plan, turn.people), _NAMED - 6)
        at = "" if now else f"{turn.start:%H:%M} "
        yield WallLine(_short(title_of(board, turn), _BESIDE), f"{at}{names}")


def _names(board: Board, task: str, room: int) -> str:
    names = [person(board.plan, who) for who in on_it(board, task)]
    return _in_a_row(names, room) if names else ""


def _part(heading: str, lines: list[WallLine], most: int, nothing: str) -> WallPart:
    return WallPart(
        heading, tuple(lines[:most]) or (WallLine(nothing),), more=max(0, len(lines) - most)
    )


def _short(text: str, most: int = _LONGEST) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"
