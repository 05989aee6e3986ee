"""Who is expected on a day: who said so, and who usually comes.

Ids in the order of the crew list.
"""

from __future__ import annotations

from datetime import date

from crewboard.logbook.acts import Expected
from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board
from crewboard.order.presence import who_was_there

# Of the last so many days with people, somebody came to at least half: such a one is expected.
LOOK_BACK = 8


def expected_on(logbook: Logbook, day: date) -> dict[str, Expected]:
    """Each person's last word on whether they come that day."""
    of_day = logbook.days.get(day)
    return {
        entry.act.who: entry.act
        for entry in (of_day.counting if of_day else ())
        if isinstance(entry.act, Expected)
    }


def times_in_words(answer: Expected) -> str:
    """ "10:30 to 14:00", "from 10:30", "until 14:00"; empty for the whole day."""
    if answer.arrives and answer.leaves:
        return f"{answer.arrives:%H:%M} to {answer.leaves:%H:%M}"
    if answer.arrives:
        return f"from {answer.arrives:%H:%M}"
    return f"until {answer.leaves:%H:%M}" if answer.leaves else ""


def coming(board: Board) -> list[str]:
    """Who said that they come, and who usually does and did not say otherwise."""
    answers, usual = expected_on(board.logbook, board.at.date()), _usual(board)
    return [
        who for who in _crew(board) if (answers[who].coming if who in answers else who in usual)
    ]


def said_to_come(board: Board) -> list[str]:
    """Who said that they come on the day of the board."""
    answers = expected_on(board.logbook, board.at.date())
    return [who for who in _crew(board) if who in answers and answers[who].coming]


def of_the_day(board: Board) -> list[str]:
    """Who is here, and who said that they come; before anybody came, and after the last has left a
    shop that is closed, who is expected."""
    gone = {visit.who for visit in board.history.visits}
    here = [visit.who for visit in board.present if visit.who in board.plan.crew]
    if not gone or not (here or _is_open(board)):
        return coming(board)
    return here + [who for who in said_to_come(board) if who not in gone]


def _is_open(board: Board) -> bool:
    return board.opening is not None and board.at.time() < board.opening.closes


def _crew(board: Board) -> list[str]:
    today = board.at.date()
    return [who for who, volunteer in board.plan.crew.items() if volunteer.with_us_on(today)]


def _usual(board: Board) -> set[str]:
    """Who came to at least half of the last days with people, read back from today."""
    today = board.at.date()
    recent: list[dict[str, None]] = []
    for day in sorted(board.logbook.days, reverse=True):
        there = who_was_there(board.plan, board.logbook, day) if day < today else {}
        if there:
            recent.append(there)
        if len(recent) == LOOK_BACK:
            break
    if not recent:
        return set(board.plan.crew)
    return {who for who in board.plan.crew if 2 * sum(who in d for d in recent) >= len(recent)}
