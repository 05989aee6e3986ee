"""The reasons in few words: under a task in the ranking, beside a name in a list."""

from collections.abc import Callable, Iterable

from crewboard.order.board import Board
from crewboard.order.holds.words import outside_in_words, quoted_hold
from crewboard.order.may.obstacle import Among, Obstacle
from crewboard.order.presence import said_to_come
from crewboard.order.safety.clocks import clock_in_words
from crewboard.order.safety.went_on import place_of_work, sheet_of_work
from crewboard.order.said import day_in_words, how_many, listed, person, quoted_title, when
from crewboard.order.unreadable import of_the_files
from crewboard.plan.hazard import Clock, Hazard


def not_today(board: Board, obstacles: Iterable[Obstacle]) -> str:
    """ "not today: nobody here has the skill welding", for a task that nobody may do now."""
    reasons = list(obstacles)
    why = "; ".join(dict.fromkeys(in_short(board, obstacle) for obstacle in reasons))
    return f"{when_not(board, *reasons)}: {why}"


def when_not(board: Board, *reasons: Obstacle) -> str:
    """ "not now" where all of these may pass today, else "not today"."""
    return "not now" if _passes_today(board, reasons) else "not today"


def _passes_today(board: Board, reasons: Iterable[Obstacle]) -> bool:
    return all(
        obstacle.about == "moment"
        and obstacle.code not in ("too-late", "in-one-go")
        and (obstacle.until is None or obstacle.until.date() == board.at.date())
        for obstacle in reasons
    )


def barred_because(obstacles: Iterable[Obstacle]) -> str:
    """What is said beside the name of somebody who may not do the work; empty for nothing."""
    reasons = list(obstacles)
    if any(obstacle.code == "under-18" for obstacle in reasons):
        return "under 18"
    if any(obstacle.code == "age" for obstacle in reasons):
        return "age not said"
    kinds = dict.fromkeys(f'"{o.certificate}"' for o in reasons if o.code == "certificate")
    asked = dict.fromkeys(f'"{o.certificate}"' for o in reasons if o.code == "paper")
    if asked and not kinds:
        return f"certificate {listed(asked)} to be looked at"
    return f"no certificate {listed(kinds)}" if kinds else ""


def in_short(board: Board, obstacle: Obstacle) -> str:
    """One reason in few words, without the name of the task."""
    return _SHORT[obstacle.code](board, obstacle)


def _nobody(board: Board, among: Among) -> str:
    if among == "crew":
        return "nobody in the crew"
    if among == "named":
        return "none of these people"
    if not board.present:
        return "nobody expected"
    gone = {visit.who for visit in board.history.visits}
    to_come = any(who not in gone for who in said_to_come(board))
    return "nobody here or expected" if to_come else "nobody here"


def _clock(board: Board, obstacle: Obstacle) -> Clock:
    hazard = sheet_of_work(board, obstacle.hazard, obstacle.task)
    return next(clock for clock in hazard.clocks if clock.id == obstacle.clock)


def _short_of(board: Board, obstacle: Obstacle) -> str:
    names = [board.plan.supplies[supply_id].name for supply_id in obstacle.supplies]
    return f"{listed(names)} {'is' if len(names) == 1 else 'are'} missing"


def _unreadable(board: Board, obstacle: Obstacle) -> str:
    unread = of_the_files(board.unreadable, obstacle.files)
    return f"{listed(dict.fromkeys(one.name for one in unread))} cannot be read"


def _open_again(board: Board, obstacle: Obstacle) -> str:
    return f'"{board.plan.tasks[obstacle.task].title}" is open again'


def _held_again(board: Board, obstacle: Obstacle) -> str:
    holds = (board.holds[hold] for hold in obstacle.holds)
    return listed(f"{quoted_hold(board.plan, hold)} is on hold again" for hold in holds)


def _follows_late(board: Board, obstacle: Obstacle) -> str:
    assert obstacle.until is not None
    before = quoted_title(board.plan, obstacle.task)
    return f"too late since {when(obstacle.until, board.at)}: {before} has to be done again"


def _under_18(board: Board, obstacle: Obstacle) -> str:
    if obstacle.people:
        return f"under 18: not for {board.plan.hazards[obstacle.hazard].short}"
    return f"{_nobody(board, obstacle.among)} is 18 or over"


