"""A programme lived as it was made: signed in, begun and finished in the logbook, hold by hold, so
that the board itself, and "may they?", answer for each of its turns."""

from __future__ import annotations

from datetime import datetime, time

from crewboard.logbook.acts import Act, Arrived, HoursWorked, Released, Stopped
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan, Placed, Wish
from crewboard.order.programme.programme import DayOfWork, Programme
from crewboard.order.safety.checks import checks_of
from crewboard.order.safety.opening import unopened
from crewboard.order.supplies import expected_by
from crewboard.plan.workdays import Opening
from tests.order.day_plan.feasible import violations
from tests.order.day_plan.feasible_hours import worked
from tests.order.day_plan.living import Living


def refused(board: Board, made: Programme) -> list[str]:
    """What the board or the door says against it, in words; empty where it can be lived."""
    log, wrong = board.logbook, []
    for number, day in enumerate(made.days):
        for opening in day.openings:
            begins = max(board.at, datetime.combine(day.date, opening.opens))
            if begins >= datetime.combine(day.date, opening.closes):
                continue
            log = _with(log, begins, _what_came(board, log, begins, first=not number))
            there = assess(board.plan, log, begins, board.order)
            plan = _day_plan(day, opening, begins)
            living = _Looking(there, plan)
            said = [f"{day.date} {says}" for says in living.live()]
            against = (v for v in violations(there, Wish(), plan) if not _of_the_morning(v))
            wrong += [*said, *(f"{day.date} {v}" for v in against)]
            living.sign_out()
            ended = [*_hours(there, plan), *_stopped(plan)]
            log = _with(living.board(plan.closes).logbook, plan.closes, ended)
    return wrong


class _Looking(Living):
    """Whoever begins looks first at what is due."""

    def _begin(self, moment: datetime, placed: Placed) -> None:
        for hold in self.board(moment).stopping():
            if hold.stage == "due":
                self.say(moment, Released(hold.id, "fine"))
        super()._begin(moment, placed)

    def sign_before(self, moment: datetime, task: str, people: tuple[str, ...]) -> None:
        self._sign(moment, list(unopened(self.board(moment))))
        super().sign_before(moment, task, people)

    def sign_out(self) -> None:
        """At the end of the day all is signed that it leaves: who is young went home."""
        for placed in self.plan.placed:
            board = self.board(self.plan.closes)
            self._sign(self.plan.closes, checks_of(board, placed.task, when="after"))


def _of_the_morning(says: str) -> bool:
    """What the plan of a day may not do, a programme may: begin at noon what is on hold till then,
    with a jig that is taken till then. Of both the living tells."""
    return says.endswith("cannot be worked on") or " have the " in says


def _day_plan(day: DayOfWork, opening: Opening, begins: datetime) -> DayPlan:
    closes = datetime.combine(day.date, opening.closes)
    turns = [turn for turn in day.turns if begins <= turn.start < closes]
    placed = tuple(
        Placed(t.task, t.people, t.start, t.end, t.finishes, t.watch, t.watched_until)
        for t in turns
    )
    return DayPlan(begins, closes, day.people, placed, (), (), "plain rule", 0, 0)


def _hours(board: Board, plan: DayPlan) -> list[Act]:
    """Breaks are nobody's hours."""
    return [
        HoursWorked(who, worked(board, each).total_seconds() / 3600, each.task)
        for each in plan.placed
        for who in each.people
    ]


def _stopped(plan: DayPlan) -> list[Act]:
    """What goes on another day is left by everybody when the shop closes."""
    goes_on = (p for p in plan.placed if p.end == plan.closes and not p.finishes)
    return [Stopped(placed.task) for placed in goes_on]


def _what_came(board: Board, log: Logbook, at: datetime, *, first: bool) -> list[Act]:
    """Looks that were taken, words that came, supplies that were promised."""
    there = assess(board.plan, log, at, board.order)
    acts: list[Act] = []
    for hold in there.stopping():
        unknown = hold.until is None and hold.since.date() < at.date()
        if (hold.until is not None and hold.until <= at) or (unknown and not first):
            acts.append(Released(hold.id, "fine"))
    for account in board.stock.all():
        day = expected_by(board.plan, account, board.at.date())
        due = day is None or datetime.combine(day, time.min) <= at
        if there.stock[account.supply.id].short and not first and due:
            acts.append(Arrived(account.supply.id))
    return acts


def _with(log: Logbook, at: datetime, acts: list[Act]) -> Logbook:
    days = dict(log.days)
    before = days[at.date()].entries if at.date() in days else ()
    new = [
        Entry(f"w{at:%m%d%H%M}-{len(before) + number}", at, act) for number, act in enumerate(acts)
    ]
    days[at.date()] = Day(at.date(), [*before, *new])
    return Logbook(days)
