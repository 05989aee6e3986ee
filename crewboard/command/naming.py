"""Which task, person, hold or entry is meant by what was typed.

A name may be typed in full, by the end of its id, or by words of its title, as long as only one
fits; otherwise the ones that fit, or the nearest, are said.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from crewboard.command.exits import NoSuch, Refused
from crewboard.folder.read.fault import nearest
from crewboard.logbook.acts import Temporary
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import same_name
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.said import day_and_time, name_of, together
from crewboard.plan.hazard import Hazard
from crewboard.plan.hold import KINDS
from crewboard.plan.piece import pieces_named
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.workbench import Workbench

_SHOWN = 6  # how many names that fit are said


def task(plan: Plan, typed: str) -> str:
    titles = {task.id: task.title for task in plan.tasks.values()}
    if len(ids := fitting(typed, titles)) > 1 and plan.series:
        raise several(typed, *_by_series(plan, ids))
    return one_of("task", typed, titles)


def _by_series(plan: Plan, ids: Sequence[str]) -> tuple[list[str], dict[str, str]]:
    """Names of tasks with their titles; where several of one series fit, and others, that series
    stands for them."""
    groups = together(plan, ids)
    alone = len(groups) == 1
    names = [plan.tasks[g[0]].series if len(g) > 1 and not alone else g[0] for g in groups]
    names = list(ids) if alone else names
    titles = {name: task.title for name in names if (task := _named_task(plan, name))}
    return names, titles


def _named_task(plan: Plan, name: str) -> Task | None:
    return plan.tasks.get(name) or plan.written(name)


def component(plan: Plan, typed: str) -> str:
    return one_of("component", typed, {part.id: part.name for part in plan.components.values()})


def person(plan: Plan, typed: str) -> str:
    return one_of(
        "person", typed, {volunteer.id: volunteer.name for volunteer in plan.crew.values()}
    )


def people(plan: Plan, typed: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(person(plan, name) for name in typed))


def piece(plan: Plan, typed: str) -> str:
    try:
        return one_of("piece", typed, {piece.id: piece.name for piece in plan.pieces.values()})
    except NoSuch as missing:
        raise NoSuch("piece", f'there is no piece "{typed}"', _nearest_piece(plan, typed)) from (
            missing
        )


def _nearest_piece(plan: Plan, typed: str) -> str:
    """What may have been meant: of several the table with its first and last number."""
    kind = re.sub(r"[\s/-]*\d[\d\s,-]*$", "", typed).casefold()
    for several, ids in plan.several.items():
        first = plan.pieces[ids[0]]
        called = {several, several.rpartition("/")[2], first.name.removesuffix(f" {first.number}")}
        if kind and kind in {name.casefold() for name in called}:
            return f"there are {ids[0]} to {ids[-1].rpartition('/')[2]}"
    single = [piece for piece in plan.pieces.values() if not piece.several]
    tables = [name for several in plan.several for name in (several, several.rpartition("/")[2])]
    return nearest(typed, [*(p.id for p in single), *(p.name for p in single), *tables])


def table_or_piece(plan: Plan, typed: str) -> str:
    """All of a kind by the id of their table, or one piece."""
    ends = [full for full in plan.several if typed == full or full.endswith(f"/{typed}")]
    return ends[0] if len(ends) == 1 else piece(plan, typed)


def pieces(plan: Plan, typed: Iterable[str]) -> tuple[str, ...]:
    """Each one piece, all of a kind, or some by their numbers: "ribs 1 to 9"."""
    named: dict[str, None] = {}
    files = dict.fromkeys(piece_id.partition("/")[0] for piece_id in plan.pieces)
    for name in typed:
        some = [ids for f in files if (ids := pieces_named(name, f, plan.pieces, plan.several))]
        only = len(set(some)) == 1
        named |= dict.fromkeys(some[0] if only else (piece(plan, name),))
    return tuple(named)


def other_work(plan: Plan, typed: str) -> str:
    """A kind of other work, as the crew names it."""
    kinds = plan.vehicle.other_work
    if not kinds:
        mend = f'add other_work = ["{typed}"] to vehicle.toml'
        raise NoSuch("kind of other work", "vehicle.toml names no kinds of other work yet", mend)
    return one_of("kind of other work", typed, {kind: kind for kind in kinds})


def guest(logbook: Logbook, typed: str) -> str:
    """A guest's name as it was first written, where one of that name ever came."""
    return guest_of_name(logbook, typed) or typed.strip()


def guest_of_name(logbook: Logbook, typed: str) -> str:
    """The guest of that name as it was first written; empty where none ever came."""
    from crewboard.order.hours.guests import guest_names  # few are guests

    return guest_names(logbook).get(same_name(typed), "")


def supply(plan: Plan, typed: str) -> str:
    return one_of("supply", typed, {supply.id: supply.name for supply in plan.supplies.values()})


def hold(board: Board, typed: str) -> str:
    """A hold by the id of the entry that started it, or by its task, piece or component.

    One that runs or is due goes before one that is over; of those over the last one is meant.
    """
    if typed in board.holds:
        return typed
    ids = [hold_id for hold_id in board.holds if len(typed) >= 3 and hold_id.startswith(typed)]
    if len(ids) == 1:
        return ids[0]
    stopping = board.stopping()
    over = sorted((h for h in board.holds.values() if not h.stops_work), key=lambda h: h.since)
    owner = _owner_of_hold(board, typed, stopping) or _owner_of_hold(board, typed, over)
    if not owner:
        known = _owners(board, [*stopping, *over])
        mend = nearest(typed, [*known, *known.values()])
        raise NoSuch("hold", f'there is no hold on "{typed}"', mend)
    meant = [hold for hold in stopping if _owner(hold) == owner]
    if len(meant) > 1:
        which = ", ".join(
            f"{KINDS[h.kind].words} since {day_and_time(h.since)}: {h.id}" for h in meant
        )
        title = _owners(board, meant)[owner]
        raise Refused(f'"{title}" has {len(meant)} holds: {which}', "name one by its id")
    return meant[0].id if meant else [hold for hold in over if _owner(hold) == owner][-1].id


