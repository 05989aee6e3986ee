"""Say whose name stands under what is written."""

from __future__ import annotations

from crewboard.order.said import person
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.people import crew_choices

_NOBODY = "(nobody)"


async def your_name(app: BoardApp) -> None:
    """Ask who writes; the name goes beside every entry until another is said."""
    choices = [*crew_choices(app.board), Choice(_NOBODY, "nobody in particular")]
    picked = await app.push_screen_wait(PickOne("Who writes?", choices, at=app.by))
    if picked is None:
        return
    app.by = "" if picked == _NOBODY else picked
    app.tell(f"{person(app.board.plan, app.by)} writes" if app.by else "no name is written")
