"""The rows of the morning sheet, part by part: each as many as there are."""

from collections.abc import Container, Iterator
from typing import Literal, NamedTuple

from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import course_in_words, hold_title, stage_in_words
from crewboard.order.left_alone import LeftAlone, left_alone
from crewboard.order.may.on_it import state_word
from crewboard.order.presence import of_the_day
from crewboard.order.safety.checks import Asked, checks_of, checks_of_the_day
from crewboard.order.safety.opening import unopened
from crewboard.order.safety.signing import who_signs
from crewboard.order.said import component_name, person, shortly
from crewboard.order.within import must_follow
from crewboard.order.within_words import by_in_words
from crewboard.plan.hold import KINDS
from crewboard.plan.units import unit_here
from crewboard.telling.task import people_wanted

Part = Literal[
    "leave alone", "due for a look", "who is here", "first jobs", "checks", "shop", "to close"
]
What = Literal["tick", "time", "name", "hours", "figure", "words"]

AT_ONE_JOB = 4  # people who can be written beside a job
_TITLE = 76  # characters of a name that fit into two lines of its column


class Blank(NamedTuple):
    """Something to be filled in: `key` is its name within the row, `says` what is printed."""

    key: str
    what: What
    says: str = ""


class MorningRow(NamedTuple):
    """One row. `about` is the id of a hold, a person, a task or, of a check, "hazard/check"; empty
    for a line left free. `task` is the task that a check is signed for. `first` is what stands
    before the text: a number, an end. `concerns` is the person for whom a check is signed. A row
    with `left_out` only says how many more there are.
    """

    part: Part
    text: str
    about: str = ""
    task: str = ""
    first: str = ""
    more: str = ""
    blanks: tuple[Blank, ...] = ()
    left_out: int = 0
    concerns: str = ""


def _short(text: str, most: int = _TITLE) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"


def alone(board: Board, but: Container[str]) -> Iterator[MorningRow]:
    """What must not be touched, but for the holds that stand among those to look at."""
    for entry in left_alone(board):
        if entry.hold is None or entry.hold.id not in but:
            yield _left_alone(board, entry)


def _left_alone(board: Board, entry: LeftAlone) -> MorningRow:
    name, hold = _short(entry.name), entry.hold
    where = component_name(board.plan, entry.component)
    where = f" ({_short(where, 30)})" if where and where not in entry.name else ""
    if hold is None:
        return MorningRow("leave alone", f"{name}{where}: kept as it is", first="for ever")
    ends = _end(board, hold)
    return MorningRow(
        "leave alone", f"{name}{where}: {KINDS[hold.kind].words}", hold.id, first=ends
    )


def _end(board: Board, hold: StandingHold) -> str:
    if hold.stage == "due":
        return "due for a look"
    if hold.outside is None and not hold.unread and hold.until is not None:
        return f"until {shortly(hold.until, board.at)}"
    return stage_in_words(board.plan, hold, board.at)


_LOOK = (
    Blank("released", "tick", "good: released"),
    Blank("until", "words", "or longer until"),
    Blank("who", "name"),
    Blank("at", "time"),
)


def looks(board: Board) -> Iterator[MorningRow]:
    """The holds that are due for a look, which are left alone until then."""
    for hold in board.stopping():
        if hold.stage == "due":
            since = course_in_words(board.plan, hold, board.at).rpartition(", ")[0]
            title = _short(hold_title(board.plan, hold))
            yield MorningRow("due for a look", title, hold.id, more=since, blanks=_LOOK)


_CAME = (Blank("came", "time"), Blank("left", "time"))


def people(board: Board) -> Iterator[MorningRow]:
    """Who is here, and who is expected."""
    for who in of_the_day(board):
        yield MorningRow("who is here", _short(person(board.plan, who), 28), who, blanks=_CAME)


EMPTY_NAME = MorningRow("who is here", "", blanks=_CAME)


_ON_JOB = (
    Blank("begun", "time"),
    *(Blank(f"on it {number}", "name") for number in range(1, AT_ONE_JOB + 1)),
    Blank("finished", "tick"),
    Blank("at", "time"),
)


def jobs(board: Board) -> Iterator[MorningRow]:
    """What can be done today in the order in which it goes first; where nobody may do any of it,
    what goes first all the same, each with what stands in its way."""
    first = what_goes_first(board)
    able = [job for job in first if not job.against]
    for number, job in enumerate(able or first, 1):
        yield _job(board, number, job)


ANOTHER_JOB = MorningRow("first jobs", "another job", blanks=_ON_JOB)


def _job(board: Board, number: int, job: First) -> MorningRow:
    standing = board[job.task]
    task = standing.task
    where = component_name(board.plan, task.component)
    begun = state_word(board, task.id) if standing.state == "under way" else ""
    follow = must_follow(board).get(job.task)
    by = by_in_words(board, follow).partition(": ")[0] if follow is not None else ""
    facts = (job.not_today, by, begun, where, task.place, people_wanted(board, task))
    more = ", ".join(filter(None, facts))
    title = _short(task.title)
    return MorningRow("first jobs", title, task.id, task.id, f"{number}.", _short(more), _ON_JOB)


_SIGNED = (Blank("signed", "tick"), Blank("who", "name"), Blank("at", "time"))


def opening(board: Board) -> list[MorningRow]:
    """What is signed before any dangerous work."""
    return [check_row(board, asked) for asked in unopened(board)]


def closing(board: Board) -> list[MorningRow]:
    """What is signed before everybody leaves; printed on the check sheet."""
    asked = (one for one in checks_of_the_day(board, "after") if one.open)
    return [check_row(board, one)._replace(part="to close") for one in asked]


def before(board: Board, job: MorningRow) -> list[MorningRow]:
    """The checks before a job that nobody has signed."""
    if not job.task:
        return []
    asked = checks_of(board, job.task, when="before")
    return [check_row(board, one)._replace(first=job.first) for one in asked if one.open]


def check_row(board: Board, asked: Asked) -> MorningRow:
    """A check in its words, with room to sign it."""
    check = asked.check
    signs = "" if check.signs == "anyone" else who_signs(check)
    of = person(board.plan, asked.who) if asked.who else ""
    blanks = [Blank("concerns", "name", "for")] if check.each_person and not of else []
    blanks += [Blank("named", "name", "who:")] if check.names else []
    more = "; ".join(filter(None, (f"for {of}" if of else "", signs)))
    more = f"({more})" if more else ""
    return MorningRow(
        "checks",
        asked.text,
        f"{asked.hazard.id}/{check.id}",
        asked.task,
        more=more,
        blanks=(*blanks, *_SIGNED),
        concerns=asked.who,
    )


def shop(board: Board) -> list[MorningRow]:
    """The shop's air, and what is worth noting."""
    reading = (
        Blank("at", "time", "at"),
        Blank("temperature", "figure", unit_here("°C", board.plan.vehicle.units)),
        Blank("humidity", "figure", "% humidity"),
    )
    notes = (Blank("note", "words"),)
    return [
        MorningRow("shop", "shop reading", "reading", blanks=reading),
        MorningRow("shop", "notes", "note", blanks=notes),
    ]
