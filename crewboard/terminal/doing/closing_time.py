"""Until when the shop is open today: asked for where nobody has said it."""

from __future__ import annotations

from crewboard.logbook.acts import Act, OpenUntil
from crewboard.order.admit.rules import refusals
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine


async def ask_closing_time(app: BoardApp, act: Act) -> bool:
    """Where the act asks for it, ask when the shop is left today, once for the day, and write it;
    False where that was not answered."""
    if not any(refusal.code == "no-closing" for refusal in refusals(app.board, act, app.by)):
        return True

    def wrong(typed: str) -> str | None:
        try:
            as_typed.clock(typed)
        except Unread as unread:
            return str(unread)
        return None

    intro = "Today is no work day: nobody has said when the shop closes. The watch has to fit in."
    ask = AskLine("Until when is the shop open?", "a time such as 17:00", intro=intro, check=wrong)
    typed = await app.push_screen_wait(ask)
    if typed is None:
        return False
    return (await app.keep([OpenUntil(as_typed.clock(typed))])).kept
