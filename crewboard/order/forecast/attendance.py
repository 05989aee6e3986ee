"""Who comes on a work day, as the sign-ins of the past tell it."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from datetime import date
from math import sqrt

from crewboard.order.board import Board
from crewboard.order.forecast.model import Attendance, Person
from crewboard.order.presence import days_with_people, expected_on

# A season's share is taken up only where it is this many standard deviations off, and then half
# of the way to be had from so many person-days: few days must not make a season.
_OFF = 2.0
_STEADY = 30.0
_SEASONS = ((12, 1, 2), (3, 4, 5), (6, 7, 8), (9, 10, 11))


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
    people = []
    for who in order:
        days = [d for d in held if plan.crew[who].with_us_on(d)]
        there = sum(who in came[d] for d in days)
        people.append(Person(who, there, len(days) - there))
    return Attendance(
        tuple(people),
        held=len(held),
        dropped=len(dropped),
        seasons=_seasons(board, held, came, order),
        answers=_answers(board, order),
    )


def _seasons(
    board: Board, held: Sequence[date], came: Mapping[date, Container[str]], order: Sequence[str]
) -> tuple[float, ...]:
    """How much more or less people come in each month, by the four seasons of the year."""
    chances = {month: [0, 0] for month in range(4)}
    for day in held:
        there = [w for w in order if board.plan.crew[w].with_us_on(day)]
        season = chances[_season(day.month)]
        season[0] += sum(who in came[day] for who in there)
        season[1] += len(there)
    all_came = sum(c for c, _ in chances.values())
    all_days = sum(n for _, n in chances.values())
    if not all_came or all_came == all_days:
        return (1.0,) * 12
    mean = all_came / all_days
    factor = []
    for season_came, days in chances.values():
        off = sqrt(mean * (1 - mean) / days) if days else 0.0
        marked = days > 0 and abs(season_came / days - mean) > _OFF * off
        shrunk = (season_came + _STEADY * mean) / (days + _STEADY)
        factor.append(shrunk / mean if marked else 1.0)
    return tuple(factor[_season(month)] for month in range(1, 13))


def _season(month: int) -> int:
    return next(number for number, months in enumerate(_SEASONS) if month in months)


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
