"""Questions about coats: hidden faces come before shown ones, and before what covers them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from crewboard.order.board import Board
from crewboard.order.review.question import Question
from crewboard.order.said import quoted_title
from crewboard.plan.task import Task

RULE = "hidden faces first"
# Words of a title, where the task has no `faces`. (The trade's own words; rule of this program, no
# source.)
_COATS = ("coat", "paint", "varnish", "prime", "primer", "oil", "seal")
_HIDDEN = ("hidden", "back", "underside", "unseen", "inside")
_SHOWN = ("shown", "visible", "outside")
_COVERS = ("lay", "nail", "tack", "stretch", "cover", "board", "plank", "clad", "screw", "hang")
_NOT_YET = ("out", "dry")  # "lay out", "dry": what is only tried covers nothing


def about_faces(board: Board) -> Iterator[Question]:
    """Of each coat on hidden faces that is still to do: coats on shown faces of the same pieces or
    component, and work there that covers them, which the order of work does not put behind it."""
    tasks = [s.task for s in board.standings.values() if _asked(board, s.task)]
    hidden = [task for task in tasks if _is_hidden(task)]
    if not hidden:
        return
    by_place: dict[str, list[Task]] = {}
    for task in tasks:
        if _is_shown(task) or _covers(task):
            for place in _places(task):
                by_place.setdefault(place, []).append(task)
    for first in hidden:
        near = {t.id: t for place in _places(first) for t in by_place.get(place, ())}
        near.pop(first.id, None)
        if near:
            behind = board.order.all_behind(first.id)
            yield from (_question(board, first, t) for t in near.values() if t.id not in behind)


def faces_of(board: Board, task_id: str) -> list[Question]:
    """Those that a task, or any of a series, has a part in: as the hidden face or as the other."""
    plan = board.plan
    series = plan.series.get(task_id)
    ids = {task_id, *(series.members.values() if series is not None else ())}
    titles = {quoted_title(plan, one) for one in ids}
    return [q for q in about_faces(board) if q.id in ids or any(t in q.says for t in titles)]


def in_order(board: Board, task_id: str) -> list[str]:
    """Of a coat on hidden faces: the titles of what rightly comes behind it; of one on what shows,
    of the coats of hidden faces before it."""
    task = board.plan.tasks.get(task_id)
    if task is None or not _is_coat(task):
        return []
    every = [t for t in board.plan.tasks.values() if set(_places(t)) & set(_places(task))]
    if _is_hidden(task):
        behind = board.order.all_behind(task_id)
        return [t.title for t in every if t.id in behind and (_is_shown(t) or _covers(t))]
    before = board.order.all_before(task_id) if _is_shown(task) else set()
    return [t.title for t in every if t.id in before and _is_hidden(t)]


def _question(board: Board, first: Task, then: Task) -> Question:
    name, other = quoted_title(board.plan, first.id), quoted_title(board.plan, then.id)
    what = "is the coat of what shows" if _is_shown(then) else "covers what is to be coated"
    before = first.id in board.order.all_behind(then.id)
    order = "the plan has it before" if before else "the plan does not put it behind"
    says = f"{other} {what}, and {order} {name}, the coat of hidden faces"
    do = "let hidden faces be coated first: say so with after, or say in the method why not"
    return Question(RULE, "task", then.id, says, do, "after")


def _asked(board: Board, task: Task) -> bool:
    standing = board[task.id]
    aside = standing.state == "set aside" or task.id in board.not_asked
    return not standing.work_done and not aside


def _places(task: Task) -> tuple[str, ...]:
    """Its pieces; without pieces its component."""
    return task.pieces or (task.component,)


@lru_cache(maxsize=4096)
def _words(title: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\W\d]+", title.casefold()))


def _has(task: Task, words: tuple[str, ...]) -> bool:
    return any(word in (w, f"{w}s", f"{w}ing") for word in _words(task.title) for w in words)


def _is_coat(task: Task) -> bool:
    if task.faces is not None:
        return task.faces != "covers"
    return _has(task, _COATS) or (task.hold is not None and task.hold.kind == "dry")


def _is_hidden(task: Task) -> bool:
    if task.faces is not None:
        return task.faces == "hidden"
    return _is_coat(task) and _has(task, _HIDDEN)


def _is_shown(task: Task) -> bool:
    if task.faces is not None:
        return task.faces == "shown"
    return _is_coat(task) and _has(task, _SHOWN) and not _has(task, _HIDDEN)


def _covers(task: Task) -> bool:
    """Whether it says so, or its title begins with what closes a face off: "Lay the boards", not
    "Lay out"."""
    if task.faces is not None:
        return task.faces == "covers"
    words = _words(task.title)
    return bool(words) and words[0] in _COVERS and not set(words[1:]) & set(_NOT_YET)
