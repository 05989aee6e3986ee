"""What stands in the way of closing the work day.

Unsigned checks yield to a named person's recorded reason: people have to go home, and the logbook
has to say who decided that they could. A clock that keeps the shop open yields only to a lead who
is here and names the adult who stays until it is out.
"""

from collections.abc import Iterator

from crewboard.logbook.acts import Act, ClosedDay, GuestLeft, SignOut
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.presence import who_stays
from crewboard.order.safety.checks import Asked, checks_of, checks_of_the_day
from crewboard.order.safety.clocks import ProtectiveClock, clock_in_words, still_running
from crewboard.order.safety.signatures import signatures
from crewboard.order.safety.signing import who_signs
from crewboard.order.said import day_in_words, listed, person, quoted_title, when


def after_checks(board: Board) -> list[Asked]:
    """The after-checks that this day asks for, signed or not: of the work done today, then of the
    shop itself. A check of each task is asked for once the task's work is finished."""
    asked: dict[tuple[str, str, str], Asked] = {}
    signed = signatures(board)
    for task_id in signed.worked:
        if task_id not in board.plan.tasks:
            continue
        finished = board[task_id].work_done
        for asking in checks_of(board, task_id, when="after"):
            if asking.check.every == "task" and not finished:
                continue
            if asking.hazard.concerns == "alone" and not _worked_alone(board, asking):
                continue  # the last one to leave is alone too
            task = "" if asking.check.every == "day" else task_id
            asked.setdefault((asking.hazard.id, asking.check.id, task), asking)
    for asking in checks_of_the_day(board, "after"):
        asked.setdefault((asking.hazard.id, asking.check.id, ""), asking)
    return list(asked.values())


def _worked_alone(board: Board, asked: Asked) -> bool:
    """Whether it was said before the work that it is done alone, or the task says so itself."""
    if asked.hazard.id in board.plan.tasks[asked.task].hazards:
        return True
    signed = signatures(board)
    before = (check for check in asked.hazard.checks if check.when == "before")
    return any(signed.of(asked.hazard, check, asked.task, "") for check in before)


def closing_clocks(board: Board) -> list[ProtectiveClock]:
    """The clocks that the shop may not be left before: running, or still to start."""
    return [running for running in still_running(board) if running.clock.guards == "closing"]


def close_refusals(
    board: Board, despite: str = "", by: str = "", stays: str = "", *, past: bool = False
) -> list[Refusal]:
    """What stands against closing the day at the board's moment.

    A reason (`despite`) of a named member of the crew (`by`) overrules what yields to them. `stays`
    is who stays until the clocks are out: nobody of a `past` day on which everybody has signed out.
    """
    clocks = closing_clocks(board)
    refusals = [*_goes_on(board), *_unknown(board)]
    refusals += [_running(board, running) for running in clocks]
    refusals += [_unsigned(board, asking) for asking in after_checks(board) if asking.open]
    if stays or (clocks and (board.present or not past)):
        refusals += _who_stays(board, clocks, stays, by)
    who, day = board.plan.crew.get(by), board.at.date()
    if despite.strip() and who is not None:
        return [refusal for refusal in refusals if not refusal.overruled_by(who, day)]
    if refusals and despite.strip():
        sentence = "a reason for closing the day all the same needs the name of who gives it"
        refusals.insert(0, Refusal("by", sentence, "say who decides it"))
    return refusals


def _goes_on(board: Board) -> list[Refusal]:
    """A past day is closed when it has ended, not in the middle of what the logbook says of it."""
    day = board.at.date()
    of_day = board.logbook.days.get(day)
    entries = of_day.counting if of_day else ()
    later = [e.at for e in entries if board.at < e.at and e.at.date() == day]
    if not later:
        return []
    sentence = f"the logbook of {day_in_words(day)} goes on until {later[-1]:%H:%M}"
    return [Refusal("early", sentence, f"close the day as of then or later; {_MEND}", True)]


