"""What an entry of the logbook says, in a line that needs no id looked up."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import Any

from crewboard.logbook.acts import Act, CheckSigned, Finished, HoldStarted
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.logbook.kinds import sentence
from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board
from crewboard.order.said import (
    component_name,
    day_and_time,
    day_in_words,
    listed,
    name_of,
    person,
    piece_name,
    pieces_in_words,
    quoted_title,
    supply_name,
)
from crewboard.plan.plan import Plan
from crewboard.plan.units import shown

MOST_OF_A_TEXT = 2_000
"""Characters that a list of entries shows of one text: about a page of paper."""


def entry_in_words(
    plan: Plan, entry: Entry, logbook: Logbook | None = None, day: Day | None = None
) -> str:
    """As `EntryWords.of`, for a single entry."""
    return EntryWords(plan, logbook).of(entry, day)


@lru_cache(maxsize=4)
def words_of(board: Board) -> EntryWords:
    """The words of a board's logbook: what they look up in all of it is looked up once."""
    return EntryWords(board.plan, board.logbook)


def put_down_in_words(entry: Entry) -> str:
    """ "written Thu 26 Nov 2026 08:17", or "written 16:05" on the day that it tells of; empty
    where it was written in the minute that it tells of."""
    if entry.written is None:
        return ""
    same_day = entry.written.date() == entry.at.date()
    moment = f"{entry.written:%H:%M}" if same_day else day_and_time(entry.written)
    return f"written {moment}"


class EntryWords:
    """Puts entries in words: with the logbook, holds are named by the work that started them.

    For a list that stays a list, each text is cut after `most` characters, and how much more there
    is stands behind it.
    """

    def __init__(
        self, plan: Plan, logbook: Logbook | None = None, *, most: int | None = None
    ) -> None:
        self.plan, self._logbook, self._most = plan, logbook, most
        self._starts: dict[str, Act] | None = None
        self._never_begun: dict[int, Entry] | None = None  # by what the line says

    def of(self, entry: Entry, day: Day | None = None, *, below_heading: bool = False) -> str:
        """ "Tom Reed worked 3.5 h on "Lay the deck boards" (dry run)".

        With the day, an entry that was taken back is told by what it was. Below a heading that says
        of what kind it is, and what it is on, neither is said again.
        """
        act = self._signature(entry) if isinstance(entry.act, CheckSigned) else entry.act
        words = sentence(act, _FieldWords(self, act, day), below_heading=below_heading)
        if isinstance(act, CheckSigned) and entry.by not in ("", act.who):
            words = f"{words.rstrip('.')}, written by {person(self.plan, entry.by)}"
        words = f"{words}, all the same: {self.text(entry.despite)}" if entry.despite else words
        return words + self._left_out(entry) if isinstance(act, Finished) else words

    def text(self, text: str) -> str:
        """The text, or as much of it as a list shows."""
        more = len(text) - self._most if self._most is not None else 0
        if more <= 0:
            return text
        characters = "character" if more == 1 else "characters"
        return f"{text[: self._most]} … ({more} more {characters}; --json shows them)"

    def _signature(self, entry: Entry) -> Act:
        """Who signed and for whom, where an older line says it in its own way."""
        from crewboard.order.safety.signatures import as_signed  # most entries are no signatures

        assert isinstance(entry.act, CheckSigned)
        sheet = self.plan.hazards.get(entry.act.hazard)
        check = sheet.check(entry.act.check) if sheet else None
        return as_signed(check, entry.act, entry.by) if check else entry.act

    def _left_out(self, entry: Entry) -> str:
        """What work was finished without that nobody wrote to have begun."""
        if self._logbook is None:
            return ""
        # Few lines are of a finish.
        from crewboard.order.safety.finished_without import mark_of, never_begun

        if self._never_begun is None:  # one walk for a whole list
            lines = never_begun(self.plan, self._logbook)
            self._never_begun = {id(line.act): line for line in lines}
        line = self._never_begun.get(id(entry.act))
        return f" - {mark_of(self.plan, self._logbook, line).says}" if line is not None else ""

    def hold(self, hold_id: str) -> str:
        """ "clamp hold of "Glue up the doors"", by the entry that started it."""
        if hold_id in self.plan.tasks:  # of a task that the plan itself calls finished
            return self._hold_of(hold_id)
        act = self._started().get(hold_id)
        if isinstance(act, Finished) and act.task in self.plan.tasks:
            return self._hold_of(act.task)
        if isinstance(act, HoldStarted):
            task, other = act.task, act.piece or act.component
            on = quoted_title(self.plan, task) if task else name_of(self.plan, other)
            return f"{act.hold} hold of {on}"
        return f"hold {hold_id}"

    def _hold_of(self, task_id: str) -> str:
        hold = self.plan.tasks[task_id].hold
        return f"{f'{hold.kind} hold' if hold else 'hold'} of {quoted_title(self.plan, task_id)}"

    def entry(self, entry_id: str) -> tuple[Day, Entry] | None:
        """The entry of that id, of whatever day."""
        return self._logbook.find(entry_id) if self._logbook is not None else None

    def _started(self) -> dict[str, Act]:
        if self._starts is None:
            days = self._logbook.days.values() if self._logbook else ()
            self._starts = {
                entry.id: entry.act
                for day in days
                for entry in day.counting
                if isinstance(entry.act, Finished | HoldStarted)
            }
        return self._starts