def _age(board: Board, obstacle: Obstacle) -> str:
    if obstacle.among == "named":
        return "age not said"
    names = [person(board.plan, who) for who in obstacle.people]
    if len(names) > 3:
        names = [*names[:2], f"{len(names) - 2} more"]
    return f"nobody said whether {listed(names)} {'is' if len(names) == 1 else 'are'} 18 or older"


def _certificate(board: Board, obstacle: Obstacle) -> str:
    kind = f'certificate "{obstacle.certificate}"'
    if obstacle.people:
        return f"no {kind}"
    return f"{_nobody(board, obstacle.among)} has the {kind} in date"


def _paper(board: Board, obstacle: Obstacle) -> str:
    whose = listed(person(board.plan, who) for who in obstacle.people)
    return f'certificate "{obstacle.certificate}" of {whose} to be looked at: crewboard seen'


def _few(board: Board, obstacle: Obstacle) -> str:
    there = _nobody(board, obstacle.among)
    if obstacle.there:
        where = there.removeprefix("nobody ").removeprefix("none ")
        there = f"only {obstacle.there} {where}"
    return f"it needs {how_many(obstacle.needed, 'person')}: {there} may do it"


def _many(_board: Board, obstacle: Obstacle) -> str:
    return f"no {how_many(obstacle.needed, 'person')} together may do all of it"


def _skill(board: Board, obstacle: Obstacle) -> str:
    if obstacle.there:
        return f"nobody who has the skill {obstacle.skill} may do it"
    return f"{_nobody(board, obstacle.among)} has the skill {obstacle.skill}"


def _beside(board: Board, obstacle: Obstacle) -> str:
    crew = board.plan.crew
    names = []
    for who in obstacle.people:
        need = crew[who].needs_beside
        beside = crew[need].name if need in crew else f"somebody with the skill {need}"
        names.append(f"{crew[who].name} works only with {beside}")
    return listed(names)


def _not_with_us(board: Board, obstacle: Obstacle) -> str:
    volunteer = board.plan.crew[obstacle.people[0]]
    joined, left = volunteer.joined, volunteer.left
    if joined is not None and board.at.date() < joined:
        return f"joined on {day_in_words(joined)}"
    return f"left on {day_in_words(left)}" if left else "not with us"


def _check(hazard: Hazard, obstacle: Obstacle) -> str:
    check = hazard.check(obstacle.check)
    return check.short if check is not None else obstacle.check.replace("-", " ")


def _signer(board: Board, obstacle: Obstacle) -> str:
    hazard = board.plan.hazards[obstacle.hazard]
    return (
        f'{_nobody(board, obstacle.among)} may sign "{_check(hazard, obstacle)}" of {hazard.short}'
    )


def _near(board: Board, obstacle: Obstacle) -> str:
    other = sheet_of_work(board, obstacle.other, obstacle.task)
    return f"not near {other.short}, and {quoted_title(board.plan, obstacle.task)} is under way"


def _clock_runs(board: Board, obstacle: Obstacle) -> str:
    after = f"the {clock_in_words(board.plan, _clock(board, obstacle), obstacle.task)}"
    if obstacle.until is None:
        return f"{after} has not started"
    day = "" if obstacle.until.date() == board.at.date() else f"{day_in_words(obstacle.until)} "
    return f"{after} runs until {day}{obstacle.until:%H:%M}"


def _too_late(board: Board, obstacle: Obstacle) -> str:
    assert obstacle.until is not None
    clock = _clock(board, obstacle)
    return f"it had to end by {obstacle.until:%H:%M} for its {clock.kind} before closing"


def _no_closing(board: Board, obstacle: Obstacle) -> str:
    return f"nobody has said when the shop closes, for its {_clock(board, obstacle).kind}"


def _ends_late(board: Board, obstacle: Obstacle) -> str:
    assert obstacle.until is not None
    kind = _clock(board, obstacle).kind
    return f"it would not be done by {obstacle.until:%H:%M}, for its {kind} before closing"


def _air(board: Board, obstacle: Obstacle) -> str:
    assert obstacle.air is not None
    return outside_in_words(obstacle.air, board.plan.vehicle.units)


