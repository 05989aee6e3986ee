"""Why number one of what goes first does not begin first, where it does not."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.shop_day import Job, ShopDay, Slot
from crewboard.order.said import listed, person, quoted_title


def why_not_first(board: Board, day: ShopDay, slots: Sequence[Slot]) -> str:
    """A sentence; empty where it begins first, or is not placed at all, which says why itself."""
    ranked = sorted(slots, key=lambda slot: day.jobs[slot.job].rank)
    if not ranked or day.jobs[ranked[0].job].rank > 0 or ranked[0].start == 0:
        return ""
    slot = ranked[0]
    job = day.jobs[slot.job]
    why = _fixed(job) or _clock(job, slot) or _hours(board, day, slot) or _taken(board, day, job)
    why = why or "it could not begin before"
    title = quoted_title(board.plan, job.task)
    return f"What goes first, {title}, begins at {day.at(slot.start):%H:%M}: {why}."


def _fixed(job: Job) -> str:
    return "the lead fixed when" if job.fixed_start is not None else ""


def _clock(job: Job, slot: Slot) -> str:
    return (
        "before that something else has to run out or be signed" if slot.start <= job.since else ""
    )


def _hours(board: Board, day: ShopDay, slot: Slot) -> str:
    late = [who for who in slot.people if day.here(who)[0] == slot.start]
    if not late:
        return ""
    come = "comes" if len(late) == 1 else "come"
    return f"{_names(board, late)} {come} at {day.at(slot.start):%H:%M}"


def _taken(board: Board, day: ShopDay, job: Job) -> str:
    """Who goes on with what they began, or was put elsewhere by the lead."""
    others = [other for other in day.jobs if other is not job and other.always]
    taken = [who for other in others for who in other.always if who in job.able]
    if not taken:
        return "it is done in one go, and would lie over a break" if job.whole else ""
    is_ = "is" if len(set(taken)) == 1 else "are"
    return f"{_names(board, list(dict.fromkeys(taken)))} {is_} on other work till then"


def _names(board: Board, people: Sequence[str]) -> str:
    return listed(person(board.plan, who) for who in people)
