"""What `crewboard begin` offers where nobody was named: the people whom the plan of the day has."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from crewboard.command.typed import Call
from crewboard.logbook.acts import Act, Begun

if TYPE_CHECKING:
    from crewboard.order.board import Board


def offer_people(call: Call, board: Board, acts: Sequence[Act]) -> None:
    """Say how to begin with them; nobody is put on anything by it."""
    from crewboard.order.day_plan.taken_over import planned_for
    from crewboard.telling.by_plan import planned_in_words

    here = {visit.who for visit in board.present}
    for act in acts:
        if isinstance(act, Begun) and not act.people and (planned := planned_for(board, act.task)):
            who = [person for person in planned.people if person in here]
            if who:
                call.out.talk(f"{planned_in_words(board, act.task)}: --who {' '.join(who)}")
