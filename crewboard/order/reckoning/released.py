"""A bend that comes off its form: what is known of it, and what it makes of the next form."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from crewboard.logbook.acts import Bent, Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.reckoning.asked import (
    For,
    filled_in,
    kept_for,
    learned_since,
    started_from,
)
from crewboard.order.reckoning.bends import bend_in
from crewboard.order.reckoning.known import facts_of, next_of
from crewboard.plan.as_typed import Unread
from crewboard.trade.kind import KindOfReckoning, reckon
from crewboard.trade.kinds import KINDS, kind_named
from crewboard.trade.reckoning import Reckoning
from crewboard.trade.springback import same_wood

_HOLD = "bend set"
_NEEDED = {"species": "which wood it was", "thickness": "how thick it was", "form": "its form"}


def bend_on(board: Board, hold: StandingHold) -> Bent | None:
    """What the folder says of the bend before anybody says what it came to: wood and thickness by
    the plan, the form as that of the last bend of this wood. None for a hold of anything else."""
    if hold.kind != _HOLD:
        return None
    task = board.plan.tasks.get(hold.task)
    pieces = hold.pieces or (task.pieces if task is not None else ())
    piece = pieces[0] if len(pieces) == 1 else ""
    facts = facts_of(board, hold.task, piece)
    species, thickness = (facts[n].typed if n in facts else "" for n in ("species", "thickness"))
    last = _last(board, species)
    form, chord, plies = (last.form, last.chord, last.plies) if last is not None else ("", "", None)
    return Bent(species, thickness, form, "", chord, plies, 0.0, "", hold.task, piece)


def _last(board: Board, species: str) -> Bent | None:
    entries = sorted(board.logbook.record(), key=lambda entry: entry.at)
    bends = [e.act for e in entries if isinstance(e.act, Bent) and e.at <= board.at]
    return next((act for act in reversed(bends) if same_wood(act.species, species)), None)


def bend_said(known: Bent, said: Mapping[str, Any]) -> Bent | None:
    """The bend with what was said of it; None where nobody says what it came to. Form and chord
    go together: who says the one says the other. Raises Unread where something is missing."""
    told = {name: value for name, value in said.items() if value not in (None, "")}
    if "came_to" not in told:
        return None
    if "form" in told or "chord" in told:
        known = known._replace(form="", chord="")
    bend = known._replace(**told)
    for name, missing in _NEEDED.items():
        if not getattr(bend, name):
            raise Unread(f"what the bend came to is kept with its wood and form: say {missing}")
    read = bend_in(bend)
    if read is not None and read.is_rise_and_radius:
        raise Unread(
            f"over a chord of {bend.chord} both are rises, of the form {bend.form} and of what it "
            f"came to {bend.came_to}; one of them looks like a radius",
            "measure both rises over the chord, or give both radii and no chord",
        )
    return bend


class FormByNow(NamedTuple):
    """A form that was kept for a bend still to be made: as it was kept, and as it is by now. `task`
    is the next that is still to do."""

    task: str
    kept: Entry
    before: Reckoning
    now: Reckoning
    because: tuple[str, ...]


def forms_by_now(board: Board, species: str) -> Iterator[FormByNow]:
    """The last answer of each kind that goes by the shop's own bends, for work still to do in this
    wood."""
    for some_id in dict.fromkeys(_reckoned_for(board)):
        yield from forms_for(board, some_id, species)


def forms_for(board: Board, some_id: str, species: str = "") -> Iterator[FormByNow]:
    """The same of one task or series; of any wood where none is named."""
    task = next_of(board, some_id)
    if board[task].work_done:
        return
    kinds = set[str]()
    for entry in kept_for(board, For(some_id)):
        act = entry.act
        assert isinstance(act, Reckoned)
        kind = kind_named(act.about) if act.about in KINDS else None
        if kind is None or not kind.from_bends or kind.name in kinds:
            continue
        kinds.add(kind.name)
        found = _by_now(board, kind, entry, task, species)
        if found is not None:
            yield found


def _reckoned_for(board: Board) -> Iterator[str]:
    """The series and single tasks for which answers were kept."""
    for entry in board.logbook.record():
        if isinstance(entry.act, Reckoned) and entry.at <= board.at:
            task = board.plan.tasks.get(entry.act.task)
            if task is not None:
                yield task.series or task.id


def _by_now(
    board: Board, kind: KindOfReckoning, entry: Entry, task: str, species: str
) -> FormByNow | None:
    """None where it is of another wood, or cannot be worked out any more."""
    act = entry.act
    assert isinstance(act, Reckoned)
    try:
        was = started_from(act)
        given = filled_in(board, kind, was.typed, For(task, act.piece))
        if species and not same_wood(given.text(kind.from_bends), species):
            return None
        before, now = reckon(kind, was), reckon(kind, given)
    except Unread:
        return None
    return FormByNow(task, entry, before, now, tuple(learned_since(kind, act, given)))
