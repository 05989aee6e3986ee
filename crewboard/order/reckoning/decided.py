"""Sizes that were decided on, as a reckoning takes them: "gap between the deck boards is 3 mm"."""

import re
from collections.abc import Iterator

from crewboard.logbook.acts import SizeDecided
from crewboard.order.board import Board
from crewboard.order.said import day_in_words
from crewboard.plan.as_typed import Unread
from crewboard.plan.length import length
from crewboard.plan.task import Task
from crewboard.trade.given import Known


def decided_for(board: Board, task: Task | None, component: str) -> Iterator[tuple[str, Known]]:
    """Under "decided" and each word of what was decided, so that "overhang of the deck" is found by
    "decided overhang": for the task, else for its component; the last word on it counts. What is no
    length is left out."""
    entries = [e for e in board.logbook.record() if e.at <= board.at]
    decided = [(e, act) for e in entries if isinstance(act := e.act, SizeDecided)]
    component = component or (task.component if task is not None else "")
    names = {task.id, task.series} if task is not None else set[str]()
    of_component = [d for d in decided if component and d[1].component == component]
    of_task = [d for d in decided if names.intersection(d[1].tasks)]
    for found in (of_component, of_task):
        for entry, act in sorted(found, key=lambda one: one[0].at):
            if _is_length(act.value, board.plan.vehicle.units):
                known = Known(act.value, f"{act.what}, decided {day_in_words(entry.at.date())}")
                words = re.findall(r"[^\W\d]+", act.what.casefold())
                yield from ((f"decided {word}", known) for word in words)


def _is_length(text: str, units: str) -> bool:
    try:
        length(text, units)
    except Unread:
        return False
    return True
