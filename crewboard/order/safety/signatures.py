"""What the logbook says of safety up to a moment: checks signed, work begun, finished, reopened.

A signature counts only where the one who gave it may sign that check on that day: a line written
by hand under any other name leaves the check unsigned.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, time
from functools import lru_cache
from typing import cast

from crewboard.logbook.acts import HOURS, Begun, CheckSigned, Finished, Reopened, Stopped
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board
from crewboard.order.safety.naming import names_somebody
from crewboard.order.safety.waiving import is_waived
from crewboard.plan.duration import Duration
from crewboard.plan.hazard import Check, Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer

_A_YEAR = Duration(months=12)


def may_answer_for(volunteer: Volunteer, hazard: Hazard, check: Check, day: date) -> bool:
    """Whether this person may sign the check on that day: age, lead, certificate."""
    if volunteer.minor_on(day) and not hazard.under_18:
        return False
    if check.signs == "anyone":
        return True
    if volunteer.minor_on(day):
        return False
    if check.signs == "lead":
        return volunteer.lead
    return volunteer.certificate(check.signs, day) is not None


def as_signed(check: Check, act: CheckSigned, by: str) -> CheckSigned:
    """The signature with `who` signed and whom it `concerns`.

    Older lines of a check of each person name that person as `who`, and whoever wrote the line
    (`by`) signed it.
    """
    if not check.each_person or act.concerns:
        return act
    return act._replace(who=by, concerns=act.who)


def signed_for_themselves(check: Check, act: CheckSigned) -> bool:
    """Whether somebody would answer for having shown or allowed something to themselves."""
    return check.each_person and act.who == act.concerns


# Hazard, check, and what else a signature is good for: a day, a task on a day, a task, a person.
_Key = tuple[str, str, date | tuple[date, str] | tuple[str, str] | str]


def _key(hazard: Hazard, check: Check, day: date, task_id: str, who: str) -> _Key:
    match check.every:
        case "day":
            return hazard.id, check.id, day
        case "task a day":
            return hazard.id, check.id, (day, task_id)
        case "task":
            return hazard.id, check.id, task_id
        case "person a year":
            return hazard.id, check.id, who
        case "person a task":
            return hazard.id, check.id, (task_id, who)


class Signatures:
    """The logbook up to `at`, folded for questions of safety."""

    def __init__(self, plan: Plan, logbook: Logbook, at: datetime) -> None:
        self.plan = plan
        self.at = at
        self.today = at.date()
        self.unread: datetime | None = None  # up to then nobody knows what was reopened
        self.worked: dict[str, datetime] = {}  # task -> first said today that it was worked on
        self._lines: dict[tuple[str, str], list[tuple[date, Entry]]] = {}
        self._by_key: dict[_Key, list[tuple[date, Entry]]] = {}
        self._sorted: set[tuple[str, str]] = set()  # checks whose lines are in `_by_key`
        self._begun: dict[tuple[date, str], list[datetime]] = {}
        self._doers: dict[tuple[date, str], set[str]] = {}
        self._finished: dict[tuple[date, str], datetime] = {}
        self._stopped: dict[tuple[date, str], datetime] = {}  # and not taken up again that day
        self._reopened: dict[str, list[datetime]] = {}
        self._last_begun: dict[str, datetime] = {}
        self._signed_under: dict[tuple[date, str], dict[str, None]] = {}
        self._begun_under: dict[str, list[tuple[date, Begun | Finished]]] = {}
        self.clocks_begun: set[str] = set()  # as they were written down with the begin of work
        self._open: set[str] = set()  # begun, and neither finished nor reopened since
        for day in logbook.days.values():
            if day.date <= self.today:
                for entry in day.events:
                    if entry.at <= at:
                        self._take(day.date, entry)
        today = logbook.days.get(self.today)
        for entry in today.counting if today else ():
            if isinstance(entry.act, HOURS) and entry.at <= at and entry.act.task:
                self.worked.setdefault(entry.act.task, entry.at)

    def _take(self, day: date, entry: Entry) -> None:
        act = entry.act
        if isinstance(act, CheckSigned):
            self._sign(day, entry, act)
        elif isinstance(act, Begun):
            self._record(day, act)
            self._begun.setdefault((day, act.task), []).append(entry.at)
            self._stopped.pop((day, act.task), None)
            self._last_begun[act.task] = entry.at
            self._doers.setdefault((day, act.task), set()).update(act.crew)
            self._open.add(act.task)
            self._work_on(day, act.task, entry.at)
        elif isinstance(act, Finished):
            self._record(day, act)
            self._finished[day, act.task] = entry.at
            self._open.discard(act.task)
            self._work_on(day, act.task, entry.at)
        elif isinstance(act, Stopped):
            self._stopped[day, act.task] = entry.at
        elif isinstance(act, Reopened):
            self._reopened.setdefault(act.task, []).append(entry.at)
            self._finished.pop((day, act.task), None)
            self._open.discard(act.task)

    def _record(self, day: date, act: Begun | Finished) -> None:
        if act.dangers:
            self._begun_under.setdefault(act.task, []).append((day, act))
            self.clocks_begun.update(act.clocks)

    def _work_on(self, day: date, task_id: str, at: datetime) -> None:
        if day == self.today:
            self.worked.setdefault(task_id, at)

    def _sign(self, day: date, entry: Entry, act: CheckSigned) -> None:
        # Sheets are read when they are asked for: lines about other dangers need none.
        self._lines.setdefault((act.hazard, act.check), []).append((day, entry))
        if act.task:
            self._signed_under.setdefault((day, act.task), {})[act.hazard] = None
        if day == self.today and act.task in self._open:
            hazard = self.plan.hazards.get(act.hazard)
            check = hazard.check(act.check) if hazard else None
            if check is not None and check.when != "after":
                # Who signs for work begun on another day takes it up again today.
                self._work_on(day, act.task, entry.at)
                self._stopped.pop((day, act.task), None)

    def _signed(self, key: _Key, hazard: Hazard, check: Check) -> list[tuple[date, Entry]]:
        """The lines that count for what the key stands for, in order of time."""
        if (hazard.id, check.id) not in self._sorted:
            self._sorted.add((hazard.id, check.id))
            for day, entry in self._lines.get((hazard.id, check.id), ()):
                act = entry.act
                assert isinstance(act, CheckSigned)
                if self._counts(hazard, check, day, entry, act):
                    concerned = as_signed(check, act, entry.by).concerns
                    own = _key(hazard, check, day, act.task, concerned)
                    self._by_key.setdefault(own, []).append((day, entry))
        return self._by_key.get(key, [])

    def _counts(
        self, hazard: Hazard, check: Check, day: date, entry: Entry, act: CheckSigned
    ) -> bool:
        signature = as_signed(check, act, entry.by)
        volunteer = self.plan.crew.get(signature.who)
        if not act.applies:
            doers = self.doers(day, act.task)
            if not is_waived(check, signature, volunteer, day, doers):
                return False
        elif not names_somebody(check, act):
            return False
        if volunteer is None or signed_for_themselves(check, signature):
            return False
        return may_answer_for(volunteer, hazard, check, day)

    # --- questions -----------------------------------------------------------------------------

    def of(self, hazard: Hazard, check: Check, task_id: str, who: str) -> Entry | None:
        """The latest signature that counts for this check now, None where it is unsigned.

        `task_id` and `who` matter where the check is signed for each task or by each person.
        """
        since = self._not_before(hazard, check, task_id)
        latest: Entry | None = None
        key = _key(hazard, check, self.today, task_id, who)
        for day, entry in self._signed(key, hazard, check):
            if self._lasts(check, day, self.today) and (since is None or entry.at >= since):
                latest = entry
        return latest

    def was_signed(
        self, hazard: Hazard, check: Check, task_id: str, who: str, moment: datetime
    ) -> bool:
        """Whether a before-check counted as signed at an earlier moment."""
        reopened = self._reopened.get(task_id, ()) if check.every == "task" else ()
        since = max((at for at in reopened if at <= moment), default=datetime.min)
        key = _key(hazard, check, moment.date(), task_id, who)
        return any(
            since <= entry.at <= moment and self._lasts(check, day, moment.date())
            for day, entry in self._signed(key, hazard, check)
        )

    def _lasts(self, check: Check, day: date, today: date) -> bool:
        """Whether a signature of that day still counts: a person's lasts a calendar year."""
        if check.every != "person a year":
            return True
        end = self.plan.clock.add(datetime.combine(day, datetime.min.time()), _A_YEAR)
        return today < end.date()

    def _not_before(self, hazard: Hazard, check: Check, task_id: str) -> datetime | None:
        """A signature from before this moment is out of date: the work was taken up again since."""
        reopened = self._reopened.get(task_id, []) if check.every == "task" else []
        if self.unread and check.every == "task":
            reopened = [*reopened, self.unread]  # it may have been reopened then
        if check.when != "after":
            moments = reopened
        elif check.every == "task":
            begun = self._last_begun.get(task_id)
            moments = [*reopened, begun] if begun else reopened
        elif check.every == "task a day":
            moments = self.begun_on(self.today, task_id)
        else:
            moments = [
                at
                for (day, task), begun_at in self._begun.items()
                if day == self.today and self._concerns(hazard, task)
                for at in begun_at
            ]
        return max(moments, default=None)

    def _concerns(self, hazard: Hazard, task_id: str) -> bool:
        task = self.plan.tasks.get(task_id)
        return hazard.concerns != "task" or (task is not None and hazard.id in task.hazards)

    def last_begun(self, task_id: str) -> datetime | None:
        """When the task was last begun, or taken up again."""
        return self._last_begun.get(task_id)

    def doers(self, day: date, task_id: str) -> frozenset[str]:
        """Who was put on the task on that day, up to now."""
        return frozenset(self._doers.get((day, task_id), ()))

    def begun_on(self, day: date, task_id: str) -> list[datetime]:
        """When work on the task was begun, or taken up again, on that day."""
        return self._begun.get((day, task_id), [])

    def finished_on(self, day: date, task_id: str) -> datetime | None:
        """When the work of the task was finished on that day."""
        return self._finished.get((day, task_id))

    def stopped_on(self, day: date, task_id: str) -> datetime | None:
        """When the work of the task was stopped on that day, and not taken up again."""
        return self._stopped.get((day, task_id))

    def signed_on(self, day: date, hazard: Hazard, check: Check, task_id: str) -> list[Entry]:
        """The signatures of a check in one day's file, in order of time."""
        key = _key(hazard, check, day, task_id, "")
        return [entry for d, entry in self._signed(key, hazard, check) if d == day]

    def signed_under(self, day: date, task_id: str) -> Iterable[str]:
        """The hazards of which a check was signed for the task on that day."""
        return self._signed_under.get((day, task_id), ())

    def begun_under(self, day: date, task_id: str) -> list[Begun | Finished]:
        """What was written down of the work's dangers when it was begun: that day, or last before
        it."""
        acts = [(on, act) for on, act in self._begun_under.get(task_id, ()) if on <= day]
        last = max((on for on, _ in acts), default=day)
        return [act for on, act in acts if on == last]

    def place_begun(self, task_id: str) -> str:
        """Where the work was when it was last begun, as it was written down then."""
        return next((act.place for _, act in reversed(self._begun_under.get(task_id, ()))), "")

    def said_since(
        self, hazard: Hazard, check_id: str, task_id: str, since: datetime
    ) -> list[datetime]:
        """When somebody who may signed that check for the task, or for the day, since a moment. Of
        a check that the sheet has lost every line counts."""
        check = hazard.check(check_id)
        lines = [
            (day, entry)
            for day, entry in self._lines.get((hazard.id, check_id), ())
            if check is None
            or self._counts(hazard, check, day, entry, cast("CheckSigned", entry.act))
        ]
        return [
            e.at for _, e in lines if getattr(e.act, "task", "") in (task_id, "") and e.at >= since
        ]

    def worked_on(self, day: date) -> set[str]:
        """Tasks begun or finished on an earlier day."""
        return {task for (d, task) in (*self._begun, *self._finished) if d == day}


@lru_cache(maxsize=4)
def signatures(board: Board) -> Signatures:
    """The signatures at the board's moment; kept for the last few boards."""
    signed = Signatures(board.plan, board.logbook, board.at)
    signed.unread = _end_of_last_unread(board)
    return signed


def _end_of_last_unread(board: Board) -> datetime | None:
    """The end of the last day up to now that cannot be read: what it said of a task's work may have
    put what was signed before out of date."""
    days = [one.day for one in board.unreadable if one.day and not one.remembered]
    past = [day for day in days if day <= board.at.date()]
    return datetime.combine(max(past), time.max) if past else None
