"""A hold in words: what it is on, since when, until when; and the one that a finish would start."""

from __future__ import annotations

from datetime import datetime

from crewboard.logbook.acts import Finished
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.history import started_by_finish
from crewboard.order.holds.running import HoldEnd, StandingHold, as_standing
from crewboard.order.holds.shop_air import NoReading, Outside
from crewboard.order.said import day_and_time, name_of, pieces_in_words, quoted_title, when
from crewboard.plan.hold import KINDS
from crewboard.plan.plan import Plan
from crewboard.plan.units import temperature


def hold_if_finished(board: Board, task_id: str, at: datetime | None = None) -> StandingHold | None:
    """The hold that the plan's finish of a task would start, at `at` or now, as it would stand;
    None where none follows. Raises KeyError for a task that is not in the plan."""
    at = at or board.at
    started = started_by_finish(board.plan.tasks[task_id], Entry("", at, Finished(task_id)), at)
    return as_standing(started, board.rules, board.at) if started is not None else None


def starts_in_words(board: Board, task_id: str, at: datetime | None = None) -> str:
    """The hold that finishing a task at `at`, or now, would start: "drying, 36 hours, until Sun 3
    May 2026 22:00, then it is due for a look"; empty where none follows."""
    hold, plan = hold_if_finished(board, task_id, at), board.plan
    if hold is None:
        return ""
    lasts = getattr(plan.tasks[task_id].hold, "lasts", None)
    parts = [KINDS[hold.kind].words, *([str(lasts)] if lasts else [])]
    parts.append(end_in_words(hold.end, plan.vehicle.units))
    if hold.until is not None and hold.asks:
        unread = "" if hold.release == "look" else ", unless the shop is read before"
        parts.append(f"then it is due for a look{unread}")
    return ", ".join(parts)


def end_in_words(end: HoldEnd, units: str, now: datetime | None = None) -> str:
    """ "until Tue 2 Jun 2026 16:00", "not before Sat 2 May 2026 13:48; stopped: too cold (4 °C, it
    wants 10 °C)"; with `now`, days and times shorter."""
    if end.unread:
        return _in_doubt(end, now)
    if end.moment is None:
        return end.refused or "until released"
    moment = day_and_time(end.moment) if now is None else when(end.moment, now)
    if end.stopped is not None:
        return f"not before {moment}; stopped: {outside_in_words(end.stopped, units)}"
    return f"until {moment}"


def _in_doubt(end: HoldEnd, now: datetime | None) -> str:
    """ "not before Sat 2 May 2026 13:48, and nobody knows until when: Sat 25 Apr 2026 cannot be
    read"."""
    unknown = f"nobody knows until when: {end.unread}"
    if end.not_before is None:
        return unknown
    return f"not before {_moment(end.not_before, now)}, and {unknown}"


def outside_in_words(outside: Outside, units: str) -> str:
    """ "too cold (4 °C, it wants 10 °C)"."""
    value, limit = (
        temperature(number, units) if outside.is_temperature else f"{number:g} %"
        for number in (outside.value, outside.limit)
    )
    return f"{outside.what} ({value}, it wants {limit})"


def no_reading_in_words(no_reading: NoReading) -> str:
    """ "the shop was not read after Sat 2 May 2026 09:23"."""
    if no_reading.since is None:
        return "the shop was not read"
    return f"the shop was not read after {day_and_time(no_reading.since)}"


def hold_title(plan: Plan, hold: StandingHold) -> str:
    """What the hold is on: its task, else the piece or the component that it was put on."""
    if not hold.task and hold.pieces:
        return pieces_in_words(plan, hold.pieces)
    return name_of(plan, hold.task, hold.component)


def quoted_hold(plan: Plan, hold: StandingHold) -> str:
    """The same in a sentence: the task's title in quotes, any other name without."""
    return quoted_title(plan, hold.task) if hold.task in plan.tasks else hold_title(plan, hold)


def course_in_words(plan: Plan, hold: StandingHold, now: datetime | None = None) -> str:
    """ "on the form since Sat 2 May 2026 16:00, until Tue 2 Jun 2026 16:00"; with `now`, days and
    times shorter."""
    since = f"{KINDS[hold.kind].words} since {_moment(hold.since, now)}"
    return f"{since}, {stage_in_words(plan, hold, now)}"


def stage_in_words(plan: Plan, hold: StandingHold, now: datetime | None = None) -> str:
    """Since when it is due for a look, or when it ends."""
    if hold.stage == "due":
        return "due for a look" + (f" since {_moment(hold.until, now)}" if hold.until else "")
    return end_in_words(hold.end, plan.vehicle.units, now)


def _moment(moment: datetime, now: datetime | None) -> str:
    return when(moment, now) if now is not None else day_and_time(moment)
