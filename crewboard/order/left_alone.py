"""What nobody may touch now: whatever sets, dries, soaks or is clamped, with what it keeps around
it, and the pieces that are kept for ever on what is worked on today.

One list for all who tell it: the work day, the talk, the sheets, the commands. It says nothing of
which tasks can be begun: that is `readiness`.
"""

from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

from crewboard.logbook.acts import Begun
from crewboard.logbook.entry import Said
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import stage_in_words
from crewboard.order.safety.signatures import signatures
from crewboard.order.said import component_name, pieces_in_words, quoted_title, shortly
from crewboard.plan.hold import KINDS
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task

_STOPPED = "clock stopped: "  # before why the clock of a hold stands still


class LeftAlone(NamedTuple):
    """Something that must not be touched now.

    `hold` is what keeps it so, None for pieces that are kept for ever. `component` is the component
    or part that it belongs to, of which the `whole` may have to be left alone; `pieces` are those
    that it is on, where the plan names them.
    """

    name: str
    component: str
    hold: StandingHold | None = None
    whole: bool = False
    pieces: tuple[str, ...] = ()

    @property
    def until(self) -> datetime | None:
        """When it ends by all that is known, past for one that is due for a look; None where only
        a person's word ends it, or nothing."""
        return (self.hold.until or self.hold.not_before) if self.hold else None


@lru_cache(maxsize=4)
def left_alone(board: Board) -> tuple[LeftAlone, ...]:
    """Everything that must not be touched at the board's moment: what ends soonest first, then what
    has no end of its own, then what is kept for ever."""
    held = [_held(board.plan, hold) for hold in board.stopping() if is_left_alone(hold)]
    held.sort(key=lambda entry: entry.until or datetime.max)
    return (*held, *_kept_for_ever(board))


@lru_cache(maxsize=4)
def told_together(board: Board) -> tuple[LeftAlone, ...]:
    """The same for whoever reads or hears it: pieces whose holds come from the same work on each
    and end on one day are one entry, whose hold is the one that ends last."""
    together: dict[object, LeftAlone] = {}
    for entry in left_alone(board):
        alike = _alike(board.plan, entry)
        before = together.get(alike)
        if before is not None:
            pieces = (*before.pieces, *entry.pieces)
            entry = entry._replace(name=pieces_in_words(board.plan, pieces), pieces=pieces)
        together[alike] = entry
    return tuple(together.values())


def _alike(plan: Plan, entry: LeftAlone) -> object:
    """What entries have in common that are told together; the entry itself where it stands
    alone."""
    return entry if entry.hold is None or entry.whole else alike(plan, entry.hold)


def alike(plan: Plan, hold: StandingHold) -> object:
    """What holds have in common that are told together: they come from the same work on several
    pieces, stand alike and end on one day; the hold's own id where it is told alone."""
    task = plan.tasks.get(hold.task)
    if task is None or not task.series or (hold.leave_alone and hold.component):
        return hold.id
    ends = hold.until.date() if hold.until else None
    return (task.series, hold.kind, hold.stage, ends, hold.outside is not None, bool(hold.unread))


def is_left_alone(hold: StandingHold) -> bool:
    """Whether what the hold is on must not be touched: something sets, dries or burns there, also
    while a look is due; not where only people or goods are awaited, unless that was said."""
    return hold.stops_work and (hold.leave_alone or not KINDS[hold.kind].awaited)


def _held(plan: Plan, hold: StandingHold) -> LeftAlone:
    whole = hold.leave_alone and bool(hold.component)
    if whole or not (hold.pieces or hold.task):
        name = component_name(plan, hold.component)
    elif hold.pieces:
        name = pieces_in_words(plan, hold.pieces)
    else:
        name = quoted_title(plan, hold.task)
    return LeftAlone(name, hold.component, hold, whole, hold.pieces)


def _kept_for_ever(board: Board) -> Iterator[LeftAlone]:
    tasks = {*signatures(board).worked, *(s.task.id for s in board.in_state("under way"))}
    return kept_beside(board.plan, tasks)


