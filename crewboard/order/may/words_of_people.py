"""The words of each reason that is about people, and of how it is mended."""

from collections.abc import Callable
from datetime import date

from crewboard.order.board import Board
from crewboard.order.may.moment_words import Words, hazard_of, names_of
from crewboard.order.may.needs import believed_until, has_certificate
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.safety.certificates import last_day
from crewboard.order.safety.signing import who_may_sign
from crewboard.order.said import day_in_words, how_many, listed, person, quoted_title
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.task import Task

_NOBODY = {"named": "nobody on the task", "today": "nobody today", "crew": "nobody in the crew"}


def _who(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    hazards = (board.plan.hazards.get(hazard_id) for hazard_id in task.hazards)
    names = listed(hazard.short for hazard in hazards if hazard)
    return f'"{task.title}" has hazards ({names}): say who does it', "name the people on it"


def _under_18(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard, mend = hazard_of(board, obstacle), "give the work to adults"
    if hazard.training:
        mend += ", or a lead writes down why it is training: crewboard training"
    why = hazard.told(hazard.under_18_why).rstrip(".")
    if not obstacle.people:
        return f"{hazard.short}: {_NOBODY[obstacle.among]} is 18 or over", mend
    sentence = f"{hazard.short}: {names_of(board, obstacle.people)} is under 18"
    return f"{sentence}. {why}" if why else sentence, mend


def _age(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    names = names_of(board, obstacle.people)
    mend = "say so once: crewboard adult, or adult = true (or false) in crew.toml"
    return f"nobody has said whether {names} {_verb(obstacle)} 18 or older", mend


def _verb(obstacle: Obstacle) -> str:
    return "is" if len(obstacle.people) == 1 else "are"


def _adult(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    names = names_of(board, obstacle.people)
    sentence = f"{names} {_verb(obstacle)} under 18, and no adult on this work is named beside them"
    return sentence, "name one who is here and on it, and does not watch (--adult)"


def _watch(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    sentence = f"{hazard.short}: no {hazard.watch} is named who does nothing else"
    return sentence, "name an adult who is here and not on the work itself (--watch)"


def _busy(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    names, title = names_of(board, obstacle.people), quoted_title(board.plan, obstacle.task)
    hazard = hazard_of(board, obstacle)
    sentence = f"{names} {_verb(obstacle)} needed on {title}, for its {hazard.short}"
    if obstacle.strict:
        return (
            sentence,
            "sign that the hazard has ended there, let somebody else join there, or name others",
        )
    return sentence, "wait, or a lead says who watches instead"


def _certificate(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard, kind = hazard_of(board, obstacle), obstacle.certificate
    need = next(need for need in hazard.certificates if need.kind == kind)
    mend = _holders(board, need, hazard)
    if not obstacle.people:
        return f'{hazard.short}: {_NOBODY[obstacle.among]} holds the certificate "{kind}"', mend
    who = obstacle.people[0]
    name, volunteer = person(board.plan, who), board.plan.crew.get(who)
    had, until = last_day(volunteer, need, hazard) if volunteer else (False, None)
    if had and until is not None and until < board.at.date():
        lack = f'{name}\'s certificate "{kind}" lapsed on {day_in_words(until)}'
    else:
        lack = f'{name} has no certificate "{kind}"'
    return f"{hazard.short}: {lack}", mend


def _paper(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard, kind = hazard_of(board, obstacle), obstacle.certificate
    need = next(need for need in hazard.certificates if need.kind == kind)
    day, wants = board.at.date(), []
    for who in obstacle.people:
        volunteer = board.plan.crew[who]
        papers = (paper for paper in volunteer.certificates if paper.kind == kind)
        looked = max(filter(None, (believed_until(p, need, hazard) for p in papers)), default=day)
        since = f"since {day_in_words(looked)}" if looked > date.min else "yet, and has no date"
        wants.append(f'{volunteer.name}\'s certificate "{kind}" was not looked at {since}')
    mend = "look at it and say so: crewboard seen, or a lead answers for it"
    return f"{hazard.short}: {listed(wants)}", mend


def _holders(board: Board, need: CertificateNeed, hazard: Hazard) -> str:
    """Who could do it instead."""
    day = board.at.date()
    able = [
        volunteer.name
        for volunteer in board.plan.crew.values()
        if volunteer.with_us_on(day)
        and has_certificate(volunteer, need, hazard, day)
        and (hazard.under_18 or not volunteer.minor_on(day))
    ]
    if not able:
        return (
            "nobody in the crew holds it: leave this work to those who do; "
            "a certificate that somebody has is written into crew.toml"
        )
    return f"{listed(able)} {'holds' if len(able) == 1 else 'hold'} it"


def _away(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    names = names_of(board, obstacle.people)
    mend = f"sign in {names}" + ("" if obstacle.strict else ", or say why that is not needed")
    return f"{names} {_verb(obstacle)} not signed in", mend


def _people(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    wanted = how_many(obstacle.needed, "person")
    here = {visit.who for visit in board.present}
    away = [who for who in obstacle.people if who not in here]
    young = [who for who in obstacle.people if who in here]
    uncounted = f" ({names_of(board, young)} not counted: only adults of the crew)" if young else ""
    sentence = (
        f"{hazard_of(board, obstacle).short}: at least {wanted} "
        f"{'is' if obstacle.needed == 1 else 'are'} needed, {_of_those(obstacle)}{uncounted}"
    )
    mend = "name one more adult of the crew who is here"
    return sentence, f"sign in {names_of(board, away)}" if away else mend


def _of_those(obstacle: Obstacle) -> str:
    if not obstacle.there:
        return "nobody of those named is here"
    verb = "is" if obstacle.there == 1 else "are"
    return f"only {obstacle.there} of those named {verb} here"


def _few(_board: Board, task: Task, obstacle: Obstacle) -> Words:
    wanted = how_many(obstacle.needed, "person")
    if obstacle.among == "named":
        sentence = f'"{task.title}" needs at least {wanted}, {obstacle.there} named'
        return sentence, "name more people, or say why fewer will do"
    may = f"only {obstacle.there} of those {'here' if obstacle.among == 'today' else 'in the crew'}"
    return f"it needs {wanted}, and {may} may do it", "ask others whether they come"


def _many(_board: Board, task: Task, obstacle: Obstacle) -> Words:
    most = how_many(obstacle.needed, "person")
    if obstacle.among == "named":
        sentence = f'"{task.title}" has room for {most}, {obstacle.there} named'
        return sentence, "name fewer people, or say why more are needed"
    return f"no {most} together may do all of it", "ask others whether they come"


def _skill(board: Board, task: Task, obstacle: Obstacle) -> Words:
    able = [
        volunteer.name
        for volunteer in board.plan.crew.values()
        if obstacle.skill in volunteer.skills and volunteer.with_us_on(board.at.date())
    ]
    has = f"{listed(able)} {'has' if len(able) == 1 else 'have'} it" if able else ""
    if obstacle.among == "named":
        sentence = f'"{task.title}" needs the skill {obstacle.skill}, and nobody named has it'
        return sentence, f"{has or 'nobody in the crew has it'}; or say why it is done without"
    if obstacle.there:
        return f"nobody who has the skill {obstacle.skill} may do it", has
    return f"{_NOBODY[obstacle.among]} has the skill {obstacle.skill}", has


def _beside(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    crew = board.plan.crew
    wants = listed(
        f"{crew[who].name} works only with {_companion(board, crew[who].needs_beside)} beside them"
        for who in obstacle.people
    )
    return wants, "name them too" + ("" if obstacle.strict else ", or say why it is done without")


def _companion(board: Board, need: str) -> str:
    if need in board.plan.crew:
        return board.plan.crew[need].name
    return f"somebody who has the skill {need}"


def _not_with_us(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    who = board.plan.crew[obstacle.people[0]]
    day = board.at.date()
    if who.joined is not None and day < who.joined:
        sentence = f"{who.name} joined on {day_in_words(who.joined)}"
    else:
        assert who.left is not None
        sentence = f"{who.name} left on {day_in_words(who.left)}"
    if obstacle.strict:
        return f"{sentence}: guests do nothing dangerous", "mend the date in crew.toml"
    return sentence, "mend the date in crew.toml, or say why they work all the same"


def _signer(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    check = hazard.check(obstacle.check)
    assert check is not None
    sentence = f'{_NOBODY[obstacle.among]} may sign the check "{check.short}" of {hazard.short}'
    return sentence, who_may_sign(board, hazard, check)


OF_PEOPLE: dict[str, Callable[[Board, Task, Obstacle], Words]] = {
    "who": _who,
    "under-18": _under_18,
    "age": _age,
    "adult": _adult,
    "watch": _watch,
    "busy": _busy,
    "certificate": _certificate,
    "paper": _paper,
    "away": _away,
    "people": _people,
    "signer": _signer,
    "few": _few,
    "many": _many,
    "skill": _skill,
    "beside": _beside,
    "not-with-us": _not_with_us,
}
