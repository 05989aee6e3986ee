"""Call a work day off, with the reason."""

from __future__ import annotations

from datetime import date
from itertools import islice

from crewboard.folder.edit.plan_edits import CallOff
from crewboard.order.said import day_in_words
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOne

_DAYS_AHEAD = 12


async def call_off(app: BoardApp) -> None:
    """Pick a work day to come and say why; or one that was called off, which is then held."""
    days, today = app.board.plan.vehicle.work_days, app.board.at.date()
    notes = dict.fromkeys(islice(days.coming(today), _DAYS_AHEAD), "")
    notes |= {
        day: f"called off{f': {why}' if why else ''}" for day, why in days.closed if day >= today
    }
    choices = [Choice(day.isoformat(), day_in_words(day), notes[day]) for day in sorted(notes)]
    picked = await app.push_screen_wait(
        PickOne("Which work day is called off?", choices, empty="no work day is planned")
    )
    if picked is None:
        return
    day = date.fromisoformat(picked)
    why: str | None = None
    if days.called_off(day) is None:
        why = await app.push_screen_wait(AskLine(f"Call off {day_in_words(day)}", "why"))
        if why is None:
            return
    edit = CallOff(day, why)
    says = "called off" if why is not None else "held after all"
    app.do(
        lambda: app.workbench.change(edit, says="a work day called off", today=today),
        lambda outcome: app.tell(f"{says}: {day_in_words(day)}") if outcome.kept else None,
    )
