"""The lists that a form picks from: nothing has to be typed from memory."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board, Standing
from crewboard.order.said import component_name, how_many, table_name
from crewboard.order.supplies import supply_in_words
from crewboard.plan.component import Component
from crewboard.plan.hold import KINDS
from crewboard.plan.plan import Plan
from crewboard.plan.series import Series
from crewboard.telling.row import STATE_TONE
from crewboard.terminal.dialogs.pick import Choice


def order_choices(board: Board, but: str = "") -> list[Choice]:
    """Every component and task that work can come after, by main component."""
    plan, choices = board.plan, list[Choice]()
    tasks: dict[str, list[Standing]] = {}
    for standing in board.standings.values():
        tasks.setdefault(standing.task.component, []).append(standing)
    for component in _mains_first(plan):
        if not component.part_of:
            choices.append(Choice("", component.name))
        if component.id != but:
            extent = "all of it" if not component.part_of else "all of this part"
            choices.append(Choice(component.id, component.name, extent, "strong", component.id))
        listed = set[str]()
        for standing in tasks.get(component.id, ()):
            task = standing.task
            if task.series:
                if task.series not in {*listed, but}:
                    choices.append(_series_choice(plan.series[task.series], "  "))
                listed.add(task.series)
            elif task.id != but:
                tone = STATE_TONE[standing.state]
                choices.append(Choice(task.id, f"  {task.title}", standing.state, tone, task.id))
    return choices


def _mains_first(plan: Plan) -> list[Component]:
    stems = [c.id for c in plan.components.values() if not c.part_of]
    place = {stem: number for number, stem in enumerate(stems)}
    return sorted(plan.components.values(), key=lambda c: place[c.id.partition("/")[0]])


def hold_choices(board: Board, but: str = "") -> list[Choice]:
    """The tasks that a hold follows: those during whose hold other work may begin."""
    return [
        Choice(
            t.id, t.title, f"{t.hold.kind}{f', {t.hold.lasts}' if t.hold.lasts else ''}", find=t.id
        )
        for t in board.plan.all_written().values()
        if t.hold is not None and t.id != but
    ]


def part_choices(board: Board, stem: str, but: str = "") -> list[Choice]:
    """The parts of one main component."""
    below = board.plan.with_parts(but) if but in board.plan.components else set()
    return [
        Choice(c.id.partition("/")[2], c.name, find=c.id)
        for c in board.plan.components.values()
        if c.part_of and c.id.startswith(f"{stem}/") and c.id not in below
    ]


def home_choices(board: Board) -> list[Choice]:
    """Every component and part: where a task can belong."""
    return [
        Choice(c.id, f"{'  ' if c.part_of else ''}{c.name}", find=c.id)
        for c in _mains_first(board.plan)
    ]


def kind_choices() -> list[Choice]:
    """The kinds of holds, with what usually ends them."""
    ends = {"look": "ends with a look", "time": "ends by itself"}
    return [
        Choice(kind, kind, f"{known.words}; {ends[known.release]}") for kind, known in KINDS.items()
    ]


def guest_choices(board: Board) -> list[Choice]:
    """Everybody who ever came as a guest, by name."""
    from crewboard.order.hours.guests import guest_names

    return [Choice(name, name) for name in guest_names(board.logbook).values()]


def piece_choices(board: Board) -> list[Choice]:
    """Every piece of the vehicle, by component."""
    plan = board.plan
    return [
        Choice(piece.id, piece.name, component_name(plan, piece.component), find=piece.id)
        for piece in plan.pieces.values()
    ]


def kinds_of_pieces(board: Board) -> list[Choice]:
    """All of a kind at once, and every piece by itself, by component."""
    plan, choices = board.plan, list[Choice]()
    for some_id in dict.fromkeys(piece.several or piece.id for piece in plan.pieces.values()):
        of_them = [plan.pieces[one] for one in plan.several.get(some_id, (some_id,))]
        where = component_name(plan, of_them[0].component)
        if some_id in plan.several:
            all_of = f"all {len(of_them)} of them, {where}"
            choices.append(Choice(some_id, table_name(some_id), all_of, "strong", some_id))
            choices += [Choice(p.id, f"  {p.name}", find=p.id) for p in of_them]
        else:
            choices.append(Choice(some_id, of_them[0].name, where, find=some_id))
    return choices


def _series_choice(series: Series, indent: str = "") -> Choice:
    pieces = how_many(len(series.members), "piece")
    return Choice(
        series.id, f"{indent}{series.task.title}", f"for each of {pieces}", find=series.id
    )


def series_choices(board: Board, but: str = "") -> list[Choice]:
    """The tasks that are for each of several pieces."""
    return [_series_choice(series) for series in board.plan.series.values() if series.id != but]


def task_choices(board: Board, but: str = "") -> list[Choice]:
    """Every task as it is written, by component."""
    plan = board.plan
    return [
        Choice(task.id, task.title, component_name(plan, task.component), find=task.id)
        for task in plan.all_written().values()
        if task.id != but
    ]


def jig_choices(board: Board) -> list[Choice]:
    """The jigs, forms and stands that the vehicle's file names."""
    return [
        Choice(jig.id, jig.name, f"{jig.number} of them" if jig.number > 1 else jig.kept)
        for jig in board.plan.vehicle.jigs.values()
    ]


