"""Who comes on a work day, as the sign-ins of the past tell it."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from datetime import date

from crewboard.order.board import Board
from crewboard.order.forecast.held import held_as
from crewboard.order.forecast.model import Attendance
from crewboard.order.forecast.seasons import seasons
from crewboard.order.forecast.staying import Stay, staying
from crewboard.order.forecast.together import together
from crewboard.order.presence import days_with_people, expected_on
from crewboard.plan.volunteer import Volunteer


def attendance(board: Board, order: Sequence[str]) -> Attendance:
    """The record of everybody in `order` (from the lowest bit on), lately and up to yesterday.

    A day counts where the calendar names it or somebody came, from when the crew began.
    """
    came = days_with_people(board.plan, board.logbook, board.at)
    plan, today = board.plan, board.at.date()
    held = list(came)
    first = held[0] if held else today
    dropped = [
        day for day in plan.vehicle.work_days.coming(first, (today - first).days) if day not in came
    ]
    stays = [
        Stay(who, tuple((d, who in came[d]) for d in held if _could_come(plan.crew[who], d, came)))
        for who in order
    ]
    people, leaving, replaced = staying(board, stays, held)
    of_year = seasons(stays)
    return Attendance(
        people,
        held=len(held),
        dropped=len(dropped),
        takes_place=held_as(plan.vehicle.work_days, came, today),
        seasons=of_year.factors,
        season_doubt=of_year.doubts,
        together=together(stays, of_year.factors),
        leaving=leaving,
        replaced=replaced,
        answers=_answers(board, order),
        away=tuple((n, plan.crew[who].away) for n, who in enumerate(order) if plan.crew[who].away),
    )


def _could_come(volunteer: Volunteer, day: date, came: Mapping[date, Container[str]]) -> bool:
    """Whether it says something of how often they come, whether they came that day."""
    known_away = volunteer.away_on(day) and volunteer.id not in came[day]
    return volunteer.with_us_on(day) and not known_away


def past_attendance(board: Board, order: Sequence[str]) -> Mapping[date, int]:
    """Who of these came on each day that is past, as bits; nobody on a work day of which the
    logbook has no line. Days with work and without people are left out."""
    came = days_with_people(board.plan, board.logbook, board.at)
    bit = {who: 1 << number for number, who in enumerate(order)}
    known = {day: sum(bit.get(who, 0) for who in there) for day, there in came.items()}
    if known:
        first, today = min(known), board.at.date()
        told = board.logbook.days
        for day in board.plan.vehicle.work_days.coming(first, (today - first).days):
            if day not in told or not told[day].counting:
                known.setdefault(day, 0)
    return known


def _answers(board: Board, order: Sequence[str]) -> dict[date, tuple[tuple[int, bool], ...]]:
    """What people said of the days to come, and for today who is here."""
    today = board.at.date()
    place = {who: number for number, who in enumerate(order)}
    answers_of: dict[date, dict[int, bool]] = {}
    for day in board.logbook.days:
        answers = expected_on(board.logbook, day) if day >= today else {}
        known = {place[who]: answer.coming for who, answer in answers.items() if who in place}
        if known:
            answers_of[day] = known
    if board.history.visits:
        here = {visit.who for visit in board.present}
        answers_of[today] = {number: who in here for who, number in place.items()}
    return {day: tuple(sorted(answers.items())) for day, answers in answers_of.items()}