def _place_closed(board: Board, obstacle: Obstacle) -> str:
    place = place_of_work(board, obstacle.task)
    where = f"the {place}" if place else "its place"
    closing = sheet_of_work(board, obstacle.hazard, obstacle.task)
    return f"{where} is closed: {closing.short}, {quoted_title(board.plan, obstacle.task)}"


def _place_taken(board: Board, obstacle: Obstacle) -> str:
    return f"it closes its place, and {quoted_title(board.plan, obstacle.task)} is under way there"


def _finished_without(board: Board, obstacle: Obstacle) -> str:
    title = quoted_title(board.plan, obstacle.task)
    return f"a lead answers first: {title} was finished without a begin"


def _together(board: Board, obstacle: Obstacle) -> str:
    one, other = board.plan.hazards[obstacle.hazard], board.plan.hazards[obstacle.other]
    if "minors" in (one.concerns, other.concerns):
        return f"{one.short if other.concerns == 'minors' else other.short} is not for under-18s"
    return f"{one.short} and {other.short} in one task"


def _waived_by_doer(board: Board, obstacle: Obstacle) -> str:
    hazard = board.plan.hazards[obstacle.hazard]
    return f'"{_check(hazard, obstacle)}" of {hazard.short} was waived by who does the work'


def _not_used(board: Board, obstacle: Obstacle) -> str:
    hazard = board.plan.hazards[obstacle.hazard]
    return f"{hazard.short}: do not use. {hazard.told(hazard.do_not_use).rstrip('.')}"


def _room(board: Board, obstacle: Obstacle) -> str:
    place = place_of_work(board, obstacle.task)
    titles = listed(quoted_title(board.plan, task) for task in obstacle.tasks)
    are = "is" if len(obstacle.tasks) == 1 else "are"
    return f"the {place} is full: {titles} {are} under way there"


def _temporary(board: Board, obstacle: Obstacle) -> str:
    what = board.history.temporary[obstacle.entry].what
    return f"undo first: {what}"


def _in_one_go(board: Board, obstacle: Obstacle) -> str:
    assert obstacle.until is not None
    assert obstacle.ends is not None
    people = how_many(obstacle.there, "person")
    return (
        f"it must not be left half done: with {people} it takes until "
        f"{when(obstacle.ends, board.at)}, and the shop closes at {obstacle.until:%H:%M}"
    )


def _half_done(board: Board, obstacle: Obstacle) -> str:
    return f"{quoted_title(board.plan, obstacle.task)} would be left half done"


_SHORT: dict[str, Callable[[Board, Obstacle], str]] = {
    "open-again": _open_again,
    "held-again": _held_again,
    "supply": _short_of,
    "follows-late": _follows_late,
    "unreadable": _unreadable,
    "under-18": _under_18,
    "age": _age,
    "adult": lambda _board, _lack: "no adult is named beside the under-18s",
    "watch": lambda board, lack: f"no {board.plan.hazards[lack.hazard].watch} is named",
    "busy": lambda board, lack: f"they are needed on {quoted_title(board.plan, lack.task)}",
    "certificate": _certificate,
    "paper": _paper,
    "few": _few,
    "many": _many,
    "skill": _skill,
    "beside": _beside,
    "not-with-us": _not_with_us,
    "signer": _signer,
    "finished-without": _finished_without,
    "together": _together,
    "near": _near,
    "place-closed": _place_closed,
    "place-taken": _place_taken,
    "clock": _clock_runs,
    "entry": _clock_runs,
    "no-closing": _no_closing,
    "too-late": _too_late,
    "ends-late": _ends_late,
    "air": _air,
    "room": _room,
    "kept": lambda _board, _obstacle: "it is kept for ever as it is",
    "not-used": _not_used,
    "picture": lambda _board, _obstacle: "there is no picture of how it was",
    "temporary": _temporary,
    "in-one-go": _in_one_go,
    "half-done": _half_done,
    "unnamed": lambda _board, obstacle: f'the word "{obstacle.word}" was not answered',
    "unopened": lambda _board, _obstacle: "the shop is not opened",
    "waived-by-doer": _waived_by_doer,
    "day-closed": lambda _board, _obstacle: "the day is closed",
}
