"""The form of `--json` (see `json_form`) for the programme of the next work days."""

from __future__ import annotations

from crewboard.command.json_form import Form, form_of
from crewboard.order.board import Board
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.programme.around import around
from crewboard.order.programme.no_day import finds_no_day
from crewboard.order.programme.programme import Made


def programme_form(board: Board, made: Made) -> Form:
    beside = around(board, made)
    days = [
        {
            **day._asdict(),
            "openings": [{"opens": o.opens, "closes": o.closes} for o in day.openings],
            "turns": [turn._asdict() for turn in day.turns],
            "small": [job._asdict() for job in day.small],
            "due": [due._asdict() for due in its.due],
            "must_be_there": [
                {**thing._asdict(), "hold": thing.hold.id if thing.hold is not None else ""}
                for thing in its.must_be
            ],
            "ask": [
                {"tasks": ask.tasks, "lacks": _lacks(ask.lacks), "could": ask.could}
                for ask in its.ask
            ],
        }
        for day, its in zip(made.programme.days, beside, strict=True)
    ]
    no_day = [one._asdict() for one in finds_no_day(made)]
    return form_of("programme", at=board.at, days=days, finds_no_day=no_day)


def _lacks(obstacle: Obstacle) -> Form:
    return {
        "code": obstacle.code,
        "skill": obstacle.skill,
        "certificate": obstacle.certificate,
        "hazard": obstacle.hazard,
        "people": max(0, obstacle.needed - obstacle.there),
    }
