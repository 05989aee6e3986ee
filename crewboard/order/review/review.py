"""All questions about the plan at the board's moment."""

from __future__ import annotations

from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.order.board import Board
from crewboard.order.review.faces import about_faces
from crewboard.order.review.links import about_links
from crewboard.order.review.pieces import about_pieces
from crewboard.order.review.question import RULES, Question
from crewboard.order.review.resources import about_people, about_supplies
from crewboard.order.review.series import once_for_a_series
from crewboard.order.review.times import about_times


def review(board: Board, path: CalendarPath | None = None) -> list[Question]:
    """What a good reviewer would ask about the unfinished work, by rule, then as in the files.

    Nothing found here is surely wrong: it is asked, with what to do. `path` where it was worked
    out before for this board.
    """
    path = path or calendar_path(board)
    questions = [
        *about_people(board, path),
        *about_supplies(board, path),
        *about_times(board, path),
        *about_links(board),
        *about_pieces(board, path),
        *about_faces(board),
    ]
    questions = list(once_for_a_series(board, questions))
    place = {rule: number for number, rule in enumerate(_WEIGHT)}
    return sorted(questions, key=lambda question: place[question.rule])


# What stops the work first, then what makes its dates wrong, then what is only untidy.
_FIRST = (
    "no such skill",
    "no certificate",
    "certificate lapses",
    "too few people",
    "too few pieces",
    "more than there are",
    "kept for ever",
    "order late",
    "delivery overdue",
    "date cannot be kept",
    "blocked by what is set aside",
    "no work days",
    "finished in the future",
)
_WEIGHT = (*_FIRST, *(rule for rule in RULES if rule not in _FIRST))
