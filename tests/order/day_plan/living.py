"""A planned day lived as it was planned: what the logbook's door says to each beginning."""

from __future__ import annotations

from datetime import datetime

from crewboard.logbook.acts import Act, Begun, CheckSigned, Finished, Released, SignIn, Stopped
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.admit.rules import refusals
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan, Placed
from crewboard.order.may.on_it import on_it, under_way_now
from crewboard.order.may.party import usual_roles
from crewboard.order.safety.checks import Asked, checks_of
from crewboard.order.safety.signing import signers


class Living:
    """The day's lines as they are written: whoever may sign does, as soon as it is asked for."""

    def __init__(self, board: Board, plan: DayPlan) -> None:
        self.start, self.plan = board, plan
        self.entries: list[Entry] = []
        self.refused: list[str] = []

    def live(self, until: datetime = datetime.max) -> list[str]:
        """What was refused, in words; empty for a plan that could be lived."""
        here = {visit.who for visit in self.start.present}
        for who in self.plan.people:
            since = self.plan.hours[who][0] if who in self.plan.hours else self.plan.opens
            if who not in here and since <= until:
                self.say(since, SignIn(who))
        self._stop_what_is_left()
        happens: list[tuple[datetime, int, Placed]] = []
        for placed in self.plan.placed:
            begins = max(placed.start, self.plan.opens)  # what goes on may have begun before
            if begins < placed.end:
                happens.append((begins, 1, placed))
            happens.append((placed.end, 0, placed))
        for moment, is_begun, placed in sorted(happens, key=lambda each: each[:2]):
            if moment > until:
                break
            (self._begin if is_begun else self._end)(moment, placed)
        return self.refused

    def _stop_what_is_left(self) -> None:
        """Whomever the plan takes off their work stops it, but for what must not be left half
        done: of that the next beginning tells."""
        opens = self.plan.opens
        goes_on = {placed.task for placed in self.plan.placed if placed.start <= opens}
        board = self.board(opens)
        for task in under_way_now(board):
            if on_it(board, task) and task not in goes_on and not board.plan.tasks[task].in_one_go:
                self.say(opens, Stopped(task))

    def _begin(self, moment: datetime, placed: Placed) -> None:
        if set(placed.people) <= set(on_it(self.board(moment), placed.task)):
            return  # whom the plan leaves on what they are doing need not begin it again
        for hold in placed.looks:
            if self.board(moment).holds[hold].stops_work:
                self.say(moment, Released(hold))
        self.sign_before(moment, placed.task, placed.people)
        roles = usual_roles(self.board(moment), placed.task, placed.people)
        act = Begun(placed.task, roles.crew, watch=roles.watch, adult=roles.adult)
        # Whom it moves ends what they are on first, which the plan leaves to them.
        against = refusals(self.board(moment), act)
        against = [r for r in against if r.code not in ("under-way", "busy")]
        self.refused += [f"{moment:%H:%M} {placed.task}: {each.says}" for each in against]
        self.say(moment, act)

    def sign_before(self, moment: datetime, task: str, people: tuple[str, ...]) -> None:
        """The checks before the work, each by somebody here who may."""
        self._sign(moment, checks_of(self.board(moment), task, people, "before"))

    def _end(self, moment: datetime, placed: Placed) -> None:
        self._sign(moment, checks_of(self.board(moment), placed.task, when="after"), leave="home")
        if placed.finishes:
            self.say(moment, Finished(placed.task))
        elif moment < self.plan.closes:
            self.say(moment, Stopped(placed.task))

    def _sign(self, moment: datetime, checks: list[Asked], leave: str = "") -> None:
        for asked in checks:
            able = signers(self.board(moment), asked.hazard, asked.check, asked.who)
            if asked.open and able and asked.check.id != leave:
                signed = CheckSigned(
                    *(asked.hazard.id, asked.check.id, able[0], asked.task), concerns=asked.who
                )
                self.say(moment, signed, able[0])

    def say(self, moment: datetime, act: Act, by: str = "") -> None:
        """Write a line without asking whether it may be written."""
        self.entries.append(Entry(f"{self.plan.opens:%H%M}-{len(self.entries)}", moment, act, by))

    def board(self, moment: datetime) -> Board:
        """The board that what was lived so far makes."""
        days = dict(self.start.logbook.days)
        today = days.get(moment.date())
        before = today.entries if today else ()
        days[moment.date()] = Day(moment.date(), [*before, *self.entries])
        return assess(self.start.plan, Logbook(days), moment, self.start.order)
