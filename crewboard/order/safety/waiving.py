"""Who may find that a check does not apply, and which checks are never found so."""

from collections.abc import Collection
from datetime import date

from crewboard.logbook.acts import CheckSigned
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.safety.reason import MEND, is_a_reason
from crewboard.order.said import listed, person
from crewboard.plan.hazard import Check, Hazard
from crewboard.plan.volunteer import Volunteer


def may_waive(volunteer: Volunteer | None, day: date) -> bool:
    """Whether they may find that a check does not apply: a lead who is of age and of the crew."""
    return volunteer is not None and volunteer.leads_on(day) and volunteer.with_us_on(day)


def is_waived(
    check: Check, act: CheckSigned, volunteer: Volunteer | None, day: date, doers: Collection[str]
) -> bool:
    """Whether a line that says "does not apply" counts: its reason, and whose word it is."""
    if not check.waivable or not is_a_reason(act.why) or act.who in doers:
        return False
    return may_waive(volunteer, day)


def waive_refusals(
    board: Board, hazard: Hazard, check: Check, act: CheckSigned, doers: Collection[str]
) -> list[Refusal]:
    """What stands against signing that a check does not apply; `doers` do the work today."""
    if not check.waivable:
        sentence = f"this check of {hazard.short} always applies: {hazard.told(check.text)}"
        return [Refusal("always", sentence.rstrip("."), "look, and sign it when it is so")]
    refusals = []
    if not is_a_reason(act.why):
        refusals.append(Refusal("why", "say why the check does not apply", MEND))
    name = person(board.plan, act.who) if act.who else "nobody"
    if act.who in doers:
        sentence = f"{name} does this work: that a check does not apply is said by another lead"
        refusals.append(Refusal("doer", sentence, _leads(board, doers)))
    elif not may_waive(board.plan.crew.get(act.who), board.at.date()):
        sentence = f"that a check does not apply is said by a lead who is of age, not by {name}"
        refusals.append(Refusal("lead", sentence, _leads(board, doers)))
    return refusals


def _leads(board: Board, doers: Collection[str]) -> str:
    """Who could say it."""
    day = board.at.date()
    leads = [v.name for v in board.plan.crew.values() if may_waive(v, day) and v.id not in doers]
    return f"{listed(leads)} may, once here" if leads else "look at it as the sheet asks"
