"""A question about the same work on several pieces is asked once, of the task as it is written."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from crewboard.order.board import Board
from crewboard.order.review.question import Question

_QUOTED = re.compile(r'"([^"]+)"')


def once_for_a_series(board: Board, questions: Iterable[Question]) -> Iterator[Question]:
    """The questions in their order; of those of one rule about tasks of one series the first, in
    the words of the series. Where it is not about all of its tasks it says about how many."""
    if not board.plan.series:
        yield from questions
        return
    asked: dict[tuple[str, str, str], list[Question]] = {}
    for question in questions:
        task = board.plan.tasks.get(question.id) if question.about == "task" else None
        about = (question.rule, task.series, question.key) if task and task.series else None
        asked.setdefault(about or (question.rule, question.id, question.says), []).append(question)
    titles = _titles(board)
    for (_, name, _), alike in asked.items():
        if name in board.plan.series and alike[0].id != name:
            yield _of_series(board, name, alike, titles)
        else:
            yield from alike


def _of_series(board: Board, name: str, alike: list[Question], titles: dict[str, str]) -> Question:
    def in_series_words(text: str) -> str:
        return _QUOTED.sub(lambda quoted: f'"{titles.get(quoted[1], quoted[1])}"', text)

    first, members = alike[0], board.plan.series[name].members.values()
    to_do = sum(not board[task].work_done and task not in board.not_asked for task in members)
    some = f" ({len(alike)} of its {len(members)} pieces)" if len(alike) < to_do else ""
    return first._replace(
        id=name, says=in_series_words(first.says) + some, do=in_series_words(first.do)
    )


def _titles(board: Board) -> dict[str, str]:
    """The title of each task of a series -> that of the series."""
    plan = board.plan
    return {
        plan.tasks[task].title: series.task.title
        for series in plan.series.values()
        for task in series.members.values()
    }