def _who_stays(
    board: Board, clocks: list[ProtectiveClock], stays: str, by: str
) -> Iterator[Refusal]:
    """An adult who is here stays, and a lead who is here says so."""
    here = {visit.who for visit in board.present}
    name, day = person(board.plan, stays), board.at.date()
    until = listed(dict.fromkeys(f"the {end_in_words(board, clock)}" for clock in clocks))
    if not stays:
        sentence = f"say who stays: {until}"
        mend = "name an adult who is here: --stays, or y on the screen"
        yield Refusal("stays", sentence, f"{mend}; of a past day, sign out first who had left")
    elif stays not in here:
        yield Refusal("stays", f"{name} is not here and cannot stay", "name somebody who is")
    elif stays in board.plan.crew and not board.plan.crew[stays].adult_on(day):
        mend = "name an adult; that somebody is one is written into crew.toml: adult = true"
        yield Refusal("stays", f"nobody has said that {name} is of age", mend)
    if clocks and by in board.plan.crew and by not in here:
        sentence = f"{person(board.plan, by)} is not here: inside a clock a lead who is closes"
        yield Refusal("lead-here", sentence, "let a lead who is here close the day")


def end_in_words(board: Board, clock: ProtectiveClock) -> str:
    """ "fire watch runs until 16:40", "fire watch has not started"."""
    if clock.until is None:
        return f"{clock.clock.kind} has not started"
    return f"{clock.clock.kind} runs until {when(clock.until, board.at)}"


# Of these nobody knows what of the day's work may still burn, cool or run.
_HIDES_CLOCKS = ("vehicle", "hazards", "component", "day", "folder")


def _unknown(board: Board) -> list[Refusal]:
    """What cannot be read and was never read: its dangers and clocks are not among those below."""
    mend = f"look at all work places; mend it, {_LEAD}"
    return [
        Refusal(
            "unreadable", f"{unread.says}: what may still run is not known", mend, True, lead=True
        )
        for unread in board.unreadable
        if unread.kind in _HIDES_CLOCKS and not unread.remembered
    ]


def closing_acts(board: Board, closed: ClosedDay) -> list[Act]:
    """What is written when the day is closed: that, and that whoever is still here leaves, but for
    who stays."""
    leaving = (visit.who for visit in board.present if visit.who != closed.stays)
    guests = (GuestLeft(visit.name) for visit in board.guests)
    return [closed, *guests, *map(SignOut, leaving)]


def leave_refusals(board: Board, who: str) -> list[Refusal]:
    """What stands against the going home of who stays behind for a clock."""
    clocks = closing_clocks(board) if who == who_stays(board) else []
    return [
        Refusal(
            "stays",
            f"{person(board.plan, who)} stays: the {end_in_words(board, clock)}",
            "stay until then, or a lead says why nobody has to",
            True,
            lead=True,
        )
        for clock in clocks
    ]


_MEND = "or close the day with your name and the reason"
_LEAD = "or a lead who is here closes the day with the reason, and says who stays"


def _running(board: Board, running: ProtectiveClock) -> Refusal:
    title = quoted_title(board.plan, running.task)
    if running.until is None:
        sentence = f"nobody has said that {running.hazard.short} in {title} has ended"
        mend = f"sign when it ended: the {running.clock.kind} is {running.rule.amount}; {_LEAD}"
        return Refusal("clock", sentence, mend, True, lead=True)
    sentence = (
        f"the {clock_in_words(board.plan, running.clock, running.task)} runs until "
        f"{when(running.until, board.at)}"
    )
    return Refusal("clock", sentence, f"stay until then; {_LEAD}", True, lead=True)


def _unsigned(board: Board, asked: Asked) -> Refusal:
    where = f' ("{board.plan.tasks[asked.task].title}")' if asked.task else ""
    who = f" by {person(board.plan, asked.who)}" if asked.who else ""
    sentence = (
        f'the check "{asked.check.short}" of {asked.hazard.short}{where} is not signed{who}: '
        f"{asked.text.rstrip('.')}"
    )
    return Refusal(
        "unsigned", sentence, f"look, then sign it: {who_signs(asked.check)}; {_MEND}", True
    )
