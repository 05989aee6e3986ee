"""The words of what stands against the moment: what is near, clocks, closed places, closing."""

from collections.abc import Iterable
from datetime import timedelta

from crewboard.order.board import Board
from crewboard.order.holds.words import outside_in_words
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.safety.clocks import clock_in_words, must_end_in_words
from crewboard.order.safety.signing import who_may_sign
from crewboard.order.safety.went_on import place_of_work, sheet_of_work
from crewboard.order.said import (
    day_in_words,
    how_many,
    listed,
    person,
    quoted_title,
    when,
)
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task

Words = tuple[str, str]  # the sentence, how it is mended


def hazard_of(board: Board, obstacle: Obstacle) -> Hazard:
    return board.plan.hazards[obstacle.hazard]


def names_of(board: Board, people: Iterable[str]) -> str:
    return listed(person(board.plan, who) for who in people)


def not_used(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    instead = hazard.told(hazard.do_not_use).rstrip(".")
    sentence = f"{hazard.short}: do not use. {instead}"
    return sentence, "no lead can allow it; do it another way, and change the task in the plan"


def day_closed(_board: Board, _task: Task, obstacle: Obstacle) -> Words:
    assert obstacle.until is not None
    return f"the day was closed at {obstacle.until:%H:%M}", "take the closing back first"


def near(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    mine = hazard_of(board, obstacle)
    other = sheet_of_work(board, obstacle.other, obstacle.task)
    title = quoted_title(board.plan, obstacle.task)
    sentence = f"{mine.short} must not be near {other.short}: {title} is under way"
    return sentence, "wait until it has ended and its after-checks are signed"


def finished_without(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    from crewboard.order.safety.finished_without import mark_of

    line = next(line for line in board.history.never_begun if line.id == obstacle.entry)
    mark = mark_of(board.plan, board.logbook, line)
    sentence = f"{quoted_title(board.plan, obstacle.task)} was {mark.says}"
    return sentence, "look what was left out there; a lead answers for it with a reason, once"


def together(board: Board, task: Task, obstacle: Obstacle) -> Words:
    one, other = hazard_of(board, obstacle), board.plan.hazards[obstacle.other]
    if "minors" in (one.concerns, other.concerns):
        adults = one if other.concerns == "minors" else other
        return f"{adults.short} must not be near under-18s", "give the work to adults"
    sentence = f'{one.short} must not be near {other.short}, and "{task.title}" has both'
    return sentence, "make two tasks of it in the plan, one after the other"


def place_closed(board: Board, task: Task, obstacle: Obstacle) -> Words:
    closing = sheet_of_work(board, obstacle.hazard, obstacle.task)
    place, title = place_of_work(board, obstacle.task), quoted_title(board.plan, obstacle.task)
    where = f"the {place} is" if place else "its place is"
    sentence = f"{where} closed to other work: {closing.short}, in {title}, has not ended there"
    mend = "wait until its after-checks are signed"
    if obstacle.strict:
        return sentence, mend
    if place and task.place:
        return sentence, f"{mend}; or a lead who looked says how it stands there"
    return sentence, f"{mend}, or say where this work is: {_NO_PLACE}"


_NO_PLACE = "write the place of both into the plan, or a lead says why it is not there"


def place_taken(board: Board, task: Task, obstacle: Obstacle) -> Words:
    closing, title = hazard_of(board, obstacle), quoted_title(board.plan, obstacle.task)
    where = f"the place {task.place}" if task.place else "its place"
    sentence = f"{closing.short} closes {where} to other work, and {title} is under way there"
    return sentence, "finish that work or send its people elsewhere; or a lead says why not"


def clock(board: Board, _task: Task, obstacle: Obstacle) -> Words:
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


def entry(board: Board, task: Task, obstacle: Obstacle) -> Words:
    sentence, mend = clock(board, task, obstacle)
    return sentence, mend if obstacle.strict else f"{mend}, or a lead says why it is not near"


def too_late(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    clock = next(clock for clock in hazard.clocks if clock.id == obstacle.clock)
    assert obstacle.until is not None
    sentence = must_end_in_words(board, hazard, clock, obstacle.until)
    return sentence, "begin it earlier on another work day"


def ends_late(board: Board, task: Task, obstacle: Obstacle) -> Words:
    hazard, hours = hazard_of(board, obstacle), board[task.id].left or 0
    clock = next(clock for clock in hazard.clocks if clock.id == obstacle.clock)
    assert obstacle.until is not None
    end = board.at + timedelta(hours=hours / max(1, obstacle.there))
    sentence = (
        f"{must_end_in_words(board, hazard, clock, obstacle.until)}, and by its hours to go "
        f"({hours:g} h, {how_many(obstacle.there, 'person')}) it ends at {when(end, board.at)}"
    )
    return sentence, "begin it earlier or with more people; or a lead says how it ends in time"


def no_closing(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    clock = next(clock for clock in hazard.clocks if clock.id == obstacle.clock)
    sentence = f"nobody has said when the shop closes today, and {hazard.short} has a {clock.kind}"
    return sentence, "say until when it is open, once for the day: crewboard open-until . 17:00"


def unsigned(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    check = hazard.check(obstacle.check)
    assert check is not None
    of_whom = f" for {names_of(board, obstacle.people)}" if obstacle.people else ""
    words = hazard.told(check.text).rstrip(".")
    sentence = f'the check "{check.short}" of {hazard.short} is not signed{of_whom}: {words}'
    concerns = obstacle.people[0] if obstacle.people else ""
    return sentence, f"look, then sign it: {who_may_sign(board, hazard, check, concerns)}"


def unnamed(board: Board, task: Task, obstacle: Obstacle) -> Words:
    from crewboard.order.safety.unnamed import ANSWER, Unnamed, question_in_words

    question = Unnamed(task.id, obstacle.word, obstacle.hazards)
    return question_in_words(board.plan, question), ANSWER


def unopened(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    check = hazard.check(obstacle.check)
    assert check is not None
    words = hazard.told(check.text).rstrip(".")
    sentence = f'the shop is not opened: "{check.short}" is not signed: {words}'
    mend = f"look, then sign it for the day: {who_may_sign(board, hazard, check)}"
    return sentence, mend


def waived_by_doer(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    hazard = hazard_of(board, obstacle)
    check = hazard.check(obstacle.check)
    assert check is not None
    sentence = (
        f"{names_of(board, obstacle.people)} would do this work, and alone said that "
        f'"{check.short}" of {hazard.short} does not apply: {hazard.told(check.text)}'
    )
    return sentence.rstrip("."), "look and sign it, or let another lead say so"


def air(board: Board, task: Task, obstacle: Obstacle) -> Words:
    assert obstacle.air is not None
    air = outside_in_words(obstacle.air, board.plan.vehicle.units)
    return (
        f'for "{task.title}" the shop is {air}',
        "read the thermometer again, or say why the work is begun all the same",
    )


def room(board: Board, task: Task, obstacle: Obstacle) -> Words:
    titles = listed(quoted_title(board.plan, other) for other in obstacle.tasks)
    are = "is" if len(obstacle.tasks) == 1 else "are"
    jobs = how_many(obstacle.needed, "job")
    return (
        f"the {task.place} has room for {jobs} at a time, and {titles} {are} under way there",
        "wait until its people are done or on something else, or say why there is room",
    )


def temporary(board: Board, task: Task, obstacle: Obstacle) -> Words:
    what = board.history.temporary[obstacle.entry].what
    return (
        f'before "{task.title}" something temporary must be undone: {what}',
        "undo it and say so, or say why the work begins all the same",
    )


def in_one_go(board: Board, task: Task, obstacle: Obstacle) -> Words:
    assert obstacle.until is not None
    assert obstacle.ends is not None
    people = how_many(obstacle.there, "person")
    return (
        f'"{task.title}" must not be left half done: by its hours to go '
        f"({board[task.id].left:g} h, {people}) it ends at {when(obstacle.ends, board.at)}, and "
        f"the shop closes at {obstacle.until:%H:%M}",
        "begin it earlier or with more people, or say how it ends in time",
    )


def half_done(board: Board, _task: Task, obstacle: Obstacle) -> Words:
    title = quoted_title(board.plan, obstacle.task)
    names = names_of(board, obstacle.people)
    return (
        f"{title} must not be left half done, and nobody is on it without {names}",
        "finish it first, let somebody take over, or say what becomes of it",
    )
