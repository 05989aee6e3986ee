"""Work days, holds that end or are due for a look, deliveries and dates, as a calendar file.

Form: iCalendar, RFC 5545: lines end with CR LF and are folded at 75 octets (3.1), texts escape
backslash, semicolon, comma and line break (3.3.11), moments are in UTC where the shop has a time
zone and floating where it has none (3.3.5).
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import NamedTuple

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import quoted_hold
from crewboard.order.reasons.why import hold_in_words
from crewboard.order.said import quoted_title
from crewboard.plan.clock import ShopClock
from crewboard.telling.report import Request

_OCTETS = 75


class Event(NamedTuple):
    """Something with a date. `end` None: a whole day where `start` is a date, else a moment."""

    uid: str
    start: datetime | date
    end: datetime | None
    summary: str
    description: str = ""


class Calendar(NamedTuple):
    """A calendar made at a moment of the shop's clock."""

    name: str
    made: datetime
    clock: ShopClock
    events: tuple[Event, ...]


def report(request: Request) -> Calendar:
    """The calendar from the board's day on, a year ahead."""
    board = request.board
    name, clock = board.plan.vehicle.name, board.plan.clock
    return Calendar(name, board.at, clock, tuple(events(board)))


def calendar_file(calendar: Calendar) -> str:
    """The whole file."""
    stamp = _moment(calendar.made, calendar.clock, always_utc=True)
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Crewboard//Work days and holds//EN",
        f"NAME:{escaped(calendar.name)}",
    ]
    for event in calendar.events:
        lines += _event(event, calendar.clock, stamp)
    lines.append("END:VCALENDAR")
    return "".join(folded(line) + "\r\n" for line in lines)


def events(board: Board, days: int = 366) -> Iterator[Event]:
    """Everything with a date, ahead of the board's moment."""
    plan, today = board.plan, board.at.date()
    work_days = plan.vehicle.work_days
    place = plan.vehicle.shop.address
    for day in work_days.coming(today, days):
        for number, opening in enumerate(work_days.openings_on(day)):
            uid = f"{day}-work-day{f'-{number + 1}' if number else ''}"
            opens, closes = (datetime.combine(day, time) for time in opening)
            yield Event(uid, opens, closes, f"Work day: {plan.vehicle.name}", place)
    for hold in board.stopping():
        if hold.until is not None:
            yield _hold(board, hold, hold.until)
    for account in board.stock.all():
        if account.promised is not None:
            name = account.supply.name
            uid = f"{account.supply.id}-delivery"
            yield Event(uid, account.promised, None, f"Delivery due: {name}")
    for standing in board.standings.values():
        due = standing.task.due
        if due is not None and not standing.work_done:
            yield Event(
                f"{standing.task.id}-due",
                due,
                None,
                f"To be finished: {quoted_title(board.plan, standing.task.id)}",
            )


def _hold(board: Board, hold: StandingHold, ends: datetime) -> Event:
    """When a hold ends, asks for a look, or ends at the earliest where its clock stands still."""
    what = "Due for a look" if hold.asks else "Hold ends"
    if hold.end.stopped is not None:
        what += f" at the earliest (stopped: {hold.end.stopped.what})"
    summary = f"{what}: {quoted_hold(board.plan, hold)}"
    return Event(f"{hold.id}-hold", ends, None, summary, hold_in_words(board, hold))


def escaped(text: str) -> str:
    """A text as the value of a calendar line."""
    shown = legible(text.replace("\r\n", "\n"), lines=True).replace("\t", " ")
    for sign in ("\\", ";", ","):
        shown = shown.replace(sign, f"\\{sign}")
    return shown.replace("\n", "\\n")


def folded(line: str) -> str:
    """The line in pieces of at most 75 octets, no character cut in two."""
    pieces, piece, octets = list[str](), "", 0
    for char in line:
        wide = len(char.encode("utf-8", "replace"))
        if octets + wide > _OCTETS:
            pieces.append(piece)
            piece, octets = " ", 1  # the blank that begins a folded line counts too
        piece += char
        octets += wide
    return "\r\n".join([*pieces, piece])


def _event(event: Event, clock: ShopClock, stamp: str) -> list[str]:
    lines = ["BEGIN:VEVENT", f"UID:{escaped(event.uid)}@crewboard.invalid", f"DTSTAMP:{stamp}"]
    if isinstance(event.start, datetime):
        lines.append(f"DTSTART:{_moment(event.start, clock)}")
        if event.end is not None:
            lines.append(f"DTEND:{_moment(event.end, clock)}")
    else:
        lines.append(f"DTSTART;VALUE=DATE:{event.start:%Y%m%d}")
        lines.append(f"DTEND;VALUE=DATE:{event.start + timedelta(days=1):%Y%m%d}")
    lines.append(f"SUMMARY:{escaped(event.summary)}")
    if event.description:
        lines.append(f"DESCRIPTION:{escaped(event.description)}")
    return [*lines, "END:VEVENT"]


def _moment(moment: datetime, clock: ShopClock, *, always_utc: bool = False) -> str:
    if clock.zone is not None:
        moment, always_utc = clock.instant(moment), True
    return f"{moment:%Y%m%dT%H%M%S}{'Z' if always_utc else ''}"
