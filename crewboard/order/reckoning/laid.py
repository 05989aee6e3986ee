"""The boards of a layout as pieces of the plan say them: how wide each is, and where it lies."""

from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.trade.reckoning import Reckoning


class BoardLaid(NamedTuple):
    """ "152 mm wide", "155 mm from the left edge"."""

    size: str
    place: str


def boards_laid(answer: Reckoning, units: str) -> list[BoardLaid]:
    """The new boards from the left; old ones are pieces already. Raises Unread where there are
    none."""
    new = [board for board in answer.laid if not board.old]
    if not new:
        raise Unread("no new boards are laid in this", "reckon boards that add up")
    return [
        BoardLaid(f"{shown(b.width, units)} wide", f"{shown(b.at, units)} from the left edge")
        for b in new
    ]
