"""Who was in the shop on a day, for how long, and who is expected: one answer for all who ask.

Only presence counts as attendance: a sign-in, or hours on a work day by somebody who forgot to sign
in. Letters written at home on another day are work, and nobody was there. Ids of
those expected come in the order of the crew list.
"""

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from itertools import pairwise

from crewboard.logbook.acts import HOURS, ClosedDay, Expected
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import Visit, visits
from crewboard.order.board import Board, openings_of
from crewboard.order.hours.guests import joined_since, visits_as_a_guest, worker
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer

# People round their hours to the half: by so much they may be more than the time they were here.
ROUNDING = 0.25
# Of the last so many days with people, somebody came to at least half: such a one is expected.
LOOK_BACK = 8
# How the crew comes and goes on is read from so much of the past: a year, and a month more, so that
# each season is in it whole. What is older, or mistyped as far older, says nothing of it any more.
LATELY = timedelta(days=400)
# A first day so long before the second, and so many of the usual gaps, is no beginning: a mistyped
# date, or somebody who looked at the vehicle before there was a crew.
_LONE, _GAPS = timedelta(days=60), 4


def who_was_there(
    plan: Plan, logbook: Logbook, day: date, at: datetime = datetime.max
) -> dict[str, None]:
    """Everybody of the crew who was in the shop that day up to the moment `at`, by arrival."""
    of_day = logbook.days.get(day)
    there = {visit.who: None for visit in visits_of(plan, logbook, day, at)}
    if of_day is not None and openings_of(plan, logbook, day):
        joined = joined_since(plan)
        workers = (
            worker(joined, entry.act)[0]
            for entry in of_day.counting
            if isinstance(entry.act, HOURS) and entry.at <= at
        )
        there |= {who: None for who in workers if who}
    return there


def visits_of(plan: Plan, logbook: Logbook, day: date, at: datetime = datetime.max) -> list[Visit]:
    """Who was in the shop that day, and when: also who came as a guest and has joined since."""
    of_day = logbook.days.get(day)
    came = visits(of_day, at)
    as_a_guest = list(visits_as_a_guest(plan, of_day, at))
    return sorted((*came, *as_a_guest), key=lambda visit: visit.since) if as_a_guest else came