class _FieldWords:
    """The words of one act's fields, with the names of the plan."""

    def __init__(self, words: EntryWords, act: Act, day: Day | None) -> None:
        self.words, self.plan, self.act, self.day = words, words.plan, act, day

    def __call__(self, name: str) -> str:
        field = next(described for described in fields_of(type(self.act)) if described.name == name)
        value = getattr(self.act, name)
        if value is None or value in ("", ()):
            return ""
        if field.kind == "texts":  # a comma can stand in each
            return "; ".join(self._one(field, one) for one in value)
        if field.many and field.names == "piece":
            return pieces_in_words(self.plan, value)
        if field.many:
            return listed(self._one(field, one) for one in value)
        return self._one(field, value)

    def _one(self, field: EntryField, value: Any) -> str:
        named = _NAMED.get(field.names)
        if named is not None:
            return named(self.plan, value)
        match field.kind:
            case "hold":
                return self.words.hold(value)
            case "check":
                return self._check(value)
            case "entry" | "entries" | "temporary" | "finding":
                return self._entry(value)
            case "hours":
                return f"{round(value, 2):.10g} h"
            case "one of" if isinstance(field.words, Mapping):
                means = field.words.get(value)
                return f"{value}, {means}" if isinstance(means, str) else str(value)
            case "number":
                return shown(value, field.unit, self.plan.vehicle.units)
            case "moment":
                return day_and_time(value)
            case "day":
                return day_in_words(value)
            case "time":
                return f"{value:%H:%M}"
            case "flag":
                return "yes" if value else "no"
            case _:
                return self.words.text(str(value))

    def _check(self, check_id: str) -> str:
        """The check as its sheet words it, or as it is written where no sheet knows it."""
        hazard_id = self.act.hazard if isinstance(self.act, CheckSigned) else ""
        sheet = self.plan.hazards.get(hazard_id)
        check = sheet.check(check_id) if sheet else None
        if sheet is None or check is None:
            return f"check {hazard_id}/{check_id}"
        return f"{sheet.name}: {sheet.told(check.text)}"

    def _entry(self, entry_id: str) -> str:
        for entry in self.day.entries if self.day else ():
            if entry.id == entry_id:
                return f"{entry.kind} of {entry.at:%H:%M}"
        place = self.words.entry(entry_id)
        if place is None:
            return f"entry {entry_id}"
        day, entry = place
        act = day.wording(entry).act
        says = getattr(act, "seen", "") or getattr(act, "what", "") or getattr(act, "why", "")
        return self.words.text(says) if says else f"{entry.kind} of {day_in_words(entry.at)}"


_NAMED: dict[str, Callable[[Plan, str], str]] = {
    "person": person,
    "task": quoted_title,
    "component": component_name,
    "supply": supply_name,
    "piece": piece_name,
}
