"""Who is expected on the day of the board: who said so, and who usually comes.

Ids in the order of the crew list.
"""

from __future__ import annotations

from crewboard.logbook.acts import Expected, HoursWorked, SignIn
from crewboard.order.board import Board

# Of the last so many days with people, somebody came to at least half: such a one is expected.
LOOK_BACK = 8


def coming(board: Board) -> list[str]:
    """Who said that they come, and who usually does and did not say otherwise."""
    said, usual = _said(board), _usual(board)
    return [who for who in _crew(board) if said.get(who, who in usual)]


def said_to_come(board: Board) -> list[str]:
    """Who said that they come on the day of the board."""
    said = _said(board)
    return [who for who in _crew(board) if said.get(who, False)]


def _crew(board: Board) -> list[str]:
    today = board.at.date()
    return [who for who, volunteer in board.plan.crew.items() if volunteer.with_us_on(today)]


def _said(board: Board) -> dict[str, bool]:
    day = board.logbook.days.get(board.at.date())
    acts = [entry.act for entry in day.counting] if day else []
    return {act.who: act.coming for act in acts if isinstance(act, Expected)}


def _usual(board: Board) -> set[str]:
    today = board.at.date()
    came = [
        {e.act.who for e in day.counting if isinstance(e.act, SignIn | HoursWorked)}
        for day in board.logbook.days.values()
        if day.date < today
    ]
    recent = [each for each in came if each][-LOOK_BACK:]
    if not recent:
        return set(board.plan.crew)
    return {who for who in board.plan.crew if 2 * sum(who in d for d in recent) >= len(recent)}
