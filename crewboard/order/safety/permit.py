"""Whether a task may be begun, as far as safety goes, and how to mend what stands against it.

Nothing here yields to a word: a check that does not apply is signed as such with the reason, and
a rule that does not fit the crew is changed in its hazards.toml with name and reason.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.order.board import Board
from crewboard.order.refusal import Refusal
from crewboard.order.safety.certificates import holds, last_day
from crewboard.order.safety.checks import Asked, checks_of, going_on, hazards_of
from crewboard.order.safety.clocks import ProtectiveClock, must_end_by, still_running
from crewboard.order.safety.closing import closed_at
from crewboard.order.safety.signing import who_may_sign
from crewboard.order.said import day_in_words, how_many, listed, person
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer


def begin_refusals(board: Board, task_id: str, people: Sequence[str]) -> list[Refusal]:
    """What the safety sheets have against these people beginning the task at the board's moment.

    `people` are all who will be on it. Empty for a task without dangers. Raises KeyError for an
    unknown task.
    """
    hazards = hazards_of(board, task_id, people)
    if not hazards:
        return []
    task = board.plan.tasks[task_id]
    if not people:
        says = f'"{task.title}" has dangers ({listed(h.short for h in hazards)}): say who does it'
        return [Refusal("who", says, "name the people on it")]
    found = _closed(board)
    found += _too_young(board, hazards, people)
    found += [r for hazard in hazards for r in _certificates(board, hazard, people)]
    found += _too_few(board, hazards, people)
    found += _near(board, task, hazards)
    found += _too_early(board, task, hazards)
    found += _too_late(board, hazards)
    found += [
        _unsigned(board, each) for each in checks_of(board, task_id, people, "before") if each.open
    ]
    return found


def _closed(board: Board) -> list[Refusal]:
    """A closed day is closed for work said afterwards to have begun before, too."""
    closed = closed_at(board)
    if closed is None:
        return []
    says = f"the day was closed at {closed:%H:%M}"
    return [Refusal("day-closed", says, "take the closing back first")]


def _too_young(board: Board, hazards: Iterable[Hazard], people: Iterable[str]) -> list[Refusal]:
    day = board.at.date()
    young = [v for who in people if (v := board.plan.crew.get(who)) and v.minor_on(day)]
    return [
        Refusal("under-18", _too_young_for(volunteer, hazard), "give the work to adults")
        for hazard in hazards
        if not hazard.under_18
        for volunteer in young
    ]


def _too_young_for(volunteer: Volunteer, hazard: Hazard) -> str:
    why = hazard.told(hazard.under_18_why)
    return f"{hazard.short}: {volunteer.name} is under 18{'. ' if why else ''}{why.rstrip('.')}"


def _certificates(board: Board, hazard: Hazard, people: Sequence[str]) -> list[Refusal]:
    found = []
    for need in hazard.certificates:
        without = [who for who in people if not _holds(board, who, need, hazard)]
        if need.who == "each":
            found += [_lacks(board, who, need, hazard) for who in without]
        elif len(without) == len(people):
            says = f'{hazard.short}: nobody on the task holds the certificate "{need.kind}"'
            found.append(Refusal("certificate", says, _holders(board, need, hazard)))
    return found


def _holds(board: Board, who: str, need: CertificateNeed, hazard: Hazard) -> bool:
    volunteer = board.plan.crew.get(who)
    return volunteer is not None and holds(volunteer, need, hazard, board.at.date())


def _lacks(board: Board, who: str, need: CertificateNeed, hazard: Hazard) -> Refusal:
    volunteer = board.plan.crew.get(who)
    had, until = last_day(volunteer, need, hazard) if volunteer else (False, None)
    name = person(board.plan, who)
    if had and until is not None and until < board.at.date():
        lapsed = day_in_words(until)
        says = f'{hazard.short}: {name}\'s certificate "{need.kind}" lapsed on {lapsed}'
    else:
        says = f'{hazard.short}: {name} has no certificate "{need.kind}"'
    return Refusal("certificate", says, _holders(board, need, hazard))


def _holders(board: Board, need: CertificateNeed, hazard: Hazard) -> str:
    """Who could do it instead."""
    day = board.at.date()
    able = [
        v.name
        for v in board.plan.crew.values()
        if holds(v, need, hazard, day) and (hazard.under_18 or not v.minor_on(day))
    ]
    if not able:
        return (
            "nobody of the crew holds it: leave this work to those who do; "
            "a certificate that somebody has is written into crew.toml"
        )
    return f"{listed(able)} {'holds' if len(able) == 1 else 'hold'} it"


def _too_few(board: Board, hazards: Iterable[Hazard], people: Iterable[str]) -> list[Refusal]:
    """Everyone on dangerous work is signed in: the sign-in is what is counted by after a fire."""
    present = {visit.who for visit in board.present}
    named = tuple(dict.fromkeys(people))
    here = sum(who in present for who in named)
    away = listed(person(board.plan, who) for who in named if who not in present)
    found = []
    if away:
        verb = "is" if len(named) - here == 1 else "are"
        found.append(Refusal("people", f"{away} {verb} not signed in", f"sign in {away}"))
    for hazard in hazards:
        if here < hazard.people:
            wanted = f"{how_many(hazard.people, 'person')} {'is' if hazard.people == 1 else 'are'}"
            says = (
                f"{hazard.short}: at least {wanted} needed, {here} of the task "
                f"{'is' if here == 1 else 'are'} here"
            )
            mend = f"sign in {away}" if away else "name one more person who is here"
            found.append(Refusal("people", says, mend))
    return found


def _near(board: Board, task: Task, hazards: Sequence[Hazard]) -> list[Refusal]:
    """Dangers going on elsewhere that may not be near; either sheet may say so."""
    found: dict[str, Refusal] = {}
    for other_id, other in going_on(board):
        if other_id == task.id:
            continue
        for hazard in hazards:
            if _keeps_away(hazard, other) and _is_near(board, task, hazard, other_id, other):
                title = board.plan.tasks[other_id].title
                says = f'{hazard.short} may not be near {other.short}: "{title}" is under way'
                mend = "wait until it has ended and its after-checks are signed"
                found[says] = Refusal("near", says, mend)
    return list(found.values())


def _keeps_away(one: Hazard, other: Hazard) -> bool:
    return other.id in one.not_near or one.id in other.not_near


def _is_near(board: Board, task: Task, hazard: Hazard, other_id: str, other: Hazard) -> bool:
    """The whole shop is near, unless every sheet that says so means the same place only."""
    saying = [one for one, two in ((hazard, other), (other, hazard)) if two.id in one.not_near]
    if any(sheet.near == "shop" for sheet in saying):
        return True
    return _same_place(board, task, other_id)


def _same_place(board: Board, task: Task, other_id: str) -> bool:
    """Work without a named place could be anywhere, so it counts as the same place."""
    other = board.plan.tasks[other_id]
    return not task.place or not other.place or task.place == other.place


def _too_early(board: Board, task: Task, hazards: Iterable[Hazard]) -> list[Refusal]:
    """Clocks of earlier work that must have run out first."""
    after = {other for hazard in hazards for other in hazard.not_after}
    found: dict[str, Refusal] = {}
    for each in still_running(board):
        enters = each.clock.guards == "entry" and (
            each.task != task.id and _same_place(board, task, each.task)
        )
        if enters or (each.hazard.id in after and each.task != task.id):
            refusal = _wait_for(board, each)
            found[refusal.says] = refusal
    return list(found.values())


def _wait_for(board: Board, running: ProtectiveClock) -> Refusal:
    title = board.plan.tasks[running.task].title
    if running.until is None:
        says = f'the {running.clock.kind} after "{title}" has not started'
        return Refusal(
            "clock", says, f"sign that {running.hazard.short} has ended there, then wait"
        )
    says = f'the {running.clock.kind} after "{title}" ({running.rule.amount}) is still running'
    when = f"{running.until:%H:%M}"
    if running.until.date() != board.at.date():
        when = f"{day_in_words(running.until)} {when}"
    return Refusal("clock", says, f"wait until {when}")


def _too_late(board: Board, hazards: Iterable[Hazard]) -> list[Refusal]:
    """Work that could not end early enough for its closing clocks."""
    found = []
    for hazard in hazards:
        latest = must_end_by(board, hazard)
        if latest is None or board.hours is None or board.at < latest[0]:
            continue
        end, clock, rule = latest
        says = (
            f"{hazard.short} must end by {end:%H:%M}: the {clock.kind} is {rule.amount} and the "
            f"shop closes at {board.hours.closes:%H:%M}"
        )
        found.append(Refusal("too-late", says, "begin it earlier on another work day"))
    return found


def _unsigned(board: Board, asked: Asked) -> Refusal:
    of_whom = f" by {person(board.plan, asked.who)}" if asked.who else ""
    words = asked.text.rstrip(".")
    says = f'the check "{asked.check.id}" of {asked.hazard.short} is not signed{of_whom}: {words}'
    may = who_may_sign(board, asked.hazard, asked.check)
    return Refusal("unsigned", says, f"look, then sign it: {may}")
