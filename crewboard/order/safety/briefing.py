"""The day's safety talk: dangers, gear, who may do what, who signs, what must end when."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, datetime
from typing import NamedTuple

from crewboard.logbook.acts import Begun
from crewboard.order.board import Board
from crewboard.order.left_alone import as_sentences
from crewboard.order.may.apart import keep_apart
from crewboard.order.may.needs import Needs, needs_of_hazards, under_18s
from crewboard.order.may.people import against_person
from crewboard.order.may.short import barred_because
from crewboard.order.presence import said_to_come
from crewboard.order.reckoning.kept import dangers_reckoned
from crewboard.order.safety.checks import hazards_of
from crewboard.order.safety.clocks import (
    clock_in_words,
    must_end_by,
    must_end_in_words,
    still_running,
)
from crewboard.order.safety.opening import FIRST_AID, first_aider_in_words
from crewboard.order.safety.signatures import may_answer_for
from crewboard.order.safety.signing import who_signs
from crewboard.order.said import listed, person, quoted_title, when
from crewboard.order.within import must_follow
from crewboard.order.within_words import by_in_words
from crewboard.plan.hazard import Check, Hazard
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Shop
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import Opening


class ToSign(NamedTuple):
    """A check of the talk: its words, whom the sheet wants to sign it, and who of those could."""

    check: Check
    says: str
    rule: str
    able: tuple[str, ...]  # names


class Danger(NamedTuple):
    """One hazard of the day, for the people of the day. All texts are ready to be read out."""

    hazard: Hazard
    tasks: tuple[str, ...]  # titles
    harm: tuple[str, ...]
    gear: tuple[str, ...]
    may: tuple[str, ...]  # names
    may_not: tuple[tuple[str, str], ...]  # name, why
    needs: tuple[str, ...]  # people and certificates that the work needs
    to_sign: tuple[ToSign, ...]
    keep_away: tuple[str, ...]  # other dangers of the day that may not be near
    if_wrong: tuple[str, ...]


class Briefing(NamedTuple):
    """What is said before the work begins. Names of people, titles of tasks: as in the plan."""

    vehicle: str
    day: date
    openings: tuple[Opening, ...]
    shop: Shop
    people: tuple[str, ...]  # who is here, or, before anybody is, the whole crew
    here: bool  # whether `people` have signed in
    expected: tuple[str, ...]  # who said that they come, and is not here yet
    leads: tuple[str, ...]
    first_aiders: tuple[str, ...]  # who of them could be
    first_aider: str  # who was named today, or why nobody was; empty before it is said
    under_18: tuple[str, ...]
    work: tuple[tuple[str, str, str], ...]  # title, place, dangers
    must_end: tuple[str, ...]
    running: tuple[str, ...]  # protective clocks that still run
    leave_alone: tuple[str, ...]  # what may not be touched, each with why and until when
    dangers: tuple[Danger, ...]
    watching: tuple[str, ...] = ()  # who watches which work, and nothing else
    reckoned: tuple[str, ...] = ()  # what answers that were kept for the work warn of


def briefing(board: Board, tasks: Iterable[str] | None = None) -> Briefing:
    """The talk for these tasks; for all that are under way or ready where none are given.

    Raises KeyError for an unknown task.
    """
    chosen = [
        board.plan.tasks[task_id] for task_id in (tasks if tasks is not None else _usual(board))
    ]
    people, here = _people(board)
    expected = _expected(board) if here else []
    day = board.at.date()
    crew = tuple(v.id for v in (*people, *expected))
    by_hazard: dict[str, list[Task]] = {}
    sheets: dict[str, Hazard] = {}
    for task in chosen:
        for hazard in hazards_of(board, task.id, crew):
            sheets[hazard.id] = hazard
            by_hazard.setdefault(hazard.id, []).append(task)
    return Briefing(
        vehicle=board.plan.vehicle.name,
        day=day,
        openings=board.openings,
        shop=board.plan.vehicle.shop,
        people=_names(people),
        here=here,
        expected=_names(expected),
        leads=_names(v for v in people if v.lead),
        first_aiders=_names(v for v in people if v.certificate(FIRST_AID, day)),
        first_aider=first_aider_in_words(board),
        under_18=_names(under_18s((*people, *expected), day)),
        work=tuple(
            (task.title, task.place, listed(h.short for h in hazards_of(board, task.id, ())))
            for task in chosen
        ),
        must_end=(*_ends(board, sheets.values()), *_must_follow(board)),
        running=tuple(_running(board)),
        leave_alone=tuple(as_sentences(board)),
        watching=tuple(_watching(board, chosen)),
        reckoned=tuple(dangers_reckoned(board, chosen)),
        dangers=tuple(
            _danger(board, sheets[each], titles, [*people, *expected], sheets)
            for each, titles in by_hazard.items()
        ),
    )


def todays_work(board: Board, count: int = 5) -> list[str]:
    """What a usual day's talk is about: what is under way, and what goes first of the ready."""
    from crewboard.order.ahead.first import what_goes_first

    going = [standing.task.id for standing in board.in_state("under way")]
    ready = [f.task for f in what_goes_first(board) if board[f.task].state == "ready"]
    return [*going, *ready[:count]]


