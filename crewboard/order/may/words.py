"""The words of each reason why people may not do a task, and of how it is mended."""

from collections.abc import Callable, Iterable

from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.holds.words import outside_in_words
from crewboard.order.may.needs import has_certificate
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.safety.certificates import last_day
from crewboard.order.safety.clocks import clock_in_words, must_end_in_words
from crewboard.order.safety.signing import who_may_sign
from crewboard.order.safety.went_on import place_of_work, sheet_of_work
from crewboard.order.said import day_and_time, day_in_words, how_many, listed, person, quoted_title
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


_Words = tuple[str, str]  # the sentence, how it is mended


def _hazard(board: Board, obstacle: Obstacle) -> Hazard:
    return board.plan.hazards[obstacle.hazard]


def _names(board: Board, people: Iterable[str]) -> str:
    return listed(person(board.plan, who) for who in people)


# --- where the task stands -----------------------------------------------------------------------


def _finished(_board: Board, task: Task, obstacle: Obstacle) -> _Words:
    work = f'the work of "{task.title}"' if obstacle.holds else f'"{task.title}"'
    return f"{work} is finished", "reopen it first"


def _set_aside(board: Board, task: Task, _obstacle: Obstacle) -> _Words:
    return f'"{task.title}" is set aside: {board[task.id].aside}', "take it up again first"


def _under_way(_board: Board, task: Task, obstacle: Obstacle) -> _Words:
    since = day_and_time(obstacle.until) if obstacle.until else "before"
    sentence = f'"{task.title}" has been under way since {since}'
    return sentence, "add people to it, or finish it"


def _not_yet(board: Board, task: Task, _obstacle: Obstacle) -> _Words:
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


def _to_stop(board: Board, task: Task, _obstacle: Obstacle) -> _Words:
    from crewboard.order.reasons.why import stop_in_words

    sentence = f'"{task.title}" is under way; {stop_in_words(board, board[task.id])}'
    return sentence, "wait until that is over, or say why the work goes on all the same"


def _short_of(board: Board, task: Task, obstacle: Obstacle) -> _Words:
    from crewboard.order.supplies import supply_in_words

    accounts = [board.stock[supply_id] for supply_id in obstacle.supplies]
    names = listed(f"{account.supply.name} ({supply_in_words(account)})" for account in accounts)
    sentence = f'for "{task.title}" something is missing: {names}'
    return sentence, "wait for it, or say why the work goes on all the same"


def _unreadable(board: Board, task: Task, obstacle: Obstacle) -> _Words:
    unread = of_the_files(board.unreadable, obstacle.files)
    sentence = f'"{task.title}" may be held back: {"; ".join(one.says for one in unread)}'
    return sentence, unread_mend(board.plan, board.at.date(), unread)


# --- who is to do it -----------------------------------------------------------------------------

_NOBODY = {"named": "nobody on the task", "today": "nobody today", "crew": "nobody in the crew"}


def _who(board: Board, task: Task, _obstacle: Obstacle) -> _Words:
    hazards = (board.plan.hazards.get(hazard_id) for hazard_id in task.hazards)
    names = listed(hazard.short for hazard in hazards if hazard)
    return f'"{task.title}" has dangers ({names}): say who does it', "name the people on it"


