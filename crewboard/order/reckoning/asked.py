"""A reckoning that somebody asks for: what it is for, what it starts from, how it is kept."""

from collections.abc import Collection, Mapping
from typing import NamedTuple

from crewboard.logbook.acts import Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.reckoning.bends import own_bends
from crewboard.order.reckoning.kept import kept_on
from crewboard.order.reckoning.known import facts_of, known_for, next_of
from crewboard.trade.given import Given
from crewboard.trade.kind import KindOfReckoning, given_again, kept_given, kept_known, learned
from crewboard.trade.reckoning import Reckoning
from crewboard.trade.springback import of_species

_NAMED = 12  # ways that are told by number; of more how many they were


class For(NamedTuple):
    """What it is for: a task or a series by its id, a piece, a component; all empty where it is for
    nothing of the plan."""

    task: str = ""
    piece: str = ""
    component: str = ""


def filled_in(board: Board, kind: KindOfReckoning, typed: Mapping[str, str], of: For) -> Given:
    """What was typed, and what is known by now of what was not. What was typed as empty is not
    known. Raises Unread where the wood by which the shop's own bends are chosen is missing."""
    known = known_for(kind, facts_of(board, *of))
    said = {a.name for a in kind.asks if a.unless and typed.get(a.unless, "").strip()}
    known = {n: fact for n, fact in known.items() if typed.get(n) != "" and n not in said}
    given = Given(typed, board.plan.vehicle.units, known, asks=kind.asks)
    if not kind.from_bends:
        return given
    own = own_bends(board.logbook, board.at)
    return given._replace(bends=tuple(of_species(own, given.text(kind.from_bends))))


def to_keep(
    board: Board,
    kind: KindOfReckoning,
    given: Given,
    answer: Reckoning,
    of: For,
    *,
    before: str = "",
    note: str = "",
    looked: Collection[int] = (),
) -> Reckoned:
    """The entry that keeps an answer: of one for a series, with its first task still to do. Of
    several ways it says which was chosen, and which were looked at beside it."""
    return Reckoned(
        kind.name,
        answer.result[0],
        kept_given(kind, given),
        kept_known(kind, given),
        before,
        next_of(board, of.task) if of.task else "",
        of.piece,
        of.component,
        note,
        _way(kind, given, answer, looked),
    )


def _way(kind: KindOfReckoning, given: Given, answer: Reckoning, looked: Collection[int]) -> str:
    """ "way 2 of 17, looked at 1, 2, 3"; empty where there is only one."""
    ways = answer.figures.get("ways", 1) if kind.way else 1
    if not isinstance(ways, int) or ways < 2:
        return ""
    number = given._replace(asks=kind.asks).whole(kind.way)
    seen = sorted({number, *looked})
    named = ", ".join(map(str, seen)) if len(seen) <= _NAMED else f"{len(seen)} of them"
    return f"way {number} of {ways}, looked at {named}"


def was_for(act: Reckoned) -> For:
    """What a kept answer is for."""
    return For(act.task, act.piece, act.component)


def kept_for(board: Board, of: For) -> list[Entry]:
    """The answers kept for a task, for any of its series, for a piece or a component, latest first;
    of one that was reckoned anew only the last."""
    task = board.plan.tasks.get(next_of(board, of.task))
    if task is not None:
        kept = kept_on(board, task)
    else:
        entries = (entry for entry in board.logbook.record() if entry.at <= board.at)
        kept = [e for e in entries if isinstance(act := e.act, Reckoned) and was_for(act) == of]
    anew = {entry.act.before for entry in kept if isinstance(entry.act, Reckoned)}
    return [entry for entry in reversed(kept) if entry.id not in anew]


def started_from(act: Reckoned) -> Given:
    """What a kept answer started from. Raises Unread where a line of it cannot be read."""
    return given_again(act.given, act.known, "metric")


def learned_since(kind: KindOfReckoning, act: Reckoned, given: Given) -> list[str]:
    """What was given or known at the kept answer and not at the other, and the other way round."""
    now = (*kept_given(kind, given), *kept_known(kind, given))
    return learned((*act.given, *act.known), now)
