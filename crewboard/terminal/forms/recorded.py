"""Acts of the logbook kept from a form: what stands against them goes back to the form."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.logbook.acts import Act
from crewboard.order.refusal import Refusal
from crewboard.terminal.board_app import BoardApp
from crewboard.workbench import Said


def record_here(app: BoardApp, act: Act, despite: str = "", by: str = "") -> Sequence[Refusal]:
    """Write the act; what stands against it goes back to the form, where nothing is lost."""
    now = app.now()
    outcome = app.workbench.record([Said(act, now, despite=despite)], by=by or app.by, now=now)
    app.look_now()
    return outcome.refused
