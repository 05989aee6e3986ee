"""The forms of `--json` (see `json_form`) for what is taken in and what waits to be sorted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command.json_folder import outcome_form
from crewboard.command.json_form import Form, form_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from crewboard.logbook.record.waiting import FileWaiting
    from crewboard.order.board import Board
    from crewboard.telling.dictated import Dictated
    from crewboard.workbench.taking_in import TakenIn


def taken_in_form(taken: TakenIn) -> Form:
    """As for everything that is written, with what was passed over."""
    passed = [
        {"path": one.path, "why": one.why, "here": one.here or None} for one in taken.passed_over
    ]
    return {**outcome_form(taken.outcome), "passed_over": passed}


def waiting_form(board: Board, waiting: Sequence[FileWaiting]) -> Form:
    files = [
        {
            "entry": one.entry,
            "file": one.act.file,
            "kind": "recording" if one.is_recording else "picture",
            "taken": one.act.taken,
            "taken_by": one.act.taken_by or None,
            "called": one.act.called,
        }
        for one in waiting
    ]
    return form_of("waiting", at=board.at, files=files)


def dictated_form(lines: Sequence[Dictated]) -> Form:
    found = [
        {
            "line": one.number,
            "seen": one.found.seen,
            "thought": one.found.thought,
            "piece": one.found.piece or None,
            "component": one.found.component or None,
            "could_be": one.of,
            "no_such_piece": one.nothing or None,
        }
        for one in lines
    ]
    return form_of("dictated", findings=found)