def kept_beside(plan: Plan, tasks: Iterable[str]) -> Iterator[LeftAlone]:
    """The pieces to keep as they are where these tasks are done: those that they name, and those on
    what is worked on; those of a kind together."""
    kept = [piece for piece in plan.pieces.values() if piece.keep]
    done = [plan.tasks[task] for task in tasks if task in plan.tasks] if kept else []
    named = {piece for task in done for piece in task.pieces}
    worked_on = _worked_on(plan, done)
    at_risk = (piece for piece in kept if piece.component in worked_on or piece.id in named)
    for (component, _), group in groupby(at_risk, key=lambda p: (p.component, p.several or p.id)):
        pieces = tuple(piece.id for piece in group)
        yield LeftAlone(pieces_in_words(plan, pieces), component, pieces=pieces)


def _worked_on(plan: Plan, tasks: Iterable[Task]) -> set[str]:
    """The components of these tasks, with their parts, and what they are parts of: a piece that is
    said of no part may be anywhere."""
    worked_on: set[str] = set()
    for component in {task.component for task in tasks}:
        worked_on.update(plan.with_parts(component))
        while component := plan.components[component].part_of:
            worked_on.add(component)
    return worked_on


def kept_at_begin(lines: Iterable[Said], board: Callable[[datetime], Board]) -> Iterator[str]:
    """A sentence for each thing to keep for ever where these lines begin work."""
    begun = {one.act.task: one.at for one in lines if isinstance(one.act, Begun)}
    if not begun:
        return
    now = board(max(begun.values()))
    for entry in kept_beside(now.plan, begun):
        whys = dict.fromkeys(now.plan.pieces[piece].why for piece in entry.pieces)
        why = "; ".join(filter(None, whys))
        yield f"LEAVE ALONE: {as_sentence(now, entry)}{f' ({why})' if why else ''}"


# --- in words ------------------------------------------------------------------------------------


def as_sentences(board: Board) -> list[str]:
    """Each with what is around it, why and until when, to be read out: 'Rear doors, the whole of
    it: "Glue up the doors", glue is setting, until 13:48'."""
    return [as_sentence(board, entry) for entry in told_together(board)]


def as_sentence(board: Board, entry: LeftAlone) -> str:
    """One of them, with why and until when."""
    return f"{entry.name}{_around(board.plan, entry)}: {why_in_words(board, entry)}"


def why_in_words(board: Board, entry: LeftAlone) -> str:
    """Why it must not be touched and until when, without its name."""
    if entry.hold is None:
        return "kept for ever as it is, never cut, stripped or painted over"
    stage = stage_in_words(board.plan, entry.hold, board.at)
    course = f"{KINDS[entry.hold.kind].words}, {stage}"
    task = board.plan.tasks.get(entry.hold.task)
    told = not entry.hold.task or entry.name == quoted_title(board.plan, entry.hold.task)
    if told or (task is not None and task.series):  # its pieces and what goes on say enough
        return course
    return f"{quoted_title(board.plan, entry.hold.task)}, {course}"


def _around(plan: Plan, entry: LeftAlone) -> str:
    """What is left alone around it; of one thing, where it is."""
    if entry.whole:
        parts = len(plan.with_parts(entry.component)) if entry.component in plan.components else 1
        return ", all of it with its parts" if parts > 1 else ", all of it"
    where = component_name(plan, entry.component)
    return f" ({where})" if where and where != entry.name else ""


def in_short(board: Board, entry: LeftAlone) -> str:
    """Its name and its end, for one line of many: "Rear doors until 13:48", "Roof clock stopped:
    too cold"."""
    return f"{entry.name} {end_in_short(entry, board.at)}"


def in_brief(entry: LeftAlone, now: datetime) -> tuple[str, str]:
    """Its name and its end in the fewest words: "Rear doors", "13:48"; "Arch 3", "due"; "Roof",
    "too cold": "stopped" alone could be read as that the hold is over."""
    end = end_in_short(entry, now).removeprefix("until ").removeprefix(_STOPPED)
    return entry.name.strip('"'), {"due for a look": "due"}.get(end, end)


def end_in_short(entry: LeftAlone, now: datetime) -> str:
    """ "until 13:48", "until Tue", "until 11 May", "due for a look", "clock stopped: too
    cold", "until released", "end not known", "for ever"."""
    hold = entry.hold
    if hold is None:
        return "for ever"
    if hold.stage == "due":
        return "due for a look"
    if hold.outside is not None:
        return f"{_STOPPED}{hold.outside.what}"
    if hold.unread:
        return "end not known"
    return f"until {shortly(hold.until, now)}" if hold.until else "until released"
