"""Findings from a text that is pasted: read line by line, shown, and saved all or none."""

from __future__ import annotations

from functools import partial

from crewboard.order.said import how_many
from crewboard.telling.dictated import cut_into_findings, dictated_lines
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.dictated import DictatedDialog


async def paste_findings(app: BoardApp) -> bool:
    """Ask for the text and write its findings; whether they were kept."""
    plan = app.board.plan
    dialog = DictatedDialog(partial(cut_into_findings, plan), partial(dictated_lines, plan))
    lines = await app.push_screen_wait(dialog)
    if not lines or not (await app.keep([one.found for one in lines])).kept:
        return False
    app.tell(f"saved: {how_many(len(lines), 'finding')}")
    return True
