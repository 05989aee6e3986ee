"""Sizes that were decided on, as a reckoning takes them: "gap between the deck boards is 3 mm"."""

import re
from collections.abc import Iterable, Iterator

from crewboard.logbook.acts import Act, SizeDecided
from crewboard.logbook.entry import Entry
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


def superseded(entries: Iterable[Entry]) -> dict[str, Entry]:
    """Each size decided on of which there is a later word, by its entry's id: the last one. It is
    of the same thing where it has the same name, is on the same piece or component, and is of all
    its tasks."""
    decided = sorted((e for e in entries if isinstance(e.act, SizeDecided)), key=lambda e: e.at)
    last: dict[str, Entry] = {}
    for number, entry in enumerate(decided):
        for later in decided[number + 1 :]:
            if _of_the_same(entry.act, later.act):
                last[entry.id] = later
    return last


def _of_the_same(one: Act, other: Act) -> bool:
    assert isinstance(one, SizeDecided)
    assert isinstance(other, SizeDecided)
    same = " ".join(one.what.split()).casefold() == " ".join(other.what.split()).casefold()
    of_all = not other.tasks or set(one.tasks) <= set(other.tasks)
    on_one = (one.piece, one.component) == (other.piece, other.component)
    return same and on_one and of_all


def superseded_in_words(later: Entry) -> str:
    """ "superseded on Sat 2 May 2026: 3 mm"."""
    assert isinstance(later.act, SizeDecided)
    return f"superseded on {day_in_words(later.at.date())}: {later.act.value}"


def _is_length(text: str, units: str) -> bool:
    try:
        length(text, units)
    except Unread:
        return False
    return True
