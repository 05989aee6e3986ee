"""The crew as a list to pick from: who is here first."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.order.board import Board
from crewboard.terminal.dialogs.pick import Choice


def crew_choices(board: Board, *, only: Iterable[str] | None = None) -> list[Choice]:
    """Everybody with the crew that day: who is here first, with when they came."""
    here = {visit.who: visit for visit in board.present}
    day = board.at.date()
    known = board.plan.crew
    wanted = [p for p in known if known[p].with_us_on(day)] if only is None else list(only)
    order = sorted(wanted, key=lambda p: (p not in here, list(known).index(p)))
    return [
        Choice(
            p,
            known[p].name,
            f"here since {here[p].since:%H:%M}" if p in here else "",
            "strong" if p in here else "plain",
            p,
        )
        for p in order
        if p in known
    ]
