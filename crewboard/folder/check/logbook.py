"""The logbook against the plan and against itself: names, ids, corrections, holds."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple

from crewboard.folder.read.fault import MOST_HINTS, Remark, nearest
from crewboard.folder.read.files import (
    COMPONENTS,
    CREW,
    DAYS,
    HAZARDS,
    SUPPLIES,
    VEHICLE,
    day_path,
    file_of,
)
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.hazard_sheets import hazard_ids
from crewboard.folder.read.own_file import wrong_file
from crewboard.logbook.acts import (
    CheckSigned,
    Extended,
    Finished,
    HoldStarted,
    Released,
    TakenBack,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fates import rings
from crewboard.logbook.fields import named_by


class _Hints:
    """The nearest names: each looked for once, and only for so many."""

    def __init__(self) -> None:
        self._found: dict[tuple[str, str], str] = {}

    def of(self, thing: str, name: str, known: Iterable[str], otherwise: str = "") -> str:
        if (thing, name) not in self._found:
            if len(self._found) >= MOST_HINTS:
                return otherwise
            near = nearest(name, known)
            self._found[thing, name] = near if near.startswith("did") else otherwise
        return self._found[thing, name]


class _Known(NamedTuple):
    """The names of one thing, and the file in which they stand."""

    thing: str
    names: Collection[str]
    file: str

    def file_of(self, name: str) -> str:
        """Where the name would stand."""
        return self.file or file_of(name)


class _Unknown(NamedTuple):
    """A name of nothing, and the first entry that says it."""

    known: _Known
    day: Day
    entry: Entry
    key: str


def names_of_nothing(folder: Folder) -> Iterator[Remark]:
    """Names of people, tasks, supplies, checks or holds that there are not: each once, at the
    first entry that says it."""
    plan = folder.plan
    known = {
        "person": _Known("person", plan.crew, CREW),
        "task": _Known("task", plan.tasks, ""),
        "component": _Known("component", plan.components, ""),
        "piece": _Known("piece", plan.pieces, ""),
        "kind of other work": _Known("kind of other work", plan.vehicle.other_work, VEHICLE),
        "supply": _Known("supply", plan.supplies, SUPPLIES),
        "hazard sheet": _Known("hazard sheet", hazard_ids(folder.own_hazards), HAZARDS),
    }
    started, hints, root = _started(folder), _Hints(), os.fspath(folder.root)
    first: dict[tuple[str, str], _Unknown] = {}
    times: Counter[tuple[str, str]] = Counter()
    for day in folder.logbook.days.values():
        for entry in standing(day):
            for thing, name, key in _named(entry):
                if thing in known and name not in known[thing].names:
                    first.setdefault((thing, name), _Unknown(known[thing], day, entry, key))
                    times[thing, name] += 1
                elif thing == "picture" and (wrong := wrong_file(root, name)):
                    path = ("entries", entry.id, key)
                    yield Remark(day_path(day.date), path, "picture", *wrong)
            yield from _unknown_hold(day, entry, started, hints)
            yield from _unknown_check(folder, day, entry, hints)
    for (thing, name), unknown in first.items():
        yield _of_nothing(unknown, name, times[thing, name], hints)


def _named(entry: Entry) -> Iterator[tuple[str, str, str]]:
    """What an entry names: what kind of thing, its name, and by which key."""
    if entry.by:
        yield "person", entry.by, "by"
    for named in named_by(entry.act):
        yield named.thing, named.id, named.field


def standing(day: Day) -> Iterator[Entry]:
    """The lines that were neither corrected nor taken back: only those have to be right."""
    fates = day.fate() if any(e.replaces or type(e.act) is TakenBack for e in day.entries) else {}
    return (entry for entry in day.entries if entry.id not in fates)


def _of_nothing(unknown: _Unknown, name: str, times: int, hints: _Hints) -> Remark:
    known, day, entry, key = unknown
    more = {1: "", 2: "; 1 more entry names it"}.get(times, f"; {times - 1} more entries name it")
    sentence = f'there is no {known.thing} "{name}"{more}'
    otherwise = "correct the entry, or bring the name back into the plan"
    hint = hints.of(known.thing, name, known.names, otherwise)
    path, rests_on = ("entries", entry.id, key), (known.file_of(name),)
    return Remark(day_path(day.date), path, "unknown-name", sentence, hint, rests_on=rests_on)


def _started(folder: Folder) -> set[str]:
    """What a hold may be called: the entry that started it, or a task the plan calls finished."""
    entries = folder.logbook.counting()
    ids = {entry.id for entry in entries if isinstance(entry.act, Finished | HoldStarted)}
    return ids | {task.id for task in folder.plan.tasks.values() if task.finished is not None}


def _unknown_hold(day: Day, entry: Entry, started: set[str], hints: _Hints) -> Iterator[Remark]:
    act = entry.act
    if isinstance(act, Extended | Released) and act.hold not in started:
        sentence = f'no entry "{act.hold}" starts a hold'
        otherwise = "take the entry back, or name the hold"
        hint = hints.of("hold", act.hold, started, otherwise)
        path = ("entries", entry.id, "hold")
        file, rests_on = day_path(day.date), (DAYS, COMPONENTS)
        yield Remark(file, path, "no-hold", sentence, hint, rests_on=rests_on)


def _unknown_check(folder: Folder, day: Day, entry: Entry, hints: _Hints) -> Iterator[Remark]:
    act = entry.act
    if not isinstance(act, CheckSigned):
        return
    sheet = folder.plan.hazards.get(act.hazard)
    if sheet is not None and sheet.check(act.check) is None:
        sentence = f'the sheet "{act.hazard}" has no check "{act.check}"'
        hint = hints.of(act.hazard, act.check, (check.id for check in sheet.checks))
        path = ("entries", entry.id, "check")
        file, rests_on = day_path(day.date), (HAZARDS,)
        yield Remark(file, path, "unknown-name", sentence, hint, rests_on=rests_on)


def twice_named(folder: Folder) -> Iterator[Remark]:
    """Entry ids in the files of two days: what refers to one could mean either."""
    seen: dict[str, Day] = {}
    twice: dict[tuple[date, date], list[str]] = {}
    for day in folder.logbook.days.values():
        for entry in day.entries:
            first = seen.setdefault(entry.id, day)
            if first is not day:
                twice.setdefault((day.date, first.date), []).append(entry.id)
    for (later, first_date), ids in twice.items():
        are = f"and {len(ids) - 1} more are also entries" if len(ids) > 1 else "is also an entry"
        sentence = f'"{ids[0]}" {are} of {day_path(first_date)}'
        hint = "remove them from the day that they are not of, or give one of the two another id"
        yield Remark(day_path(later), ("entries", ids[0]), "twice", sentence, hint)


def lines_that_clash(folder: Folder) -> Iterator[Remark]:
    """Corrections of nothing, taking-backs of nothing, and two corrections of one line."""
    hints = _Hints()
    for day in folder.logbook.days.values():
        if any(entry.replaces or isinstance(entry.act, TakenBack) for entry in day.entries):
            yield from _clashes(day, {entry.id: entry for entry in day.entries}, hints)


def _clashes(day: Day, lines: Mapping[str, Entry], hints: _Hints) -> Iterator[Remark]:
    for line_id in rings(lines):
        sentence = f'"{line_id}" is replaced or taken back by itself, in a ring'
        hint = "remove one line of the ring"
        yield Remark(day_path(day.date), ("entries", line_id), "ring", sentence, hint)
    fates = day.fate()
    corrected: dict[str, str] = {}
    for entry in day.entries:
        file, path = day_path(day.date), ("entries", entry.id)
        act = entry.act
        if isinstance(act, TakenBack) and act.entry not in lines:
            sentence = f'this takes back "{act.entry}", which is no entry of this day'
            hint = hints.of("entry", act.entry, lines)
            yield Remark(file, (*path, "entry"), "no-entry", sentence, hint)
        if not entry.replaces:
            continue
        if entry.replaces not in lines or entry.replaces == entry.id:
            sentence = f'this replaces "{entry.replaces}", which is no other entry of this day'
            hint = hints.of("entry", entry.replaces, lines)
            yield Remark(file, (*path, "replaces"), "no-entry", sentence, hint)
        elif (other := corrected.get(entry.replaces)) is not None:
            if _taken_back(fates.get(entry.id), lines) or _taken_back(fates.get(other), lines):
                continue
            counts = other if entry.id in fates else entry.id
            sentence = f'"{other}" and "{entry.id}" both correct "{entry.replaces}"'
            hint = f'"{counts}" counts; take the wrong one back'
            yield Remark(file, path, "two-corrections", sentence, hint)
        else:
            corrected[entry.replaces] = entry.id


def corrected_and_taken_back(folder: Folder) -> Iterator[Remark]:
    """Corrections that do not count, since the line that they correct was taken back."""
    for day in folder.logbook.days.values():
        if not any(isinstance(entry.act, TakenBack) for entry in day.entries):
            continue
        lines = {entry.id: entry for entry in day.entries}
        fates = day.fate()
        for entry in day.entries:
            taker = lines.get(fates.get(entry.id, "")) if entry.replaces else None
            if taker and isinstance(taker.act, TakenBack) and taker.act.entry != entry.id:
                sentence = f'"{entry.id}" corrects what "{taker.id}" takes back, and does not count'
                hint = f'take "{taker.id}" back if the correction should count'
                path = ("entries", entry.id)
                yield Remark(day_path(day.date), path, "corrected-and-taken-back", sentence, hint)


def _taken_back(fate: str | None, lines: Mapping[str, Entry]) -> bool:
    return fate is not None and fate in lines and isinstance(lines[fate].act, TakenBack)
