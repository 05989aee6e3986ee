"""Holds in plain lines."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.order.board import Board
from crewboard.order.reasons.why import hold_in_words
from crewboard.order.running import StandingHold
from crewboard.order.said import day_and_time, how_long, person
from crewboard.paper.plain import Paper
from crewboard.plan.hold import Conditions
from crewboard.plan.units import temperature


def hold_lines(board: Board, holds: Iterable[StandingHold], width: int) -> list[str]:
    """Each hold with what is known of it."""
    paper = Paper(width)
    for hold in holds:
        paper.line(f"{_stage(board, hold)}: {hold_in_words(board, hold)}  [{hold.id}]", hang=2)
        for each in _details(board, hold):
            paper.line(each, indent=4, hang=2)
    if not paper.lines:
        paper.line("No hold is running.")
    return paper.lines


def _stage(board: Board, hold: StandingHold) -> str:
    if hold.stage == "due":
        return "Due for a look"
    if hold.stage == "over":
        return "Over"
    share = hold.share(board.at)
    return "Running" if share is None else f"Running, {share:.0%}"


def _details(board: Board, hold: StandingHold) -> list[str]:
    told = []
    if hold.stage == "running" and hold.until is not None:
        ends = "asks for a look then" if hold.release == "look" else "ends by itself"
        told.append(f"{how_long(hold.until - board.at)} to go; {ends}")
    if hold.conditions:
        told.append(f"counts only {conditions_in_words(hold.conditions, board.plan.vehicle.units)}")
    if hold.outside:
        told.append("the shop is outside these conditions now: the clock stands still")
    if hold.stood_still:
        told.append(f"{how_long(hold.lost)} did not count")
    for each in hold.extended:
        by = f" by {person(board.plan, each.by)}" if each.by else ""
        told.append(
            f"extended{by} on {day_and_time(each.at)} to {day_and_time(each.until)}: {each.why}"
        )
    if hold.released_at is not None:
        by = f" by {person(board.plan, hold.released_by)}" if hold.released_by else ""
        why = f": {hold.released_why}" if hold.released_why else ""
        told.append(f"released{by} on {day_and_time(hold.released_at)}{why}")
    if hold.note:
        told.append(hold.note)
    if hold.source:
        told.append(f"source: {hold.source}")
    return told


def conditions_in_words(conditions: Conditions, units: str = "metric") -> str:
    """ "from 10 °C, up to 85 % humidity", in the crew's units."""
    told = []
    if conditions.at_least_c is not None:
        told.append(f"from {temperature(conditions.at_least_c, units)}")
    if conditions.at_most_c is not None:
        told.append(f"up to {temperature(conditions.at_most_c, units)}")
    if conditions.at_least_humidity is not None:
        told.append(f"from {conditions.at_least_humidity:g} % humidity")
    if conditions.at_most_humidity is not None:
        told.append(f"up to {conditions.at_most_humidity:g} % humidity")
    return ", ".join(told)