def _watching(board: Board, tasks: Iterable[Task]) -> Iterator[str]:
    """Who watches what is under way; for work to come with such a check, that somebody must."""
    today = board.logbook.days.get(board.at.date())
    watched: dict[str, tuple[str, ...]] = {}
    for entry in today.events if today else ():
        if isinstance(entry.act, Begun) and entry.act.watch and entry.at <= board.at:
            watched[entry.act.task] = entry.act.watch
    for task in tasks:
        if task.id in watched and not board[task.id].work_done:
            names = listed(person(board.plan, who) for who in watched[task.id])
            yield f'"{task.title}": {names}'
        elif any(h.check("watcher") is not None for h in hazards_of(board, task.id)):
            yield f'"{task.title}": nobody yet; it is said at its begin'


def _usual(board: Board) -> list[str]:
    return [standing.task.id for standing in board.in_state("under way", "ready")]


def _people(board: Board) -> tuple[list[Volunteer], bool]:
    crew, day = board.plan.crew, board.at.date()
    present = [crew[visit.who] for visit in board.present if visit.who in crew]
    return (present, True) if present else ([v for v in crew.values() if v.with_us_on(day)], False)


def _expected(board: Board) -> list[Volunteer]:
    """Who said that they come today and was not here yet."""
    seen = {visit.who for visit in board.history.visits}
    return [board.plan.crew[who] for who in said_to_come(board) if who not in seen]


def _names(people: Iterable[Volunteer]) -> tuple[str, ...]:
    return tuple(volunteer.name for volunteer in people)


def _danger(
    board: Board,
    hazard: Hazard,
    tasks: list[Task],
    people: list[Volunteer],
    others: Iterable[str],
) -> Danger:
    day, needs = board.at.date(), needs_of_hazards([hazard])
    barred = [
        (v.name, barred_because(against))
        for v in people
        if (against := against_person(board, needs, v.id))
    ]
    names = {name for name, _ in barred}
    return Danger(
        hazard=hazard,
        tasks=tuple(task.title for task in tasks),
        harm=tuple(map(hazard.told, hazard.harm)),
        gear=tuple(map(hazard.told, hazard.gear)),
        may=tuple(v.name for v in people if v.name not in names),
        may_not=tuple(barred),
        needs=tuple(_needs(needs, people, day)),
        to_sign=tuple(
            ToSign(
                check,
                hazard.told(check.text),
                who_signs(check),
                _names(v for v in people if may_answer_for(v, hazard, check, day)),
            )
            for check in hazard.checks
        ),
        keep_away=tuple(
            board.plan.hazards[other].short
            for other in others
            if keep_apart(hazard, board.plan.hazards[other], beside=True)
        ),
        if_wrong=tuple(map(hazard.told, hazard.if_wrong)),
    )


def _needs(needs: Needs, people: list[Volunteer], day: date) -> list[str]:
    """People and certificates that the work needs, with who of these has one."""
    wants = [f"at least {needs.least} people"] if needs.least > 1 else []
    for asked in (*needs.each, *needs.one):
        able = listed(_names(v for v in people if asked.held_by(v, day)))
        kind = f'certificate "{asked.need.kind}"'
        wants.append(f"{asked.need.who} with the {kind} ({able or 'nobody of these'})")
    return wants


def _ends(board: Board, hazards: Iterable[Hazard]) -> list[str]:
    ends: list[tuple[datetime, str]] = []
    for hazard in hazards:
        latest = must_end_by(board, hazard)
        if latest is not None:
            end, clock, _ = latest
            ends.append((end, must_end_in_words(board, hazard, clock, end)))
    return [sentence for _, sentence in sorted(ends)]


def _must_follow(board: Board) -> list[str]:
    return [
        f"{quoted_title(board.plan, task)}, {by_in_words(board, follow)}"
        for task, follow in must_follow(board).items()
    ]


def _running(board: Board) -> list[str]:
    return [
        f"the {clock_in_words(board.plan, running.clock, running.task)} "
        + (f"runs until {when(running.until, board.at)}" if running.until else "has not started")
        for running in still_running(board)
    ]