def _under_18(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    hazard, mend = _hazard(board, obstacle), "give the work to adults"
    why = hazard.told(hazard.under_18_why).rstrip(".")
    if not obstacle.people:
        return f"{hazard.short}: {_NOBODY[obstacle.among]} is 18 or over", mend
    sentence = f"{hazard.short}: {_names(board, obstacle.people)} is under 18"
    return f"{sentence}. {why}" if why else sentence, mend


def _certificate(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    hazard, kind = _hazard(board, obstacle), obstacle.certificate
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


def _away(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    names = _names(board, obstacle.people)
    verb = "is" if len(obstacle.people) == 1 else "are"
    return f"{names} {verb} not signed in", f"sign in {names}"


def _people(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    wanted = how_many(obstacle.needed, "person")
    sentence = (
        f"{_hazard(board, obstacle).short}: at least {wanted} "
        f"{'is' if obstacle.needed == 1 else 'are'} needed, {_of_those(obstacle)}"
    )
    if obstacle.people:
        return sentence, f"sign in {_names(board, obstacle.people)}"
    return sentence, "name one more person who is here"


def _of_those(obstacle: Obstacle) -> str:
    if not obstacle.there:
        return "nobody of those named is here"
    verb = "is" if obstacle.there == 1 else "are"
    return f"only {obstacle.there} of those named {verb} here"


def _few(_board: Board, task: Task, obstacle: Obstacle) -> _Words:
    wanted = how_many(obstacle.needed, "person")
    if obstacle.among == "named":
        sentence = f'"{task.title}" needs at least {wanted}, {obstacle.there} named'
        return sentence, "name more people, or say why fewer will do"
    may = f"only {obstacle.there} of those {'here' if obstacle.among == 'today' else 'in the crew'}"
    return f"it needs {wanted}, and {may} may do it", "ask others whether they come"


def _many(_board: Board, task: Task, obstacle: Obstacle) -> _Words:
    most = how_many(obstacle.needed, "person")
    if obstacle.among == "named":
        sentence = f'"{task.title}" has room for {most}, {obstacle.there} named'
        return sentence, "name fewer people, or say why more are needed"
    return f"no {most} together may do all of it", "ask others whether they come"


def _skill(board: Board, task: Task, obstacle: Obstacle) -> _Words:
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


def _beside(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
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


def _not_with_us(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    who = board.plan.crew[obstacle.people[0]]
    day = board.at.date()
    if who.joined is not None and day < who.joined:
        sentence = f"{who.name} joined on {day_in_words(who.joined)}"
    else:
        assert who.left is not None
        sentence = f"{who.name} left on {day_in_words(who.left)}"
    return sentence, "mend the date in crew.toml, or say why they work all the same"


def _signer(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    hazard = _hazard(board, obstacle)
    check = hazard.check(obstacle.check)
    assert check is not None
    sentence = f'{_NOBODY[obstacle.among]} may sign the check "{check.id}" of {hazard.short}'
    return sentence, who_may_sign(board, hazard, check)


# --- when it is to be done -----------------------------------------------------------------------


def _day_closed(_board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    assert obstacle.until is not None
    return f"the day was closed at {obstacle.until:%H:%M}", "take the closing back first"


def _near(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    mine = _hazard(board, obstacle)
    other = sheet_of_work(board, obstacle.other, obstacle.task)
    title = quoted_title(board.plan, obstacle.task)
    sentence = f"{mine.short} may not be near {other.short}: {title} is under way"
    return sentence, "wait until it has ended and its after-checks are signed"


def _finished_without(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    from crewboard.order.safety.finished_without import mark_of

    line = next(line for line in board.history.never_begun if line.id == obstacle.entry)
    mark = mark_of(board.plan, board.logbook, line)
    sentence = f"{quoted_title(board.plan, obstacle.task)} was {mark.says if mark else 'finished'}"
    return sentence, "look what was left out there; a lead answers for it with a reason, once"


def _together(board: Board, task: Task, obstacle: Obstacle) -> _Words:
    one, other = _hazard(board, obstacle), board.plan.hazards[obstacle.other]
    if "minors" in (one.concerns, other.concerns):
        adults = one if other.concerns == "minors" else other
        return f"{adults.short} may not be near under-18s", "give the work to adults"
    sentence = f'{one.short} may not be near {other.short}, and "{task.title}" has both'
    return sentence, "make two tasks of it in the plan, one after the other"


def _place_closed(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    closing = sheet_of_work(board, obstacle.hazard, obstacle.task)
    place, title = place_of_work(board, obstacle.task), quoted_title(board.plan, obstacle.task)
    where = f"the place {place} is" if place else "its place is"
    sentence = f"{where} closed to other work: {closing.short}, in {title}, has not ended there"
    mend = "wait until its after-checks are signed"
    return sentence, mend if obstacle.strict else f"{mend}, or say where this work is: {_NO_PLACE}"


_NO_PLACE = "write the place of both into the plan, or a lead says why it is not there"


def _place_taken(board: Board, task: Task, obstacle: Obstacle) -> _Words:
    closing, title = _hazard(board, obstacle), quoted_title(board.plan, obstacle.task)
    where = f"the place {task.place}" if task.place else "its place"
    sentence = f"{closing.short} closes {where} to other work, and {title} is under way there"
    return sentence, "finish that work or send its people elsewhere; or a lead says why not"


def _clock(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    hazard = sheet_of_work(board, obstacle.hazard, obstacle.task)
    clock = next(clock for clock in hazard.clocks if clock.id == obstacle.clock)
    after = f"the {clock_in_words(board.plan, clock, obstacle.task)}"
    if obstacle.until is None:
        return f"{after} has not started", f"sign that {hazard.short} has ended there, then wait"
    rule = hazard.ruling(clock)
    sentence = f"{after} ({rule.amount if rule else ''}) is still running"
    when = f"{obstacle.until:%H:%M}"
    if obstacle.until.date() != board.at.date():
        when = f"{day_in_words(obstacle.until)} {when}"
    return sentence, f"wait until {when}"


def _entry(board: Board, task: Task, obstacle: Obstacle) -> _Words:
    sentence, mend = _clock(board, task, obstacle)
    return sentence, mend if obstacle.strict else f"{mend}, or a lead says why it is not near"


def _too_late(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    hazard = _hazard(board, obstacle)
    clock = next(clock for clock in hazard.clocks if clock.id == obstacle.clock)
    assert obstacle.until is not None
    sentence = must_end_in_words(board, hazard, clock, obstacle.until)
    return sentence, "begin it earlier on another work day"


def _unsigned(board: Board, _task: Task, obstacle: Obstacle) -> _Words:
    hazard = _hazard(board, obstacle)
    check = hazard.check(obstacle.check)
    assert check is not None
    of_whom = f" for {_names(board, obstacle.people)}" if obstacle.people else ""
    words = hazard.told(check.text).rstrip(".")
    sentence = f'the check "{check.id}" of {hazard.short} is not signed{of_whom}: {words}'
    concerns = obstacle.people[0] if obstacle.people else ""
    return sentence, f"look, then sign it: {who_may_sign(board, hazard, check, concerns)}"


def _air(board: Board, task: Task, obstacle: Obstacle) -> _Words:
    assert obstacle.air is not None
    air = outside_in_words(obstacle.air, board.plan.vehicle.units)
    return (
        f'for "{task.title}" the shop is {air}',
        "read the thermometer again, or say why the work is begun all the same",
    )


_SAYS: dict[str, Callable[[Board, Task, Obstacle], _Words]] = {
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
    "day-closed": _day_closed,
    "finished-without": _finished_without,
    "together": _together,
    "near": _near,
    "place-closed": _place_closed,
    "place-taken": _place_taken,
    "clock": _clock,
    "entry": _entry,
    "too-late": _too_late,
    "air": _air,
    "unsigned": _unsigned,
}
