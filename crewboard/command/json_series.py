"""The forms of `--json` (see `json_form`) for the same work on several pieces, and for jigs."""

from __future__ import annotations

from crewboard.command.json_form import Form
from crewboard.order.board import Board


def series_forms(board: Board) -> list[Form]:
    """The same work on several pieces: how much of it is done, and its tasks by piece."""
    return [
        {
            "id": series.id,
            "title": series.task.title,
            "done": board.progress(series.id)[0],
            "of": board.progress(series.id)[1],
            "places": series.places,
            "tasks": dict(series.members),
        }
        for series in board.plan.series.values()
    ]


def jig_forms(board: Board) -> list[Form]:
    return [
        {
            "id": jig.id,
            "name": jig.name,
            "number": jig.number,
            "taken_by": [*board.readiness.taken.get(jig.id, ())],
        }
        for jig in board.plan.vehicle.jigs.values()
    ]
