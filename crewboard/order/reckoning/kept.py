"""The answers that were kept for a task, and what of them is a danger."""

from collections.abc import Iterable, Iterator
from typing import Literal

from crewboard.logbook.acts import Reckoned
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.order.board import Board
from crewboard.order.said import quoted_title
from crewboard.plan.as_typed import Unread
from crewboard.plan.task import Task


def kept_on(board: Board, task: Task) -> list[Entry]:
    """All that were kept for a task or for another of its series, in order of time."""
    entries = (entry for entry in board.logbook.record() if entry.at <= board.at)
    kept = (e for e in entries if isinstance(e.act, Reckoned) and _is_for(board, task, e.act))
    return sorted(kept, key=lambda entry: entry.at)


def _is_for(board: Board, task: Task, act: Reckoned) -> bool:
    """An answer for one of a series is of use to all of it."""
    other = board.plan.tasks.get(act.task)
    return act.task == task.id or bool(other and task.series and other.series == task.series)


def kept_of(board: Board, thing: Literal["piece", "component"], some_id: str) -> list[Entry]:
    """Those kept for a piece or a component, in order of time, but for what was reckoned anew. Of
    days that name none of them nothing is read that was put off."""
    kept = [
        entry
        for day in board.logbook.days.values()
        if _may_have(day, thing, some_id)
        for entry in day.record
        if entry.at <= board.at
        and isinstance(entry.act, Reckoned)
        and getattr(entry.act, thing) == some_id
    ]
    anew = {entry.act.before for entry in kept if isinstance(entry.act, Reckoned)}
    return sorted((e for e in kept if e.id not in anew), key=lambda entry: entry.at)


def _may_have(day: Day, thing: str, some_id: str) -> bool:
    if day.put_off is None or any(isinstance(e.act, Reckoned) for e in day.at_hand):
        return True
    return some_id in day.put_off.names.get((KINDS_OF_ENTRY[Reckoned].word, thing), ())


def dangers_reckoned(board: Board, tasks: Iterable[Task]) -> Iterator[str]:
    """A sentence for each answer kept for these tasks whose cautions name a danger; of one that was
    reckoned anew only the last."""
    said = set[str]()
    for task in tasks:
        kept = kept_on(board, task)
        anew = {entry.act.before for entry in kept if isinstance(entry.act, Reckoned)}
        for entry in kept:
            dangers = () if entry.id in said or entry.id in anew else _dangers(entry.act)
            said.add(entry.id)
            if dangers:
                yield f"{quoted_title(board.plan, task.id)}: {'; '.join(dangers)}"


def _dangers(act: object) -> tuple[str, ...]:
    """As the answer says when it is worked out again; nothing where it cannot be."""
    from crewboard.trade.kind import given_again, reckon  # most tasks have none kept
    from crewboard.trade.kinds import KINDS, kind_named

    if not isinstance(act, Reckoned) or act.about not in KINDS:
        return ()
    try:
        return reckon(kind_named(act.about), given_again(act.given, act.known, "metric")).dangers
    except Unread:
        return ()
