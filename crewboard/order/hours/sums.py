"""Hours summed by year: of each person and guest, component, piece and kind of other work.

Everything worked is in the sums of people and guests together, and again in those of components
and other work together; a piece's hours are also its component's. Each sum is the exact sum of its
lines, rounded once, so that neither their order nor a correction changes a digit of it.
"""

from collections.abc import Callable, Iterator
from datetime import datetime
from math import fsum
from typing import NamedTuple

from crewboard.logbook.acts import WorkedOn
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import same_name
from crewboard.order.hours.worked import Worked, worked
from crewboard.order.said import component_name, person, piece_name
from crewboard.plan.plan import Plan

TOLD_IN_A_NOTE = "told in a note"
"""Other work of no kind that the crew names."""


class SummedHours(NamedTuple):
    """The person-hours of one person, component, piece ..., by year and in all."""

    by: str  # "person", "guest", "component", "piece", "other work", "everything"
    id: str
    name: str
    years: dict[int, float]
    in_all: float


def sums(plan: Plan, logbook: Logbook, until: datetime | None = None) -> list[SummedHours]:
    """Every sum up to and with the moment `until`: by person, guest, component, piece and kind of
    other work, the most hours first in each; at last everything."""
    lines: dict[tuple[str, str], list[Worked]] = {}
    names: dict[tuple[str, str], str] = {}
    for line in worked(plan, logbook, until):
        for by, key, name in _sums_of(plan, line):
            lines.setdefault((by, key), []).append(line)
            names.setdefault((by, key), name)
    every = [_sum(by, key, names[by, key], lines[by, key]) for by, key in lines]
    order = list(_SUMMED)
    return sorted(every, key=lambda one: (order.index(one.by), -one.in_all, one.name.casefold()))


def _sum(by: str, key: str, name: str, lines: list[Worked]) -> SummedHours:
    years = sorted({line.day.year for line in lines})
    return SummedHours(
        by,
        key,
        name,
        {year: fsum(line.hours for line in lines if line.day.year == year) for year in years},
        fsum(line.hours for line in lines),
    )


def _sums_of(plan: Plan, line: Worked) -> Iterator[tuple[str, str, str]]:
    """The sums that a line adds to: by what, the id and the name."""
    for by, of in _SUMMED.items():
        if (named := of(plan, line)) is not None:
            yield by, *named


def _person(plan: Plan, line: Worked) -> tuple[str, str] | None:
    return (line.who, person(plan, line.who)) if line.who else None


def _guest(_plan: Plan, line: Worked) -> tuple[str, str] | None:
    return (same_name(line.guest), line.guest) if line.guest else None


def _component(plan: Plan, line: Worked) -> tuple[str, str] | None:
    main = main_component(plan, line.on)
    return (main, component_name(plan, main)) if main else None


def _piece(plan: Plan, line: Worked) -> tuple[str, str] | None:
    piece = piece_worked_on(plan, line.on)
    return (piece, piece_name(plan, piece)) if piece else None


def _other(plan: Plan, line: Worked) -> tuple[str, str] | None:
    if main_component(plan, line.on):
        return None
    return (line.on.other, line.on.other or TOLD_IN_A_NOTE)


def _everything(_plan: Plan, _line: Worked) -> tuple[str, str]:
    return "", "everything"


_SUMMED: dict[str, Callable[[Plan, Worked], tuple[str, str] | None]] = {
    "person": _person,
    "guest": _guest,
    "component": _component,
    "piece": _piece,
    "other work": _other,
    "everything": _everything,
}


def main_component(plan: Plan, on: WorkedOn) -> str:
    """The main component that hours are on; of what the plan does not know any more the beginning
    of its id, empty for other work."""
    task, piece = plan.tasks.get(on.task), plan.pieces.get(on.piece)
    home = task.component if task else piece.component if piece else on.component
    if home in plan.components:
        return plan.main_of(home).id
    return (home or on.task or on.piece).partition("/")[0]


def piece_worked_on(plan: Plan, on: WorkedOn) -> str:
    """The one piece that hours are on, by itself or as the only one of its task; empty where there
    is none, or where the task is done to several at once."""
    task = plan.tasks.get(on.task)
    return on.piece or (task.pieces[0] if task and len(task.pieces) == 1 else "")
