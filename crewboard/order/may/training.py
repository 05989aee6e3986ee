"""Under-18s whom a lead lets take part for training in what their sheets keep for adults.

Only where the sheet allows that at all (`training`), and for a year; an adult stays beside them.
"""

from collections.abc import Iterable
from datetime import datetime, time
from functools import lru_cache

from crewboard.logbook.acts import Training
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.said import listed, person, quoted_title
from crewboard.plan.duration import Duration
from crewboard.plan.hazard import Hazard

GOOD_FOR = Duration(months=12)


def learners(board: Board, task_id: str, hazards: Iterable[Hazard]) -> frozenset[tuple[str, str]]:
    """Who may take part in which of these hazards of the task for training: (person, hazard)."""
    barred = [hazard for hazard in hazards if not hazard.under_18 and hazard.training]
    if not barred:
        return frozenset()
    return frozenset(
        (act.who, hazard.id)
        for act in _trainings(board)
        for hazard in barred
        if act.hazard in ("", hazard.id) and act.task in ("", task_id)
    )


@lru_cache(maxsize=4)
def _trainings(board: Board) -> tuple[Training, ...]:
    """The lines that count now: written by a lead, not older than a year."""
    acts = []
    for day in board.logbook.days.values():
        start = datetime.combine(day.date, time.min)
        if day.date > board.at.date() or board.plan.clock.add(start, GOOD_FOR) <= board.at:
            continue
        for entry in day.events:
            act = entry.act
            if isinstance(act, Training) and entry.at <= board.at and not _against(board, act):
                acts.append(act)
    return tuple(acts)


def training_refusals(board: Board, act: Training) -> list[Refusal]:
    """What stands against a lead's letting somebody take part for training."""
    return _against(board, act)


def _against(board: Board, act: Training) -> list[Refusal]:
    name, lead = person(board.plan, act.lead), board.plan.crew.get(act.lead)
    day = board.at.date()
    if lead is None or not lead.leads_on(day) or not lead.with_us_on(day):
        return [Refusal("lead", f"{name} is no lead of age", "a lead of the crew decides it")]
    if not act.why.strip():
        return [Refusal("why", "say what is learnt, and how they are kept safe", "add the reason")]
    if not act.hazard and not act.task:
        return [Refusal("empty", "say which hazard, or which task", "write --hazard or --task")]
    return _not_for_training(board, act)


def _not_for_training(board: Board, act: Training) -> list[Refusal]:
    task = board.plan.tasks.get(act.task)
    ids = (act.hazard,) if act.hazard else (task.hazards if task else ())
    sheets = [board.plan.hazards[some_id] for some_id in ids if some_id in board.plan.hazards]
    never = [sheet.short for sheet in sheets if not sheet.under_18 and not sheet.training]
    if act.hazard and not sheets:
        return [Refusal("unknown-hazard", f'no task names a hazard "{act.hazard}"')]
    if never:
        where = f" of {quoted_title(board.plan, act.task)}" if act.task else ""
        sentence = f"{listed(never)}{where}: no under-18 takes part, for training neither"
        return [Refusal("never", sentence, "give the work to adults")]
    return []
