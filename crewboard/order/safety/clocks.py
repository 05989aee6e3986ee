"""Times that protect: fire watch, airing, cooling, re-entry. Since when they run, until when."""

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.presence import closing_time, never_left
from crewboard.order.safety.signatures import Signatures, signatures
from crewboard.order.safety.went_on import longest_begun, sheets_of_work
from crewboard.order.said import quoted_title
from crewboard.plan.hazard import Clock, Hazard, Number, longest_clock, minutes_of
from crewboard.plan.plan import Plan


class ProtectiveClock(NamedTuple):
    """A clock of a hazard, for the work of one task on one day.

    `since` is None while nobody has said that the work has ended: the clock is still to start.
    `until` is the moment it has run out.
    """

    hazard: Hazard
    clock: Clock
    task: str
    rule: Number
    since: datetime | None
    until: datetime | None

    def running(self, at: datetime) -> bool:
        return self.until is None or at < self.until

    @property
    def started(self) -> bool:
        return self.since is not None


def protective_clocks(board: Board) -> list[ProtectiveClock]:
    """Every clock of work done today or on the days before that may still run, soonest end first.

    Those still to start come first. Clocks that have run out today are among them; `running`
    tells.
    """
    clocks = [
        clock
        for day in _days_that_matter(board)
        for clock in _clocks_of_day(board, day)
        if day == board.at.date() or (clock.started and clock.running(board.at))
    ]
    return sorted(clocks, key=lambda c: (c.until is not None, c.until or board.at, c.task))


def still_running(board: Board) -> list[ProtectiveClock]:
    """The protective clocks that have not run out, or not even started."""
    return [clock for clock in protective_clocks(board) if clock.running(board.at)]


def clock_in_words(plan: Plan, clock: Clock, task_id: str) -> str:
    """A clock by the work it follows: 'fire watch after "Weld the brackets"'."""
    return f"{clock.kind} after {quoted_title(plan, task_id)}"


def must_end_by(board: Board, hazard: Hazard) -> tuple[datetime, Clock, Number] | None:
    """When work with this hazard has to end for its closing clocks to run out before the shop
    closes, and the clock and rule that say so; None where nothing does."""
    if board.opening is None:
        return None
    closes = datetime.combine(board.at.date(), board.opening.closes)
    ends = [
        (closes - timedelta(minutes=minutes_of(rule)), clock, rule)
        for clock in hazard.clocks
        if clock.guards == "closing" and (rule := hazard.ruling(clock)) is not None
    ]
    return min(ends, key=lambda end: end[0], default=None)


def must_end_in_words(board: Board, hazard: Hazard, clock: Clock, end: datetime) -> str:
    """The same as a sentence. Raises AssertionError where the shop is closed or no rule says how
    long the clock runs: then nothing has to end."""
    rule = hazard.ruling(clock)
    assert rule is not None
    assert board.opening is not None
    return (
        f"{hazard.short} must end by {end:%H:%M}: the {clock.kind} is {rule.amount} and "
        f"the shop closes at {board.opening.closes:%H:%M}"
    )


def _days_that_matter(board: Board) -> list[date]:
    """Today, and the earlier days from which a clock of this plan could still run."""
    longest = board.plan.longest_clock
    if longest is None:
        longest = longest_clock(board.plan.hazards.values())
    longest = max(longest, longest_begun(signatures(board)))
    today = board.at.date()
    earliest = today - timedelta(days=longest // 1440 + 2)
    return [day for day in board.logbook.days if earliest <= day <= today]


def _clocks_of_day(board: Board, day: date) -> Iterator[ProtectiveClock]:
    signed = signatures(board)
    tasks = signed.worked if day == board.at.date() else signed.worked_on(day)
    for task_id in tasks:
        for hazard in sheets_of_work(board, task_id, day):
            for clock in hazard.clocks:
                rule = hazard.ruling(clock)
                if rule is not None and rule.span is not None:
                    since = _since(signed, hazard, clock, task_id, day)
                    if since is None and day < board.at.date():
                        since = _over_by(board, day, hazard, clock, task_id)
                    until = board.plan.clock.add(since, rule.span) if since else None
                    yield ProtectiveClock(hazard, clock, task_id, rule, since, until)


def _since(
    signed: Signatures, hazard: Hazard, clock: Clock, task_id: str, day: date
) -> datetime | None:
    """When the work ended: by the check that says so, else by the task being finished, or stopped
    for that day."""
    begun = max(signed.begun_on(day, task_id), default=datetime.combine(day, time.min))
    ends: list[datetime] = []
    check = hazard.check(clock.starts) if clock.starts else None
    if check is not None:
        ends += [entry.at for entry in signed.signed_on(day, hazard, check, task_id)]
    elif clock.starts:  # the sheet has lost that check since
        ends += signed.said_since(hazard, clock.starts, task_id, begun)
    finished = signed.finished_on(day, task_id) or signed.stopped_on(day, task_id)
    if not ends and finished is not None:
        ends.append(finished)
    return max((at for at in ends if at >= begun), default=None)


def _over_by(board: Board, day: date, hazard: Hazard, clock: Clock, task_id: str) -> datetime:
    """By when the work of a past day was over, of which nobody said that it had ended on that day:
    when that was signed later, else when the day ended. Whoever never signed out may have been at
    it until midnight."""
    midnight = datetime.combine(day, time.min) + timedelta(days=1)
    if clock.starts:
        later = signatures(board).said_since(hazard, clock.starts, task_id, midnight)
        if later:
            return min(later)
    of_day = board.logbook.days[day]
    if never_left(of_day):
        return midnight
    last = [entry.at for entry in of_day.counting if entry.at.date() == day]
    return max(closing_time(board.plan, board.logbook, day), *last)