def lately(days: Iterable[date], today: date) -> list[date]:
    """Those of the days that tell how the crew is getting on, in order: of the past year and from
    when it began, before `today`."""
    recent = sorted(day for day in days if timedelta() < today - day <= LATELY)
    gaps = [later - day for day, later in pairwise(recent)]
    far = max(_LONE, _GAPS * sorted(gaps)[len(gaps) // 2]) if gaps else _LONE
    began = next((place for place, gap in enumerate(gaps) if gap <= far), 0)
    return recent[began:]


def days_with_people(plan: Plan, logbook: Logbook, at: datetime) -> dict[date, dict[str, None]]:
    """Each day lately on which somebody was in the shop, in order, and who it was."""
    recent = [day for day in logbook.days if timedelta() < at.date() - day <= LATELY]
    there = {day: who for day in recent if (who := who_was_there(plan, logbook, day, at))}
    return {day: there[day] for day in lately(there, at.date())}


def time_there(plan: Plan, logbook: Logbook, day: date, at: datetime) -> dict[str, float]:
    """Hours each person who signed in that day was in the shop up to the moment `at`.

    In real time, also across a clock change. Who was never signed out is here till `at` on the day
    itself, and is taken to have left when the shop closed on a day that is past.
    """
    closes = at if at.date() == day else closing_time(plan, logbook, day)
    hours: dict[str, float] = {}
    for visit in visits_of(plan, logbook, day, at):
        end = visit.until or max(visit.since, closes)
        span = plan.clock.between(visit.since, end).total_seconds() / 3600
        hours[visit.who] = hours.get(visit.who, 0.0) + max(0.0, span)
    return hours


def closing_time(plan: Plan, logbook: Logbook, day: date) -> datetime:
    """When the shop closed on that day, by the usual hours where it was no work day."""
    openings = openings_of(plan, logbook, day) or (plan.vehicle.work_days.usual,)
    return datetime.combine(day, openings[-1].closes)


def closed_at(board: Board) -> datetime | None:
    """When the board's day was closed, None while it is open."""
    day = board.logbook.days.get(board.at.date())
    return next((e.at for e in (day.events if day else ()) if isinstance(e.act, ClosedDay)), None)


def who_stays(board: Board) -> str:
    """Who stayed behind when the day was closed, until a clock has run out; empty for nobody."""
    day = board.logbook.days.get(board.at.date())
    named = [
        e.act.stays
        for e in (day.events if day else ())
        if isinstance(e.act, ClosedDay) and e.at <= board.at
    ]
    return named[-1] if named and named[-1] in {v.who for v in board.present} else ""


def never_left(day: Day | None) -> list[str]:
    """Who signed in that day and was never signed out, by arrival."""
    return [visit.who for visit in visits(day) if visit.until is None]


def expected_on(logbook: Logbook, day: date) -> dict[str, Expected]:
    """Each person's last word on whether they come that day."""
    of_day = logbook.days.get(day)
    return {
        entry.act.who: entry.act
        for entry in (of_day.counting if of_day else ())
        if isinstance(entry.act, Expected)
    }


def times_in_words(answer: Expected) -> str:
    """ "10:30 to 14:00", "from 10:30", "until 14:00"; empty for the whole day."""
    if answer.arrives and answer.leaves:
        return f"{answer.arrives:%H:%M} to {answer.leaves:%H:%M}"
    if answer.arrives:
        return f"from {answer.arrives:%H:%M}"
    return f"until {answer.leaves:%H:%M}" if answer.leaves else ""


def coming(board: Board) -> list[str]:
    """Who said that they come, and who usually does and neither said otherwise nor is away."""
    answers, usual = expected_on(board.logbook, board.at.date()), _usual(board)
    return [
        who for who in _crew(board) if (answers[who].coming if who in answers else who in usual)
    ]


def said_to_come(board: Board) -> list[str]:
    """Who said that they come on the day of the board."""
    answers = expected_on(board.logbook, board.at.date())
    return [who for who in _crew(board) if who in answers and answers[who].coming]


def of_the_day(board: Board) -> list[str]:
    """Who is here, and who said that they come; before anybody came, and after the last has left a
    shop that is closed, who is expected."""
    gone = {visit.who for visit in board.history.visits}
    here = [visit.who for visit in board.present if visit.who in board.plan.crew]
    if not gone or not (here or _is_open(board)):
        return coming(board)
    return here + [who for who in said_to_come(board) if who not in gone]


def _is_open(board: Board) -> bool:
    return board.opening is not None and board.at.time() < board.opening.closes


def _crew(board: Board) -> list[str]:
    today = board.at.date()
    return [who for who, volunteer in board.plan.crew.items() if volunteer.with_us_on(today)]


def _usual(board: Board) -> set[str]:
    """Who is not away and came to at least half of the last days with people, read back from today,
    on which they were of the crew and not away."""
    today = board.at.date()
    recent: list[tuple[date, dict[str, None]]] = []
    for day in sorted(board.logbook.days, reverse=True):
        there = who_was_there(board.plan, board.logbook, day) if day < today else {}
        if there:
            recent.append((day, there))
        if len(recent) == LOOK_BACK:
            break
    return {
        who
        for who, volunteer in board.plan.crew.items()
        if not volunteer.away_on(today) and _comes_usually(volunteer, recent)
    }


def _comes_usually(volunteer: Volunteer, recent: list[tuple[date, dict[str, None]]]) -> bool:
    could = [
        volunteer.id in there
        for day, there in recent
        if volunteer.id in there or (volunteer.with_us_on(day) and not volunteer.away_on(day))
    ]
    return 2 * sum(could) >= len(could)
