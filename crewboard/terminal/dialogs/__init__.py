"""Questions asked over a page: pick from a list, a line of text, a time span, yes or no."""

from __future__ import annotations

from crewboard.terminal.dialogs.ask import AskLine, AskSpan
from crewboard.terminal.dialogs.confirm import Confirm
from crewboard.terminal.dialogs.panel import Panel
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickSeveral

__all__ = ["AskLine", "AskSpan", "Choice", "Confirm", "Panel", "PickOne", "PickSeveral"]
