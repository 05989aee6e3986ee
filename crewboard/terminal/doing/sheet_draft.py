"""A sheet that is half typed in: kept on this computer with every key, and offered again."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from datetime import date

from crewboard.on_this_computer import draft_of, keep_draft
from crewboard.order.said import day_in_words, how_many
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.filled_sheet import Typed
from crewboard.terminal.dialogs.pick import Choice, PickOne


class SheetDraft:
    """What is typed of the sheet of one day in one vehicle's folder."""

    def __init__(self, app: BoardApp, day: date) -> None:
        self.app, self.day = app, day
        self._name = f"sheet {day} {os.path.abspath(app.workbench.folder.root)}"

    def typed(self) -> dict[str, dict[str, str]]:
        """What was typed before; nothing where that is none of ours any more."""
        try:
            rows = json.loads(draft_of(self._name))
        except (ValueError, RecursionError):
            return {}
        return {
            place: {key: text for key, text in texts.items() if isinstance(text, str)}
            for place, texts in (rows.items() if isinstance(rows, dict) else ())
            if isinstance(texts, dict)
        }

    def keep(self, typed: Typed) -> bool:
        """Keep it; whether it could be kept."""
        return keep_draft(self._name, json.dumps(typed) if typed else "")

    async def offered(self) -> Mapping[str, Mapping[str, str]] | None:
        """What to go on with, nothing to start anew; None when left."""
        typed = self.typed()
        if not typed:
            return {}
        rows = how_many(len(typed), "row")
        picked = await self.app.push_screen_wait(
            PickOne(
                f"The sheet of {day_in_words(self.day)} is half typed in",
                [
                    Choice("go on", "go on with it", f"{rows} with something in them"),
                    Choice("anew", "start anew", "what was typed is thrown away"),
                ],
            )
        )
        return None if picked is None else typed if picked == "go on" else {}
