"""What both faces call: open a folder, look at the board, record, change the plan, undo."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from datetime import date, datetime, time
from functools import cache
from typing import TYPE_CHECKING

from crewboard.folder.read.fault import Fault
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import HOURS, Act, TakenBack
from crewboard.logbook.entry import Entry, on_day
from crewboard.logbook.entry import Said as Said
from crewboard.logbook.kinds import kind_of
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.logged import LoggedRow
from crewboard.order.admit.refusal import Refusal
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.unreadable import Unreadable, not_to_be_told
from crewboard.plan.plan import Plan
from crewboard.workbench.outcome import Done, NotAdmitted, Outcome

if TYPE_CHECKING:
    from crewboard.fabric.fabric import Fabric
    from crewboard.folder.disk.undo import FileChange
    from crewboard.folder.edit.plan_edits import PlanEdit
    from crewboard.folder.read.elsewhere import Elsewhere


class Workbench:
    """An open folder. Each operation locks, re-reads, checks, writes a small file, re-reads."""

    def __init__(self, root: str | os.PathLike[str]) -> None:
        self.folder = Folder(root)
        self.folder.remember()
        self.done: list[Done] = []
        # The clock on the wall, whatever moment is looked at: by it go when something is written
        # down, the day's copy, and how far ahead an entry may lie. None: that which is looked at.
        self.wall: Callable[[], datetime] | None = None
        self._order: tuple[Plan, OrderOfWork] | None = None
        self._boards: dict[datetime, Board] = {}
        self._fabric: Fabric | None = None

    # --- looking -------------------------------------------------------------------------------

    @property
    def plan(self) -> Plan:
        return self.folder.plan

    @property
    def logbook(self) -> Logbook:
        return self.folder.logbook

    @property
    def faults(self) -> list[Fault]:
        return self.folder.faults

    @property
    def unreadable(self) -> tuple[Unreadable, ...]:
        """What of the plan and the logbook cannot be read, and may hold work back."""
        return self.folder.unreadable

    def board(self, at: datetime) -> Board:
        """The board at a moment; the last few are kept until something changes."""
        board = self._boards.get(at)
        if board is None:
            board = self._assess(self.logbook, at)
            if len(self._boards) > 8:
                self._boards.clear()
            self._boards[at] = board
        return board

    def fabric(self, at: datetime) -> Fabric:
        """The record of the vehicle at a moment, kept with its board."""
        board = self.board(at)
        if self._fabric is not None:
            board.goes_on_from(self._fabric)
        self._fabric = board.fabric
        return self._fabric

    def _assess(self, logbook: Logbook, at: datetime) -> Board:
        if self._order is None or self._order[0] is not self.plan:
            self._order = (self.plan, OrderOfWork(self.plan))
        return assess(self.plan, logbook, at, self._order[1], self.unreadable)

    def refresh(self) -> frozenset[str]:
        """Read again what changed on the disk; the paths that did."""
        unreadable = self.unreadable
        changed = self.folder.refresh()
        if changed or unreadable != self.unreadable:
            self._boards.clear()
            self._fabric = None
            self.folder.remember()
        return changed

    def on_the_wall(self, otherwise: datetime) -> datetime:
        """The moment by the clock on the wall, whatever moment is looked at."""
        return self.wall() if self.wall else otherwise

    def elsewhere(self, day: date) -> Elsewhere:
        """A day of the other vehicles whose folders vehicle.toml names."""
        from crewboard.folder.read.elsewhere import Elsewhere, elsewhere_on  # few folders name any

        paths = self.plan.vehicle.shares_crew_with
        return elsewhere_on(str(self.folder.root), paths, day) if paths else Elsewhere()

    # --- recording -----------------------------------------------------------------------------

    def record(self, lines: Sequence[Said], *, by: str, now: datetime) -> Outcome:
        """Add entries to the logbook: all of them or none.

        `now` is the shop's clock. Nothing is written where any of them is refused, or where a
        file is broken.
        """
        from crewboard.folder.edit.keep import days_with
        from crewboard.workbench.news import News

        entries: list[tuple[date, Entry]] = []

        def changes() -> list[FileChange]:
            entries[:] = self._admitted(lines, by, now)
            return days_with(str(self.folder.root), entries, self._bytes)

        news = News(lines, self.board)
        title = " and ".join(dict.fromkeys(kind_of(one.act).word for one in lines))
        outcome = self._write(changes, title, entries, today=now.date())
        if not outcome.kept:
            return outcome
        kept = tuple(entry for _, entry in entries)
        remarks = (*outcome.remarks, *news.told(), *self._unread_elsewhere(entries))
        return outcome._replace(entries=kept, remarks=remarks)

    def _unread_elsewhere(self, entries: Sequence[tuple[date, Entry]]) -> list[str]:
        """Of hours: which other vehicle's folder could not be asked about them."""
        days = [day for day, entry in entries if isinstance(entry.act, HOURS)]
        return [sentence for _, sentence in self.elsewhere(days[0]).unread] if days else []

    def take_back(self, entry_id: str, *, by: str, now: datetime, why: str = "") -> Outcome:
        """Take an entry back with a new line in the same day's file; both stay readable."""
        line = self.logbook.find(entry_id)
        if line is None:
            return Outcome(refused=(Refusal("no-entry", f'there is no entry "{entry_id}"'),))
        day, entry = line
        taking_back = Said(
            TakenBack(entry_id, why), max(entry.at, on_day(day.date, now)), "", day.date
        )
        return self.record([taking_back], by=by, now=now)

    def correct(
        self, entry_id: str, act: Act, at: datetime, *, by: str, now: datetime, despite: str = ""
    ) -> Outcome:
        """Replace what an entry says with a new line in the same day's file."""
        line = self.logbook.find(entry_id)
        if line is None:
            return Outcome(refused=(Refusal("no-entry", f'there is no entry "{entry_id}"'),))
        replaces = line[0].last_wording(entry_id)
        return self.record([Said(act, at, replaces, line[0].date, despite)], by=by, now=now)

    def _admitted(self, lines: Sequence[Said], by: str, now: datetime) -> list[tuple[date, Entry]]:
        from crewboard.workbench.admitting import admitted  # only where something is written

        return admitted(
            lines,
            by,
            now,
            root=str(self.folder.root),
            logbook=self.logbook,
            plan=self.plan,
            assessed=self._assess,
            put_down=self.on_the_wall(now),
            elsewhere=cache(lambda day: self.elsewhere(day).days),
        )

    def undo(self, *, by: str, now: datetime) -> Outcome:
        """Undo the last operation of this sitting.

        Entries are taken back with new lines, never cut out: somebody else may have read them, or
        have them in a copy of the folder. A change of the plan is put back while the files are as
        it left them.
        """
        if not self.done:
            return Outcome(refused=(Refusal("nothing", "there is nothing to undo"),))
        steps, last = len(self.done), self.done[-1]
        outcome = (
            self._take_back_all(last, by, now) if last.entries else self._put_back(last.changes)
        )
        if outcome.kept:
            # What undoing wrote is no new step: the next undo goes on with the one before.
            del self.done[steps - 1 :]
        return outcome

    def undo_last_of(self, by: str, *, now: datetime) -> Outcome:
        """Take back what the person put into the logbook last, in whatever sitting."""
        from crewboard.logbook.operations import last_operation

        self.refresh()
        lines = last_operation(self.logbook, by, still=self.plan.vehicle.shown_at is not None)
        newest = max((day for day, _ in lines), default=date.min)
        for unread in not_to_be_told(self.unreadable):
            if unread.day is not None and unread.day >= newest:  # their last may stand in there
                return Outcome(refused=(Refusal("not-read", unread.says, unread.mend),))
        if not lines:
            return Outcome(refused=(Refusal("nothing", "there is nothing to undo"),))
        return self._take_back_all(Done("", (), lines), by, now)

    def _take_back_all(self, last: Done, by: str, now: datetime) -> Outcome:
        from crewboard.logbook.operations import UNDONE

        taken = {
            entry_id
            for day, _ in last.entries
            if day in self.logbook.days
            for entry_id in self.logbook.days[day].fate()
        }
        lines = [
            Said(TakenBack(entry.id, UNDONE), max(entry.at, on_day(day, now)), "", day)
            for day, entry in last.entries
            if entry.id not in taken
        ]
        return self.record(lines, by=by, now=now)

    def _put_back(self, changes: Sequence[FileChange]) -> Outcome:
        from crewboard.folder.disk.undo import take_back

        def act() -> Outcome:
            changed = take_back(changes, root=self.folder.root)
            if changed:
                sentence = f"{os.path.relpath(changed[0], self.folder.root)} was changed since"
                return Outcome(refused=(Refusal("changed", sentence, "mend it by hand"),))
            self.folder.let_go(c.path_in(self.folder.root) for c in changes if c.before is None)
            return Outcome(files=tuple(c.path_in(self.folder.root) for c in changes))

        return self._locked(act)

    def take_rows(self, rows: Sequence[LoggedRow], today: date) -> Outcome:
        """Put a data logger's rows into the files beside the days."""
        from crewboard.folder.edit.logged_months import month_changes

        title = "a data logger's rows"
        return self._write(lambda: month_changes(self.folder, rows), title, today=today)

    # --- changing the plan ---------------------------------------------------------------------

    def change(
        self, *edits: PlanEdit, says: str = "a change of the plan", today: date | None = None
    ) -> Outcome:
        """Edit the plan's files: all of the edits or none, and none that makes a mistake.

        A loop in the order of work, a name of nothing, a broken file: refused, nothing written.
        With `today`, the day's copy of the folder is made first, and new tasks came on that day.
        """
        return self._write(lambda: self._changes(edits, today), says, today=today)

    def trial(self, *edits: PlanEdit) -> tuple[Refusal, ...]:
        """What stands against the edits now; nothing is written either way."""
        try:
            self._changes(edits)
        except NotAdmitted as refused:
            return tuple(refused.refusals)
        return ()

    def _changes(self, edits: Sequence[PlanEdit], on: date | None = None) -> Sequence[FileChange]:
        from crewboard.folder.cannot import CannotChange
        from crewboard.folder.edit.change import file_changes

        try:
            return file_changes(self.folder, edits, on)
        except CannotChange as cannot:
            raise NotAdmitted(cannot.refusals) from None

    # --- writing -------------------------------------------------------------------------------

    def _write(
        self,
        changes: Callable[[], Sequence[FileChange]],
        title: str,
        entries: Sequence[tuple[date, Entry]] = (),
        today: date | None = None,
    ) -> Outcome:
        """Write what `changes` asks for, worked out again when a file changed in between.

        `entries` are those that `changes` puts into the logbook, known once it was called.
        """
        from crewboard.workbench.writing import written

        def then(made: tuple[FileChange, ...]) -> None:
            # Entries are undone by new lines: no need to hold on to the whole day's bytes.
            self.done.append(Done(title, () if entries else made, tuple(entries)))

        day = self.on_the_wall(datetime.combine(today, time())).date() if today else None
        return self._locked(lambda: written(self.folder, self.refresh, changes, then, copy_of=day))

    def _locked(self, act: Callable[[], Outcome]) -> Outcome:
        from crewboard.workbench.writing import under_lock

        return under_lock(self.folder, self.refresh, act)

    def _bytes(self, path: str) -> bytes | None:
        from crewboard.folder.disk.read import read_file

        return read_file(self.folder.path(path))
