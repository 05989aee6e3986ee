"""Which task, person, hold or entry is meant by what was typed.

A name may be typed in full, by the end of its id, or by words of its title, as long as only one
fits; otherwise the ones that fit, or the nearest, are said.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from crewboard.command.exits import Refused
from crewboard.folder.read.fault import nearest
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.running import StandingHold
from crewboard.order.said import day_and_time, name_of
from crewboard.plan.hold import KINDS
from crewboard.plan.plan import Plan
from crewboard.workbench import Workbench

_SHOWN = 6  # how many names that fit are said


def task(plan: Plan, said: str) -> str:
    return _one("task", said, {each.id: each.title for each in plan.tasks.values()})


def component(plan: Plan, said: str) -> str:
    return _one("component", said, {each.id: each.name for each in plan.components.values()})


def person(plan: Plan, said: str) -> str:
    return _one("person", said, {each.id: each.name for each in plan.crew.values()})


def people(plan: Plan, said: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(person(plan, each) for each in said))


def supply(plan: Plan, said: str) -> str:
    return _one("supply", said, {each.id: each.name for each in plan.supplies.values()})


def hold(board: Board, said: str) -> str:
    """A hold by the id of the entry that started it, or by its task or component.

    One that runs or is due goes before one that is over; of those over the last one is meant.
    """
    if said in board.holds:
        return said
    ids = [hold_id for hold_id in board.holds if len(said) >= 3 and hold_id.startswith(said)]
    if len(ids) == 1:
        return ids[0]
    stopping = board.stopping()
    over = sorted((h for h in board.holds.values() if not h.stops_work), key=lambda h: h.since)
    owner = _owner_of_hold(board, said, stopping) or _owner_of_hold(board, said, over)
    if not owner:
        known = _owners(board, [*stopping, *over])
        raise Refused(f'there is no hold on "{said}"', nearest(said, [*known, *known.values()]))
    meant = [each for each in stopping if _owner(each) == owner]
    if len(meant) > 1:
        which = ", ".join(
            f"{KINDS[h.kind].words} since {day_and_time(h.since)}: {h.id}" for h in meant
        )
        title = _owners(board, meant)[owner]
        raise Refused(f'"{title}" has {len(meant)} holds: {which}', "name one by its id")
    return meant[0].id if meant else [each for each in over if _owner(each) == owner][-1].id


def _owner_of_hold(board: Board, said: str, holds: Iterable[StandingHold]) -> str:
    fitting = _fitting(said, known := _owners(board, holds))
    if len(fitting) > 1:
        raise _several(said, fitting, known)
    return fitting[0] if fitting else ""


def _owner(hold: StandingHold) -> str:
    return hold.task or hold.component


def _owners(board: Board, holds: Iterable[StandingHold]) -> dict[str, str]:
    """What the holds are on: id -> title."""
    return {_owner(each): name_of(board.plan, _owner(each)) for each in holds}


def check(plan: Plan, task_id: str, said: str) -> tuple[str, str]:
    """A safety check as (hazard, check): "hot-work/screens", or "screens" where only one fits."""
    hazards = plan.tasks[task_id].hazards if task_id else tuple(plan.hazards)
    sheets = [plan.hazards[each] for each in hazards if each in plan.hazards]
    if not task_id or "/" in said:
        sheets = list(plan.hazards.values())
    known = {f"{sheet.id}/{each.id}": each.text for sheet in sheets for each in sheet.checks}
    hazard, _, check_id = _one("check", said, known).partition("/")
    return hazard, check_id


def entry(bench: Workbench, said: str) -> tuple[Day, Entry]:
    """A line of the logbook by its id, or by a beginning of it that only one has."""
    found = [
        (day, each)
        for day in bench.logbook.days.values()
        for each in day.entries
        if each.id.startswith(said) and len(said) >= 3
    ]
    exact = [pair for pair in found if pair[1].id == said]
    if len(exact or found) == 1:
        return (exact or found)[0]
    if found:
        raise Refused(f'several entries are called "{said}..."', "type more of the id")
    raise Refused(
        f'there is no entry "{said}"', "crewboard log DIR shows the entries with their ids"
    )


def _one(thing: str, said: str, known: Mapping[str, str]) -> str:
    """The only id that fits. Raises `Refused`, with the nearest names."""
    fitting = _fitting(said, known)
    if len(fitting) == 1:
        return fitting[0]
    if fitting:
        raise _several(said, fitting, known)
    ends = {each.rpartition("/")[2]: each for each in known}
    raise Refused(f'there is no {thing} "{said}"', nearest(said, [*known, *ends]))


def _fitting(said: str, known: Mapping[str, str]) -> list[str]:
    """The ids that fit in the best way in which any does."""
    if said in known:
        return [said]
    for fits in (_ends, _is_title, _has_words):
        fitting = [each for each, title in known.items() if fits(said, each, title)]
        if fitting:
            return fitting
    return []


def _several(said: str, fitting: list[str], known: Mapping[str, str]) -> Refused:
    """Each by its title or a person's full name, with the short name that is typed."""
    shown = ", ".join(f'"{known[each]}" ({each})' for each in fitting[:_SHOWN])
    more = f" and {len(fitting) - _SHOWN} more" if len(fitting) > _SHOWN else ""
    return Refused(f'"{said}" fits several: {shown}{more}', "type more of the name")


def _ends(said: str, some_id: str, _title: str) -> bool:
    return bool(said) and some_id.casefold().endswith("/" + said.casefold())


def _is_title(said: str, some_id: str, title: str) -> bool:
    return said.casefold() in (title.casefold(), some_id.casefold())


def _has_words(said: str, some_id: str, title: str) -> bool:
    words = said.casefold().split()
    among = f"{some_id} {title}".casefold()
    return bool(words) and all(word in among for word in words)
