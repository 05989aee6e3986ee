"""Past days that nobody closed: who never left, and what was not signed.

The same for a day that was closed while the logbook still has somebody in the shop.
"""

from datetime import date, datetime
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from crewboard.logbook.acts import ClosedDay
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import guest_visits
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.presence import closing_time, never_left, who_was_there
from crewboard.order.said import day_in_words, listed, person
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.plan.plan import Plan

if TYPE_CHECKING:
    from crewboard.order.safety.checks import Asked
    from crewboard.order.safety.clocks import ProtectiveClock


class LeftOpen(NamedTuple):
    """A past day on which somebody was in the shop and which is not settled.

    `never_left` are those with a sign-in and no sign-out. What stood in the way of closing the day
    at its end is empty for a day that was closed: `unsigned` checks after the work, and clocks
    that still ran or were never started.
    """

    day: date
    closed: bool
    never_left: tuple[str, ...]
    unsigned: "tuple[Asked, ...]" = ()
    running: "tuple[ProtectiveClock, ...]" = ()


def days_left_open(plan: Plan, logbook: Logbook, today: date) -> list[LeftOpen]:
    """The unsettled days before `today`, the latest first, without what stood against closing."""
    unsettled = (_left_open(plan, logbook, logbook.days[day]) for day in reversed([*logbook.days]))
    return [day for day in unsettled if day is not None and day.day < today]


@lru_cache(maxsize=4)
def last_left_open(board: Board) -> tuple[LeftOpen | None, int]:
    """The latest unsettled day with all that is known of it, and how many there are before it."""
    days = days_left_open(board.plan, board.logbook, board.at.date())
    if not days:
        return None, 0
    return with_what_stood_against(board.plan, board.logbook, board.order, days[0]), len(days) - 1


def with_what_stood_against(
    plan: Plan, logbook: Logbook, order: OrderOfWork, left_open: LeftOpen
) -> LeftOpen:
    """The day with what stood in the way of closing it at its end."""
    from crewboard.order.safety.closing import after_checks, closing_clocks  # rarely wanted

    if left_open.closed:
        return left_open
    board = assess(plan, logbook, end_of(plan, logbook, left_open.day), order)
    return left_open._replace(
        unsigned=tuple(asked for asked in after_checks(board) if asked.open),
        running=tuple(closing_clocks(board)),
    )


def left_open_in_words(plan: Plan, left_open: LeftOpen) -> list[str]:
    """What is not settled, each in some words: 'not signed: "tools cold"'."""
    facts = [] if left_open.closed else [f"{day_in_words(left_open.day)} was never closed"]
    names = listed(person(plan, who) for who in left_open.never_left)
    if left_open.closed:
        facts.append(f"on {day_in_words(left_open.day)} {names} never signed out")
    elif names:
        facts.append(f"never signed out: {names}")
    if left_open.running:
        from crewboard.order.safety.clocks import clock_in_words  # mostly nothing runs

        kinds = listed(
            clock_in_words(plan, running.clock, running.task) for running in left_open.running
        )
        facts.append(f"not seen to its end: {kinds}")
    if left_open.unsigned:
        checks = listed(dict.fromkeys(f'"{a.check.short}"' for a in left_open.unsigned))
        facts.append(f"not signed: {checks}")
    return facts


def end_of(plan: Plan, logbook: Logbook, day: date) -> datetime:
    """When a past day ended: when the shop closed, or with the day's last entry after that."""
    of_day = logbook.days.get(day)
    entries = of_day.counting if of_day else ()
    last = [entry.at for entry in entries if entry.at.date() == day]
    return max([closing_time(plan, logbook, day), *last])


def _left_open(plan: Plan, logbook: Logbook, day: Day) -> LeftOpen | None:
    closed = any(isinstance(entry.act, ClosedDay) for entry in reversed(day.events))
    guests = (visit.name for visit in guest_visits(day) if visit.until is None)
    still_in = (*never_left(day), *guests)
    if still_in or (not closed and who_was_there(plan, logbook, day.date)):
        return LeftOpen(day.date, closed, still_in)
    return None
