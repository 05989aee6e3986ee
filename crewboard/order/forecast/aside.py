"""How often a task is set aside in the end instead of being done, as the logbook tells it.

A Beta belief for each task that was finished or set aside (Gelman et al., Bayesian Data Analysis,
ch. 2). Only what the logbook set aside counts: what the plan's own files leave out was no surprise.
"""

from __future__ import annotations

from crewboard.order.board import Board

# What is believed before the log says anything: of forty tasks one, as four tasks would say (common
# sense, no source).
BEFORE_ASIDE, BEFORE_DONE = 0.1, 3.9


def aside(board: Board) -> tuple[float, float]:
    """What counts for and against in a beta distribution."""
    away = sum(is_aside(board, name) for name in board.standings)
    done = sum(
        standing.work_done and name in board.history.courses
        for name, standing in board.standings.items()
    )
    return BEFORE_ASIDE + away, BEFORE_DONE + done


def is_aside(board: Board, task: str) -> bool:
    """Whether the logbook has set it aside, by the board's moment."""
    course = board.history.courses.get(task)
    return board[task].state == "set aside" and course is not None and bool(course.set_aside)
