"""The tables of the day sheet: who was there and how long on what, the work, the checks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil
from typing import NamedTuple

from crewboard.logbook.acts import (
    HOURS,
    Begun,
    CheckSigned,
    Finished,
    GuestHours,
    HoursWorked,
    SignIn,
    SignOut,
    WorkedOn,
    worked_on,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.visits import guest_visits, same_name
from crewboard.order.board import Board
from crewboard.order.safety.signatures import as_signed
from crewboard.order.said import (
    how_many,
    listed,
    on_in_words,
    person,
    quoted_title,
    signed_by,
    task_title,
)
from crewboard.telling.entry_words import put_down_in_words, words_of
from crewboard.telling.report import RuledTable, TableColumn

MOST_TASKS = 8  # beside one another in a table: more are told in a further one
_ON = "here"


def told(board: Board, entry: Entry) -> str:
    """What the entry says, and when it was put down where that was at another time."""
    put_down = put_down_in_words(entry)
    return words_of(board).of(entry) + (f" ({put_down})" if put_down else "")


def people_tables(board: Board, entries: list[Entry]) -> list[RuledTable]:
    """Everybody with when they came and left and their hours on each task: further tables where
    there are more tasks than stand side by side."""
    there = _who_was_there(board, entries)
    hours = _hours(entries, there)
    people = list(dict.fromkeys([*there, *(who for who, _ in hours)]))
    if not people:
        return []
    tasks = list(dict.fromkeys(task for _, task in hours))
    tasks.sort(key=lambda on: (not any(on), -sum(hours.get((who, on), 0.0) for who in people)))
    side_by_side = ceil(len(tasks) / max(1, ceil(len(tasks) / MOST_TASKS)))
    groups = [tasks[at : at + side_by_side] for at in range(0, len(tasks), side_by_side or 1)]
    return [
        _people_table(board, people, there if not number else {}, hours, tasks, group)
        for number, group in enumerate(groups or [[]])
    ]


def _people_table(
    board: Board,
    people: list[str],
    there: dict[str, str],
    hours: dict[tuple[str, WorkedOn], float],
    tasks: list[WorkedOn],
    group: list[WorkedOn],
) -> RuledTable:
    """One table; that of the first tasks, where `there` is told, has the sums of all."""
    columns = [TableColumn("who", 19), *([TableColumn(_ON, 14)] if there else [])]
    columns += [TableColumn(on_in_words(board.plan, on), right=True) for on in group]
    columns += [TableColumn("hours in all", 9, right=True)] if there or not group else []
    rows = []
    for who in people:
        row = [person(board.plan, who), *([there.get(who, "")] if there else [])]
        row += [_figure(hours.get((who, task), 0.0)) for task in group]
        if len(row) < len(columns):
            row.append(_figure(sum(hours.get((who, task), 0.0) for task in tasks)))
        rows.append(tuple(row))
    sums = [sum(hours.get((who, task), 0.0) for who in people) for task in group]
    last = ["in all", *([how_many(len(people), "person")] if there else []), *map(_figure, sums)]
    if len(last) < len(columns):
        last.append(_figure(sum(hours.values())))
    return RuledTable(tuple(columns), (*rows, tuple(last)), total=True)


def _figure(hours: float) -> str:
    return f"{hours:.10g}" if hours else ""


def _hours(entries: Iterable[Entry], there: Iterable[str]) -> dict[tuple[str, WorkedOn], float]:
    hours: dict[tuple[str, WorkedOn], float] = {}
    for entry in entries:
        if isinstance(entry.act, HOURS):
            key = (_who_worked(entry.act, there), worked_on(entry.act))
            hours[key] = hours.get(key, 0.0) + entry.act.hours
    return hours


def _who_worked(act: HoursWorked | GuestHours, there: Iterable[str]) -> str:
    """The id; of a guest the name as it stands among those who were there."""
    if isinstance(act, HoursWorked):
        return act.who
    guest = _a_guest(act.name)
    return next((who for who in there if same_name(who) == same_name(guest)), guest)


def _a_guest(name: str) -> str:
    return f"{name}, a guest"


def _who_was_there(board: Board, entries: list[Entry]) -> dict[str, str]:
    """When each came and left: "08:52 to 16:34", several times where they came again. Guests
    stand under their names."""
    put_down = {
        (entry.act.who, entry.at): f" ({words})"
        for entry in entries
        if isinstance(entry.act, SignIn | SignOut) and (words := put_down_in_words(entry))
    }
    times: dict[str, list[str]] = {}
    for visit in board.history.visits:
        since = f"{visit.since:%H:%M}{put_down.get((visit.who, visit.since), '')}"
        left = (
            f"{visit.until:%H:%M}{put_down.get((visit.who, visit.until), '')}"
            if visit.until
            else "(still here)"
        )
        times.setdefault(visit.who, []).append(f"{since} to {left}")
    for guest in guest_visits(board.logbook.days.get(board.at.date()), board.at):
        left = f"{guest.until:%H:%M}" if guest.until else "(still here)"
        times.setdefault(_a_guest(guest.name), []).append(f"{guest.since:%H:%M} to {left}")
    return {who: ", ".join(spans) for who, spans in times.items()}


def work_table(board: Board, entries: Iterable[Entry]) -> RuledTable:
    """A row for each task begun or finished that day."""
    begun: dict[str, list[str]] = {}
    finished: dict[str, list[str]] = {}
    for entry in entries:
        if isinstance(entry.act, Begun | Finished):
            of_kind = begun if isinstance(entry.act, Begun) else finished
            rest = _without_title(board, entry, entry.act.task)
            of_kind.setdefault(entry.act.task, []).append(f"{entry.at:%H:%M} {rest}".rstrip())
    rows = tuple(
        (task_title(board.plan, task), _joined(begun.get(task)), _joined(finished.get(task)))
        for task in dict.fromkeys([*begun, *finished])
    )
    columns = (TableColumn("task", 30), TableColumn("begun", 32), TableColumn("finished", 38))
    return RuledTable(columns, rows)


def _without_title(board: Board, entry: Entry, task: str) -> str:
    """What an entry of a task says behind its title and its verb."""
    words = told(board, entry).removeprefix(f"{quoted_title(board.plan, task)} ")
    return words.removeprefix("begun").removeprefix("finished").strip()


def _joined(lines: list[str] | None) -> str:
    return "; ".join(lines or ())


def checks_table(board: Board, entries: Iterable[Entry]) -> RuledTable:
    """What each signed, or found not to apply, in few words: a row for each who signed and what it
    was for, the moments one after the other, and at each its hazards."""
    signed: dict[tuple[str, str], dict[str, dict[str, list[str]]]] = {}
    for entry in entries:
        if isinstance(entry.act, CheckSigned):
            of = _check_of(board, entry, entry.act)
            at = signed.setdefault((of.signed, of.what), {}).setdefault(of.at, {})
            at.setdefault(of.hazard, []).append(of.check)
    rows = tuple(
        (*who_and_what, "; ".join(_at(moment, checks) for moment, checks in moments.items()))
        for who_and_what, moments in signed.items()
    )
    columns = (TableColumn("signed", 18), TableColumn("for", 26), TableColumn("checks", 56))
    return RuledTable(columns, rows)


def _at(moment: str, checks: dict[str, list[str]]) -> str:
    """ "10:31 oily rags: in the can; young people: adult still beside"."""
    of = ((f"{hazard}: " if hazard else "") + ", ".join(few) for hazard, few in checks.items())
    return f"{moment} {'; '.join(of)}"


class _CheckOf(NamedTuple):
    """A signature in words: who, what and whom it was for, the hazard of a task, the check."""

    at: str
    signed: str
    what: str
    hazard: str
    check: str


def _check_of(board: Board, entry: Entry, act: CheckSigned) -> _CheckOf:
    plan = board.plan
    sheet = plan.hazards.get(act.hazard)
    check = sheet.check(act.check) if sheet else None
    act = as_signed(check, act, entry.by) if check else act
    what = task_title(plan, act.task) if act.task else "the shop"
    what += f", for {person(plan, act.concerns)}" if act.concerns else ""
    named = listed(person(plan, who) for who in act.named)
    notes = [
        "" if act.applies else "does not apply",
        f"named: {named}" if named else "",
        *(act.why, entry.despite, put_down_in_words(entry)),
    ]
    note = "; ".join(filter(None, notes))
    hazard = (sheet.short if sheet else act.hazard) if act.task else ""
    words = (check.short if check else act.check) + (f" ({note})" if note else "")
    signed = signed_by(plan, act.who, entry.by)
    return _CheckOf(f"{entry.at:%H:%M}", signed, what, hazard, words)


def hours_told(board: Board, entries: Iterable[Entry], marks: dict[str, str]) -> Iterator[str]:
    """The hours of which more is to be said than their number: a note, a mark."""
    for entry in entries:
        if isinstance(entry.act, HOURS):
            mark = f" - {marks[entry.id]}" if entry.id in marks else ""
            if mark or entry.act.note or put_down_in_words(entry) or not entry.act.task:
                yield told(board, entry) + mark
