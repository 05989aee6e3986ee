"""The words of each reason why people may not do a task, and of how it is mended."""

from collections.abc import Callable, Iterable

from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.may import moment_words
from crewboard.order.may.moment_words import Words, hazard_of, names_of
from crewboard.order.may.needs import has_certificate
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.safety.certificates import last_day
from crewboard.order.safety.signing import who_may_sign
from crewboard.order.said import (
    day_and_time,
    day_in_words,
    how_many,
    listed,
    person,
    quoted_title,
)
from crewboard.order.unreadable import of_the_files, unread_mend
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.task import Task


def as_refusals(board: Board, task_id: str, obstacles: Iterable[Obstacle]) -> list[Refusal]:
    """The reasons as refusals to begin the task, each sentence once."""
    refusals = [as_refusal(board, task_id, obstacle) for obstacle in obstacles]
    return list(dict.fromkeys(refusals))


def as_refusal(board: Board, task_id: str, obstacle: Obstacle) -> Refusal:
    """One reason as a refusal to begin the task."""
    sentence, mend = _SAYS[obstacle.code](board, board.plan.tasks[task_id], obstacle)
    return Refusal(
        obstacle.code, sentence, mend, obstacle.yields, lead=obstacle.yields_to == "lead"
    )


# --- where the task stands -----------------------------------------------------------------------


def _finished(_board: Board, task: Task, obstacle: Obstacle) -> Words:
    work = f'the work of "{task.title}"' if obstacle.holds else f'"{task.title}"'
    return f"{work} is finished", "reopen it first"


def _set_aside(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    return f'"{task.title}" is set aside: {board[task.id].aside}', "take it up again first"


def _under_way(_board: Board, task: Task, obstacle: Obstacle) -> Words:
    since = day_and_time(obstacle.until) if obstacle.until else "before"
    sentence = f'"{task.title}" has been under way since {since}'
    return sentence, "add people to it, or finish it"


def _not_yet(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    """What it waits for in the end: work that can be done, holds, supplies, dates."""
    from crewboard.order.reasons.why import roots

    first = []
    for reason in roots(board, task.id):
        if reason.about == "task":
            first.append(f"{quoted_title(board.plan, reason.id)} ({board[reason.id].state})")
        else:
            first.append(reason.says)
    more = f" and {len(first) - 3} more" if len(first) > 3 else ""
    sentence = f'"{task.title}" cannot begin yet. First: {", ".join(first[:3])}{more}'
    return sentence, "wait, or say why it is begun all the same"


def _to_stop(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    from crewboard.order.reasons.why import stop_in_words

    sentence = f'"{task.title}" is under way; {stop_in_words(board, board[task.id])}'
    return sentence, "wait until that is over, or say why the work goes on all the same"


def _short_of(board: Board, task: Task, obstacle: Obstacle) -> Words:
    from crewboard.order.supplies import supply_in_words

    accounts = [board.stock[supply_id] for supply_id in obstacle.supplies]
    names = listed(f"{account.supply.name} ({supply_in_words(account)})" for account in accounts)
    sentence = f'for "{task.title}" something is missing: {names}'
    return sentence, "wait for it, or say why the work goes on all the same"


def _unreadable(board: Board, task: Task, obstacle: Obstacle) -> Words:
    unread = of_the_files(board.unreadable, obstacle.files)
    sentence = f'"{task.title}" may be held back: {"; ".join(one.says for one in unread)}'
    return sentence, unread_mend(board.plan, board.at.date(), unread)


# --- who is to do it -----------------------------------------------------------------------------

_NOBODY = {"named": "nobody on the task", "today": "nobody today", "crew": "nobody in the crew"}


def _who(board: Board, task: Task, _obstacle: Obstacle) -> Words:
    hazards = (board.plan.hazards.get(hazard_id) for hazard_id in task.hazards)
    names = listed(hazard.short for hazard in hazards if hazard)
    return f'"{task.title}" has dangers ({names}): say who does it', "name the people on it"


def _under_18(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard, mend = hazard_of(board, obstacle), "give the work to adults"
    why = hazard.told(hazard.under_18_why).rstrip(".")
    if not obstacle.people:
        return f"{hazard.short}: {_NOBODY[obstacle.among]} is 18 or over", mend
    sentence = f"{hazard.short}: {names_of(board, obstacle.people)} is under 18"
    return f"{sentence}. {why}" if why else sentence, mend


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
    verb = "is" if len(obstacle.people) == 1 else "are"
    return f"{names} {verb} not signed in", f"sign in {names}"


def _people(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    wanted = how_many(obstacle.needed, "person")
    sentence = (
        f"{hazard_of(board, obstacle).short}: at least {wanted} "
        f"{'is' if obstacle.needed == 1 else 'are'} needed, {_of_those(obstacle)}"
    )
    if obstacle.people:
        return sentence, f"sign in {names_of(board, obstacle.people)}"
    return sentence, "name one more person who is here"


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
    return sentence, "mend the date in crew.toml, or say why they work all the same"


def _signer(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    check = hazard.check(obstacle.check)
    assert check is not None
    sentence = f'{_NOBODY[obstacle.among]} may sign the check "{check.id}" of {hazard.short}'
    return sentence, who_may_sign(board, hazard, check)


_SAYS: dict[str, Callable[[Board, Task, Obstacle], Words]] = {
    "finished": _finished,
    "set-aside": _set_aside,
    "under-way": _under_way,
    "waiting": _not_yet,
    "held": _not_yet,
    "open-again": _to_stop,
    "held-again": _to_stop,
    "supply": _short_of,
    "unreadable": _unreadable,
    "who": _who,
    "under-18": _under_18,
    "certificate": _certificate,
    "away": _away,
    "people": _people,
    "signer": _signer,
    "few": _few,
    "many": _many,
    "skill": _skill,
    "beside": _beside,
    "not-with-us": _not_with_us,
    "day-closed": moment_words.day_closed,
    "finished-without": moment_words.finished_without,
    "together": moment_words.together,
    "near": moment_words.near,
    "place-closed": moment_words.place_closed,
    "place-taken": moment_words.place_taken,
    "clock": moment_words.clock,
    "entry": moment_words.entry,
    "no-closing": moment_words.no_closing,
    "too-late": moment_words.too_late,
    "ends-late": moment_words.ends_late,
    "air": moment_words.air,
    "unnamed": moment_words.unnamed,
    "unopened": moment_words.unopened,
    "unsigned": moment_words.unsigned,
    "waived-by-doer": moment_words.waived_by_doer,
}
