"""Work that goes on with too few people: who would be taken from it, and who has left it."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.may.moment import clocks_running, dangers_going_on
from crewboard.order.may.needs import Needs, needs_of_hazards
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.party import (
    Party,
    lacking,
    lacking_too,
    parties,
    parties_as_begun,
)
from crewboard.plan.hazard import Hazard


class LeftShort(NamedTuple):
    """A task that is worked on, and what it lacks; without a task: one person alone in the shop."""

    task: str
    lacks: Obstacle


def left_by(
    board: Board, after: Mapping[str, Party], task_id: str, people: Sequence[str]
) -> Iterator[Obstacle]:
    """Dangerous work elsewhere that these people would leave too few, unwatched, without the adult
    beside: nobody is counted twice."""
    before = parties(board)
    for other, party in before.items():
        now = after.get(other, Party())
        gone = tuple(who for who in people if who in party.everybody)
        if other == task_id or not gone:
            continue
        for needs, strict in _asked_of(board, other, party):
            known = set(lacking(board, needs, party))
            worse = [lack for lack in lacking(board, needs, now) if lack not in known]
            if worse:
                yield Obstacle("busy", gone, task=other, hazard=worse[0].hazard, strict=strict)
                break


def left_short(board: Board) -> list[LeftShort]:
    """What goes on now and lacks somebody, and who is left alone in the shop."""
    short = []
    begun = parties_as_begun(board)
    for task_id, party in parties(board).items():
        before = begun[task_id]
        asked = [needs for needs, _ in _asked_of(board, task_id, before)]
        lacks = [lack for needs in asked for lack in lacking(board, needs, party)]
        if party.crew and set(before.everybody) - set(party.everybody):
            for needs in asked or [Needs()]:
                lacks += lacking_too(board, needs, party)
        short += [LeftShort(task_id, lack) for lack in dict.fromkeys(lacks)]
    here = [visit.who for visit in board.present]
    if len(here) == 1 and (len(board.history.visits) > 1 or _is_on_something(board, here[0])):
        short.append(LeftShort("", Obstacle("alone", (here[0],))))
    return short


def _is_on_something(board: Board, who: str) -> bool:
    return any(who in party.everybody for party in parties(board).values())


def _asked_of(board: Board, task_id: str, party: Party) -> Iterator[tuple[Needs, bool]]:
    """What the dangers of a task ask that go on now, and, once its work has ended, its watch."""
    going = _going_on(board).get(task_id, ())
    if going:
        needs = needs_of_hazards(going)
        yield needs, needs.dangerous
    watched = [
        running.hazard
        for running in clocks_running(board)
        if running.task == task_id
        and running.started
        and running.clock.guards == "closing"
        and running.hazard.watch
        and running.hazard not in going
    ]
    if watched and party.watch:  # whom nobody named nobody misses
        needs = needs_of_hazards(watched)
        yield Needs(watched=needs.watched), False


@lru_cache(maxsize=4)
def _going_on(board: Board) -> dict[str, list[Hazard]]:
    going: dict[str, list[Hazard]] = {}
    for task_id, hazard in dangers_going_on(board):
        going.setdefault(task_id, []).append(hazard)
    return going
