"""The moments of a work day: what ends, comes round or must have ended, and when."""

from datetime import datetime
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import quoted_hold
from crewboard.order.safety.checks import coming_round
from crewboard.order.safety.clocks import must_end_by, still_running
from crewboard.order.said import quoted_title
from crewboard.order.steam import in_the_box
from crewboard.order.within import must_follow
from crewboard.telling.clocks import STEAM_ROW
from crewboard.telling.line import Tone


class Moment(NamedTuple):
    """Something at a time of today. `row` is the id of the row that tells more."""

    at: datetime
    text: str
    tone: Tone
    row: str = ""


def moments(board: Board) -> list[Moment]:
    """What happens on the day of the board, in order of time."""
    every = (
        *_steam(board), *_holds(board), *_checks(board), *_clocks(board), *_must_end(board),
        *_must_follow(board),
    )  # fmt: skip
    today = {(m.at, m.text): m for m in every if m.at.date() == board.at.date()}
    return sorted(today.values())


def _holds(board: Board) -> list[Moment]:
    return [
        Moment(hold.until, *_end(board, hold), f"hold:{hold.id}")
        for hold in board.stopping()
        if hold.until is not None and hold.until >= board.at
    ]


def _end(board: Board, hold: StandingHold) -> tuple[str, Tone]:
    """What its end asks for; while its clock is stopped there is only an earliest one."""
    title = quoted_hold(board.plan, hold)
    if hold.outside is not None:
        return f"at the earliest, {hold.outside.what}: {title}", "warning"
    return (f"look at {title}", "must") if hold.asks else (f"over: {title}", "caution")


def _checks(board: Board) -> list[Moment]:
    return [
        Moment(asking.due, f'check "{asking.check.short}"', "must", asking.task)
        for asking in coming_round(board)
        if asking.due is not None
    ]


def _clocks(board: Board) -> list[Moment]:
    return [
        Moment(running.until, f"{running.clock.kind} over", "warning", running.task)
        for running in still_running(board)
        if running.until is not None
    ]


def _steam(board: Board) -> list[Moment]:
    """What has to come out of the steam box, and was not taken out yet."""
    return [
        Moment(one.until, f"out: {quoted_title(board.plan, one.task)}", "must", STEAM_ROW + one.id)
        for one in in_the_box(board)
    ]


def _must_follow(board: Board) -> list[Moment]:
    """Work that has to be begun by then, after what it follows."""
    return [
        Moment(follow.by, f"begin {quoted_title(board.plan, task)} by then", "must", task)
        for task, follow in must_follow(board).items()
        if not follow.late
    ]


def _must_end(board: Board) -> list[Moment]:
    """Work that is under way or could be begun, and has to end in time for its clock."""
    moments_of_work = []
    for standing in board.in_state("under way", "ready"):
        for hazard_id in standing.task.hazards:
            hazard = board.plan.hazards.get(hazard_id)
            latest = must_end_by(board, hazard) if hazard is not None else None
            if hazard is not None and latest is not None:
                moments_of_work.append(Moment(latest[0], f"{hazard.short} must end", "warning"))
    return moments_of_work