def _owner_of_hold(board: Board, typed: str, holds: Iterable[StandingHold]) -> str:
    ids = fitting(typed, known := _owners(board, holds))
    if len(ids) > 1:
        raise several(typed, ids, known)
    return ids[0] if ids else ""


def _owner(hold: StandingHold) -> str:
    return hold.task or next(iter(hold.pieces), hold.component)


def _owners(board: Board, holds: Iterable[StandingHold]) -> dict[str, str]:
    """What the holds are on: id -> title."""
    return {_owner(hold): name_of(board.plan, _owner(hold)) for hold in holds}


def check(plan: Plan, task_id: str, typed: str) -> tuple[str, str]:
    """A safety check as (hazard, check): by its title, by "hot-work/screens", or by "screens" where
    only one fits."""
    hazards = plan.tasks[task_id].hazards if task_id else tuple(plan.hazards)
    sheets = [plan.hazards[name] for name in hazards if name in plan.hazards]
    if not task_id or "/" in typed:
        sheets = list(plan.hazards.values())
    known = _checks_of(sheets)
    if task_id and not fitting(typed, known):
        # Of a sheet that only joins in with who does the work: under-18s, somebody alone.
        known |= _checks_of(s for s in plan.hazards.values() if s.concerns in ("minors", "alone"))
    hazard, _, check_id = one_of("check", typed, known).partition("/")
    return hazard, check_id


def _checks_of(sheets: Iterable[Hazard]) -> dict[str, str]:
    """Checks by their full names: "hot-work/screens" -> "screens up"."""
    return {f"{sheet.id}/{check.id}": check.short for sheet in sheets for check in sheet.checks}


def entry(bench: Workbench, typed: str) -> tuple[Day, Entry]:
    """A line of the logbook by its id, or by a beginning of it that only one has."""
    lines = [
        (day, line)
        for day in bench.logbook.days.values()
        for line in day.entries
        if line.id.startswith(typed) and len(typed) >= 3
    ]
    exact = [pair for pair in lines if pair[1].id == typed]
    if len(exact or lines) == 1:
        return (exact or lines)[0]
    if lines:
        raise Refused(f'several entries are called "{typed}..."', "type more of the id")
    mend = "crewboard log DIR shows the entries with their ids"
    raise NoSuch("entry", f'there is no entry "{typed}"', mend)


def temporary(bench: Workbench, typed: str) -> str:
    """The entry that named something temporary: by its id, or by words of what it says."""
    told = {e.id: e.act.what for e in bench.logbook.counting() if isinstance(e.act, Temporary)}
    if typed in told:
        return typed
    if not fitting(typed, told):  # its words are told, by which it is found, and not the ids
        says = f'there is no temporary thing "{typed}"'
        raise NoSuch("temporary thing", says, nearest(typed, told.values()))
    return one_of("temporary thing", typed, told)


def one_of(thing: str, typed: str, known: Mapping[str, str]) -> str:
    """The only id that fits. Raises `Refused`, with the nearest names."""
    ids = fitting(typed, known)
    if len(ids) == 1:
        return ids[0]
    if ids:
        raise several(typed, ids, known)
    ends = {end for full in known if not (end := full.rpartition("/")[2]).isdecimal()}
    raise NoSuch(thing, f'there is no {thing} "{typed}"', nearest(typed, [*known, *ends]))


def fitting(typed: str, known: Mapping[str, str]) -> list[str]:
    """The ids that fit in the best way in which any does."""
    ids = fits_well(typed, known)
    if not ids and any(letter.isdigit() for letter in typed):  # "pane 1" is not pane 11
        ids = [some_id for some_id, title in known.items() if _has_whole(typed, some_id, title)]
    return ids or [some_id for some_id, title in known.items() if _has_words(typed, some_id, title)]


def fits_well(typed: str, known: Mapping[str, str]) -> list[str]:
    """Those that are called so: by the id, by its end, or by the title."""
    if typed in known:
        return [typed]
    for fits in (_ends, _is_title):
        ids = [some_id for some_id, title in known.items() if fits(typed, some_id, title)]
        if ids:
            return ids
    return []


def several(typed: str, ids: list[str], known: Mapping[str, str]) -> Refused:
    """Each by its title or a person's full name, with the short name that is typed."""
    shown = ", ".join(f'"{known[some_id]}" ({some_id})' for some_id in ids[:_SHOWN])
    more = f" and {len(ids) - _SHOWN} more" if len(ids) > _SHOWN else ""
    return Refused(f'"{typed}" fits several: {shown}{more}', "type more of the name")


def _ends(typed: str, some_id: str, _title: str) -> bool:
    return bool(typed) and some_id.casefold().endswith("/" + typed.casefold())


def _is_title(typed: str, some_id: str, title: str) -> bool:
    return typed.casefold() in (title.casefold(), some_id.casefold())


def _has_words(typed: str, some_id: str, title: str) -> bool:
    words = typed.casefold().split()
    among = f"{some_id} {title}".casefold()
    return bool(words) and all(word in among for word in words)


def _has_whole(typed: str, some_id: str, title: str) -> bool:
    """Whether all of its words are whole words of the id and the title."""
    among = set(re.findall(r"\w+", f"{some_id} {title}".casefold()))
    words = re.findall(r"\w+", typed.casefold())
    return bool(words) and among.issuperset(words)
