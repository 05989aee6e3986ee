"""Who may sign a safety check, and what stands against a signature."""

from __future__ import annotations

from crewboard.logbook.acts import CheckSigned
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.may.needs import under_18s
from crewboard.order.safety.clocks import still_running
from crewboard.order.safety.naming import named_refusals
from crewboard.order.safety.signatures import (
    as_signed,
    may_answer_for,
    signatures,
    signed_for_themselves,
)
from crewboard.order.safety.timing import time_refusals
from crewboard.order.safety.waiving import waive_refusals
from crewboard.order.said import day_in_words, listed, person, when
from crewboard.plan.hazard import Check, Hazard

_NAMED = 4  # people named before it gets too long to read


def who_signs(check: Check) -> str:
    """In words: who the sheet wants to sign the check."""
    if check.signs == "anyone":
        return "anyone who is here may sign"
    if check.signs == "lead":
        return "a lead signs it"
    return f'somebody with the certificate "{check.signs}" signs it'


def signers(board: Board, hazard: Hazard, check: Check, concerns: str = "") -> tuple[str, ...]:
    """The people here who may sign the check, in order of arrival: for the person it `concerns`,
    where it is signed for each person, anybody but themselves."""
    day = board.at.date()
    return tuple(
        visit.who
        for visit in board.present
        if visit.who != concerns
        and (volunteer := board.plan.crew.get(visit.who)) is not None
        and may_answer_for(volunteer, hazard, check, day)
    )


def sign_refusals(board: Board, act: CheckSigned, by: str = "") -> list[Refusal]:
    """What stands against this signature at the board's moment; `by` is who writes it down."""
    hazard = board.plan.hazards.get(act.hazard)
    if hazard is None:
        return [Refusal("unknown-hazard", f'no task names a hazard "{act.hazard}"')]
    check = hazard.check(act.check)
    if check is None:
        known = ", ".join(c.short for c in hazard.checks)
        sentence = f'{hazard.short} has no check "{act.check}"'
        return [Refusal("unknown-check", sentence, f"its checks are {known}")]
    if for_whom := _for_whom(check, act):
        return for_whom
    refusals = _wrong_task(board, hazard, check, act)
    if refusals:
        return refusals
    refusals = time_refusals(board, hazard, check, act)
    refusals += _wrong_person(board, hazard, check, as_signed(check, act, by))
    if act.applies:
        refusals += _clock_running(board, hazard, check, act)
        refusals += _others_in(board, check, act)
        refusals += named_refusals(board, check, act)
    else:
        doers = signatures(board).doers(board.at.date(), act.task)
        refusals += waive_refusals(board, hazard, check, act, doers)
    return refusals


def _wrong_task(board: Board, hazard: Hazard, check: Check, act: CheckSigned) -> list[Refusal]:
    if act.task and act.task not in board.plan.tasks:
        return [Refusal("unknown-task", f'there is no task "{act.task}"')]
    if act.task and hazard.concerns == "task":
        task = board.plan.tasks[act.task]
        if hazard.id not in task.hazards:
            return [Refusal("no-danger", f'"{task.title}" does not name {hazard.short}')]
    if check.every in ("task", "task a day") and not act.task:
        return [Refusal("task", "this check is signed for a task", "say for which task")]
    return []


def _for_whom(check: Check, act: CheckSigned) -> list[Refusal]:
    if check.each_person and not act.concerns:
        sentence = "this check is signed for each person by somebody else"
        return [Refusal("for-whom", sentence, "say for whom: --for WHO")]
    if act.concerns and not check.each_person:
        sentence = "this check is not signed for one person"
        return [Refusal("for-whom", sentence, "leave out for whom it is")]
    return []


def _wrong_person(board: Board, hazard: Hazard, check: Check, act: CheckSigned) -> list[Refusal]:
    who = act.who
    name = person(board.plan, who) if who else "nobody"
    volunteer = board.plan.crew.get(who)
    if volunteer is None:
        sentence = f"{name} is not in the crew: {who_signs(check)}"
        return [Refusal("signer", sentence, who_may_sign(board, hazard, check, act.concerns))]
    if who not in {visit.who for visit in board.present}:
        return [Refusal("not-here", f"{name} is not here", "sign in first")]
    if signed_for_themselves(check, act):
        sentence = f"{name} cannot sign this for themselves"
        return [Refusal("signer", sentence, who_may_sign(board, hazard, check, act.concerns))]
    day = board.at.date()
    if may_answer_for(volunteer, hazard, check, day):
        return []
    if under_18s([volunteer], day):
        sentence = f"{name} is under 18 and may not sign this"
    elif check.signs == "lead":
        sentence = f"{name} is no lead: {who_signs(check)}"
    else:
        held = [c.until for c in volunteer.certificates if c.kind == check.signs]
        until = max((day for day in held if day is not None), default=None)
        lapsed = f" (it lapsed on {day_in_words(until)})" if until and until < day else ""
        sentence = f'{name} has no certificate "{check.signs}"{lapsed}: {who_signs(check)}'
    return [Refusal("signer", sentence, who_may_sign(board, hazard, check, act.concerns))]


def who_may_sign(board: Board, hazard: Hazard, check: Check, concerns: str = "") -> str:
    """Who here may sign the check; where nobody is, who has to be signed in for it."""
    able = signers(board, hazard, check, concerns)
    if able:
        return f"{' or '.join(person(board.plan, who) for who in able[:_NAMED])} may"
    day = board.at.date()
    away = [
        volunteer.name
        for volunteer in board.plan.crew.values()
        if volunteer.id != concerns
        and volunteer.with_us_on(day)
        and may_answer_for(volunteer, hazard, check, day)
    ]
    if not away:
        return f"nobody in the crew may; {who_signs(check)}"
    return f"nobody here may; sign in {' or '.join(away[:_NAMED])}"


def _others_in(board: Board, check: Check, act: CheckSigned) -> list[Refusal]:
    """ "Everybody is out" is said by the last one out, and by nobody before."""
    others = [visit.who for visit in board.present if visit.who != act.who]
    others += [visit.name for visit in board.guests]
    if not check.last_out or not others:
        return []
    names = listed(person(board.plan, who) for who in others)
    sentence = f"{names} {'is' if len(others) == 1 else 'are'} still signed in"
    return [Refusal("still-in", sentence, "see that they are out and sign them out first")]


def _clock_running(board: Board, hazard: Hazard, check: Check, act: CheckSigned) -> list[Refusal]:
    """A check that says "the watch was kept to its end" cannot be signed before that end."""
    refusals = []
    for running in still_running(board):
        if running.hazard.id != hazard.id or running.clock.ends != check.id:
            continue
        if check.every != "day" and running.task != act.task:
            continue
        if running.until is None:
            sentence = (
                f"the {running.clock.kind} has not started: first sign that the work has ended"
            )
            refusals.append(Refusal("clock", sentence))
        else:
            sentence = f"the {running.clock.kind} runs until {when(running.until, board.at)}"
            refusals.append(Refusal("clock", sentence, "sign it then"))
    return refusals
