"""The day's safety talk on the screen: pick the work of the day, then read it out."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.safety.briefing import briefing
from crewboard.telling.briefing import briefing_lines
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.panel import Panel
from crewboard.terminal.dialogs.pick import PickSeveral
from crewboard.terminal.doing.choose import task_choices

_WHOLE = 100_000  # columns: the lines are wrapped where they are shown


async def show_briefing(app: BoardApp, at: str = "") -> None:
    """Ask which work the talk is for, those under way marked, and show it."""
    board = app.board
    going = [s.task.id for s in board.in_state("under way")]
    tasks = await app.push_screen_wait(
        PickSeveral(
            "Safety talk for which work?",
            task_choices(board, ("under way", "ready")),
            marked=going,
            at=at,
            empty="nothing is ready or under way",
        )
    )
    if tasks is not None:
        await app.push_screen_wait(Panel("Safety talk", talk_lines(board, tasks)))


def talk_lines(board: Board, tasks: tuple[str, ...]) -> list[Line]:
    """The talk as lines to read."""
    return list(_toned(briefing_lines(briefing(board, tasks), _WHOLE)))


def _toned(lines: list[str]) -> Iterator[Line]:
    """What may not be done in red, dangers in orange, what must be done in blue."""
    tones = {
        "Leave alone": "danger",
        "What must end when": "warning",
        "Still running": "warning",
        "In an emergency": "must",
    }
    words = {"may not": "danger", "gear": "must", "keep away from": "danger", "needs": "must"}
    for number, text in enumerate(lines):
        bare = text.lstrip()
        indent = len(text) - len(bare)
        if number == 0 or (bare and number > 1 and indent == 0):
            yield Line(bare, tones.get(bare, "strong"), bold=True)
            continue
        word, mark, rest = bare.partition(": ")
        if mark and indent == 2 and word in words:
            yield Line(rest, words[word], indent, f"{word}:")
        elif bare.startswith("- "):
            yield Line(bare[2:], "faint", indent, "-")
        else:
            yield Line(bare, "faint" if number == 1 else "plain", indent)
