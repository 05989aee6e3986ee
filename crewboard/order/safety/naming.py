"""Whom a signature has to name: the first-aider of the day, an adult who stays beside."""

from collections.abc import Iterator

from crewboard.logbook.acts import CheckSigned
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.safety.reason import MEND, is_a_reason
from crewboard.order.said import listed, person
from crewboard.plan.hazard import Check
from crewboard.plan.volunteer import Volunteer


def could_be_named(board: Board, check: Check) -> list[str]:
    """Those here whom the signing of the check could name, in order of arrival."""
    crew = board.plan.crew
    return [
        visit.who
        for visit in board.present
        if visit.who in crew and _fits(board, check, crew[visit.who])
    ]


def _fits(board: Board, check: Check, volunteer: Volunteer) -> bool:
    day = board.at.date()
    match check.names:
        case "anyone":
            return True
        case "adult":
            return volunteer.adult_on(day)
        case _:
            return volunteer.certificate(check.names, day) is not None


def names_somebody(check: Check, act: CheckSigned) -> bool:
    """Whether a signature names whom it has to, or says why there is nobody."""
    return not check.names or bool(act.named) or is_a_reason(act.why)


def named_refusals(board: Board, check: Check, act: CheckSigned) -> list[Refusal]:
    """What stands against the people that a signature names, or against its naming nobody."""
    if not check.names:
        if not act.named:
            return []
        return [Refusal("named", "this check names nobody", "leave out who is named")]
    return list(_nobody_named(board, check, act) if not act.named else _wrong(board, check, act))


def _nobody_named(board: Board, check: Check, act: CheckSigned) -> Iterator[Refusal]:
    able = could_be_named(board, check)
    if able:
        names = listed(person(board.plan, who) for who in able)
        yield Refusal("named", f"say who it is: {_whom(check)}", f"{names} could be named")
    elif not is_a_reason(act.why):
        sentence = f"say who it is: {_whom(check)}; nobody here is"
        yield Refusal("named", sentence, f"or {MEND}")
    elif (lead := board.plan.crew.get(act.who)) is None or not lead.leads_on(board.at.date()):
        sentence = "that there is nobody to be named is signed by a lead"
        yield Refusal("lead", sentence, "ask a lead who is here")


def _wrong(board: Board, check: Check, act: CheckSigned) -> Iterator[Refusal]:
    here = {visit.who for visit in board.present}
    for who in act.named:
        volunteer = board.plan.crew.get(who)
        if who not in here:
            sentence = f"{person(board.plan, who)} is named, and not here"
            yield Refusal("named", sentence, "name somebody who is signed in")
        elif volunteer is None or not _fits(board, check, volunteer):
            sentence = f"{person(board.plan, who)} cannot be named: it takes {_whom(check)}"
            yield Refusal("named", sentence, "name somebody else")


def _whom(check: Check) -> str:
    if check.names == "anyone":
        return "somebody who is here"
    if check.names == "adult":
        return "somebody here who is known to be 18 or older"
    return f'somebody here with the certificate "{check.names}" in date'
