"""Take a piece out of the steam box: said by one key on its row, asked once."""

from __future__ import annotations

from crewboard.logbook.acts import Steamed
from crewboard.order.said import quoted_title
from crewboard.order.steam import in_words, of_task
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.dialog import Confirm


async def out_of_the_box(app: BoardApp, task: str) -> bool:
    """Of several in the box of one task what went in first comes out; whether that was kept."""
    inside = of_task(app.board, task)
    if not inside:
        return False
    sure = Confirm("Out of the box?", [in_words(app.board, inside[0])], yes="it is out")
    if not await app.push_screen_wait(sure):
        return False
    out = Steamed(task, out=True, boiling=inside[0].boiling)
    if not (await app.keep([out])).kept:
        return False
    app.tell(f"out: {quoted_title(app.board.plan, task)}")
    return True