RELEASES = (
    Choice("time", "by itself", "when its time is up"),
    Choice("look", "with a look", "somebody checks and releases it"),
)


def skill_choices(board: Board) -> list[Choice]:
    """Every skill that a person has or a task asks for, with who has it."""
    plan = board.plan
    skilled: dict[str, list[str]] = {}
    for person in plan.crew.values():
        for skill in person.skills:
            skilled.setdefault(skill, []).append(person.name)
    for task in plan.tasks.values():
        for skill in task.skills:
            skilled.setdefault(skill, [])
    return [
        Choice(
            skill, skill, f"{len(skilled[skill])} in the crew" if skilled[skill] else "nobody yet"
        )
        for skill in sorted(skilled, key=str.casefold)
    ]


def hazard_choices(board: Board, own: Iterable[str]) -> list[Choice]:
    """Every hazard sheet there is, built in or the crew's own; `own` are the crew's ids."""
    mine = set(own)
    return [
        Choice(
            sheet.id,
            sheet.short,
            "do not use" if sheet.do_not_use else "the crew's own" if sheet.id in mine else "",
            find=f"{sheet.name} {sheet.id}",
        )
        for sheet in sorted(board.plan.sheets.values(), key=lambda sheet: sheet.short)
    ]


def not_used(board: Board, hazards: Iterable[str]) -> list[Refusal]:
    """Which of these no crew uses, and what is done instead."""
    sheets = (board.plan.sheets[hazard] for hazard in hazards if hazard in board.plan.sheets)
    return [
        Refusal("not-used", f"{sheet.short}: do not use", sheet.told(sheet.do_not_use).rstrip("."))
        for sheet in sheets
        if sheet.do_not_use
    ]


def supply_choices(board: Board) -> list[Choice]:
    return [
        Choice(supply.id, supply.name, supply_in_words(board.stock[supply.id]), find=supply.id)
        for supply in board.plan.supplies.values()
    ]


def place_choices(board: Board) -> list[Choice]:
    """The places that the vehicle's file names, and those that tasks name."""
    named = dict.fromkeys(board.plan.vehicle.shop.places)
    named |= dict.fromkeys(t.place for t in board.plan.tasks.values() if t.place)
    return [Choice(place, place) for place in named]


def certificate_choices(board: Board) -> list[Choice]:
    """The kinds of certificates that the crew holds or that hazard sheets ask for."""
    held = {c.kind for p in board.plan.crew.values() for c in p.certificates}
    asked = {n.kind for h in board.plan.hazards.values() for n in h.certificates}
    return [
        Choice(kind, kind, "asked for by a hazard sheet" if kind in asked else "")
        for kind in sorted(held | asked)
    ]


def beside_choices(board: Board, but: str = "") -> list[Choice]:
    """Who, or whose skill, may be needed beside somebody."""
    people = [Choice(p.id, p.name, "person") for p in board.plan.crew.values() if p.id != but]
    return [*people, *(c._replace(note="anybody with this skill") for c in skill_choices(board))]
