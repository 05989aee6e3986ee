"""Who was in the shop on a day, and for how long: the one answer that every face and rule asks.

Only presence counts as attendance: a sign-in, or hours on a work day by somebody who forgot to sign
in. Letters written at home on another day are work, and nobody was there.
"""

from datetime import date, datetime

from crewboard.logbook.acts import HoursWorked
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import visits
from crewboard.order.board import openings_of
from crewboard.plan.plan import Plan

# People round their hours to the half: by so much they may be more than the time they were here.
ROUNDING = 0.25


def who_was_there(
    plan: Plan, logbook: Logbook, day: date, at: datetime = datetime.max
) -> dict[str, None]:
    """Everybody who was in the shop that day up to the moment `at`, by arrival."""
    of_day = logbook.days.get(day)
    there = {visit.who: None for visit in visits(of_day, at)}
    if of_day is not None and openings_of(plan, logbook, day):
        there |= {
            entry.act.who: None
            for entry in of_day.counting
            if isinstance(entry.act, HoursWorked) and entry.at <= at
        }
    return there


def days_with_people(
    plan: Plan, logbook: Logbook, at: datetime = datetime.max
) -> dict[date, dict[str, None]]:
    """Each day up to the moment `at` on which somebody was in the shop, and who it was."""
    days = {day: who_was_there(plan, logbook, day, at) for day in logbook.days if day <= at.date()}
    return {day: there for day, there in days.items() if there}


def time_there(plan: Plan, logbook: Logbook, day: date, at: datetime) -> dict[str, float]:
    """Hours each person who signed in that day was in the shop up to the moment `at`.

    In real time, also across a clock change. Who was never signed out is here till `at` on the day
    itself, and is taken to have left when the shop closed on a day that is past.
    """
    closes = at if at.date() == day else closing_time(plan, logbook, day)
    hours: dict[str, float] = {}
    for visit in visits(logbook.days.get(day), at):
        end = visit.until or max(visit.since, closes)
        span = plan.clock.between(visit.since, end).total_seconds() / 3600
        hours[visit.who] = hours.get(visit.who, 0.0) + max(0.0, span)
    return hours


def closing_time(plan: Plan, logbook: Logbook, day: date) -> datetime:
    """When the shop closed on that day, by the usual hours where it was no work day."""
    openings = openings_of(plan, logbook, day) or (plan.vehicle.work_days.usual,)
    return datetime.combine(day, openings[-1].closes)


def never_left(day: Day | None) -> list[str]:
    """Who signed in that day and was never signed out, by arrival."""
    return [visit.who for visit in visits(day) if visit.until is None]
