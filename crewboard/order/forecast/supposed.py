"""What the dates suppose that nobody has seen to yet, each by its name.

A task that nobody may do would never be done, a supply that nobody orders never come, a question
that nobody decides hold up its work for ever. The forecast goes on as if somebody were found, as if
it were ordered and decided; here stands each such thing, so that whoever reads the dates can see to
it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from copy import copy

from crewboard.order.board import Board, Standing
from crewboard.order.forecast.finish import Supposed
from crewboard.order.forecast.model import Attendance, FoundKind, Model
from crewboard.order.forecast.who_may import Crew
from crewboard.order.holds.words import quoted_hold
from crewboard.order.may.short import in_short
from crewboard.order.said import day_in_words, how_many, quoted_title
from crewboard.plan.hold import KINDS
from crewboard.plan.volunteer import Volunteer

# How many people are supposed where the crew list names nobody: a second pair of hands.
FOUND = 2
# So many people for one task come together on at least every so many-th work day, or else they are
# supposed to be asked to (common sense, no source): about once in a year of two work days a month.
SELDOM = 24


def supposed(board: Board, model: Model) -> tuple[Supposed, ...]:
    """All of it, what weighs most first; `model` is the job of the board that is played."""
    todo = [s for s in board.standings.values() if not s.work_done and s.state != "set aside"]
    return (
        *_people(board, todo),
        *_seldom_together(board, model),
        *_supplies(board, todo),
        *_words(board, todo),
    )


# --- people --------------------------------------------------------------------------------------


def with_somebody(board: Board) -> Board:
    """The board as it is, or with two people where nobody is in the crew list any more, or yet."""
    if Crew(board).people:
        return board
    today = board.at.date()
    found = {f"~{n}": Volunteer(f"~{n}", "", joined=today) for n in range(1, FOUND + 1)}
    other = copy(board)
    other.plan = board.plan._replace(crew={**board.plan.crew, **found})
    return other


def _people(board: Board, todo: Iterable[Standing]) -> Iterator[Supposed]:
    crew = Crew(board)
    if not crew.people:
        if any(True for _ in todo):
            people, why = how_many(FOUND, "person"), "the crew list names nobody"
            says = f"{people} are found for the work: {why}"
            yield Supposed("no crew", "", says, people, why)
        return
    for standing in todo:
        name = quoted_title(board.plan, standing.task.id)
        for obstacle in crew.supposed(standing.task):
            why = in_short(board, obstacle)
            says = f"somebody is found for {name}: {why}"
            yield Supposed("nobody may", standing.task.id, says, name, why)


def asked_to_come(model: Model) -> Model:
    """The model without tasks for which so many have to come at once as hardly ever do: that
    they are asked to come is supposed, and told. Of work that turns up it is not: nobody knows its
    name yet."""
    there, finds = model.attendance, model.finds
    work = [
        one._replace(least=_together(there, one.allowed, one.least)) if one.least > 1 else one
        for one in model.work
    ]
    if finds is not None:
        known: dict[FoundKind, FoundKind] = {
            kind: kind._replace(least=_together(there, kind.allowed, kind.least))
            for kind in {kind for kinds in finds.kinds for kind in kinds}
        }
        kinds = tuple(tuple(known[kind] for kind in kinds) for kinds in finds.kinds)
        finds = finds._replace(kinds=kinds)
    return model._replace(work=tuple(work), finds=finds)


def _seldom_together(board: Board, model: Model) -> Iterator[Supposed]:
    crew = Crew(board)
    for task, work in zip(model.tasks, model.work, strict=False):
        if task not in board.plan.tasks or not crew.people:
            continue
        needed = crew.least(board.plan.tasks[task])
        if work.least < needed:
            name, people = quoted_title(board.plan, task), how_many(needed, "person")
            why = f"so many who may do it come on fewer than one work day in {SELDOM}"
            says = f"{people} come together for {name} when its turn comes: {why}"
            yield Supposed("too few come", task, says, name, why)


def _together(attendance: Attendance, allowed: int, needed: int) -> int:
    """The most people, up to the fewest `needed` for a task, of whom so many that may do it come
    together often enough; each comes by chance, of which the record is the best guess."""
    if attendance.sure:
        return needed
    came = sum(p.came for p in attendance.people)
    days = came + sum(p.stayed_away for p in attendance.people)
    common, alike = (2.5 + came) / (5.0 + days), attendance.alike
    chances = [1.0]  # that so many come
    for number, person in enumerate(attendance.people):
        if not allowed >> number & 1:
            continue
        own = person.came + person.stayed_away
        comes = (person.came + alike * common) / (own + alike)
        chances = [
            here * (1 - comes) + before * comes
            for here, before in zip([*chances, 0.0], [0.0, *chances], strict=True)
        ]
    for least in range(needed, 1, -1):
        if sum(chances[least:]) * SELDOM >= 1:
            return least
    return 1


# --- supplies ------------------------------------------------------------------------------------


def _supplies(board: Board, todo: Iterable[Standing]) -> Iterator[Supposed]:
    """Those that work waits for: what nobody ordered, then what is overdue."""
    short = dict.fromkeys(supply for standing in todo for supply in standing.short_of)
    accounts = [board.stock[supply_id] for supply_id in short]
    for account in accounts:
        if account.unordered:
            name, lead = account.supply.name, account.supply.lead_time
            why = (
                f"it takes {lead} to come" if lead is not None else "nobody knows how long it takes"
            )
            says = f"{name} is ordered in time: nobody has yet, and {why}"
            yield Supposed("not ordered", account.supply.id, says, name, why)
    for account in accounts:
        if account.overdue and not account.unordered and account.promised is not None:
            name = account.supply.name
            why = f"promised for {day_in_words(account.promised)}"
            says = f"{name} comes by the next work day: it was {why}"
            yield Supposed("overdue", account.supply.id, says, name, why)


# --- what waits for a word -----------------------------------------------------------------------


def _words(board: Board, todo: Iterable[Standing]) -> Iterator[Supposed]:
    """Holds that only somebody's word ends: those that run, then those that work still to be done
    will start."""
    for hold in board.stopping():
        if hold.until is None:
            name = quoted_hold(board.plan, hold)
            over = KINDS[hold.kind].over
            note = f": {hold.note}" if hold.note else ""
            why = f"awaited since {day_in_words(hold.since)}{note}"
            what = hold.task or hold.component or next(iter(hold.pieces), "")
            says = f"{name} is {over} by the next work day: {why}"
            yield Supposed(f"not {over}", what, says, name, why)
    for standing in todo:
        to_come = standing.task.hold
        if to_come is not None and to_come.lasts is None:
            name = f"after {quoted_title(board.plan, standing.task.id)}"
            why = KINDS[to_come.kind].noun
            says = f"the {why} {name} is over within a few work days"
            kind = f"not {KINDS[to_come.kind].over}"
            yield Supposed(kind, standing.task.id, says, name, why)
