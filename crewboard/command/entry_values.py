"""What was typed for a field of an entry, as its value: read by what the field means."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from crewboard.command import naming
from crewboard.command.exits import NoSuch, WrongCall
from crewboard.command.opened import as_read, parse_day, parse_moment, parse_number
from crewboard.logbook.acts import Act
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.plan import as_typed

if TYPE_CHECKING:
    from crewboard.workbench import Workbench


class TypedValues:
    """Reads what was typed with the names of the folder as they are at a moment."""

    def __init__(self, bench: Workbench, at: datetime) -> None:
        self.bench, self.plan, self.at = bench, bench.plan, at

    def value(self, field: EntryField, typed: Sequence[str]) -> Any:
        """The value of all words typed for a field. Raises `WrongCall` or `Refused`."""
        if not field.many:
            return self._one(field, " ".join(typed))
        if field.kind == "people":
            return naming.people(self.plan, typed)
        if field.kind == "pieces":
            return naming.pieces(self.plan, typed)
        if field.kind == "tasks":
            from crewboard.command.naming_several import every_task

            named = (task for one in typed for task in every_task(self.plan, one))
            return tuple(dict.fromkeys(named))
        if field.kind == "entries":
            return tuple(dict.fromkeys(naming.entry(self.bench, one)[1].id for one in typed))
        if field.kind == "texts":
            return as_typed.texts("; ".join(typed))
        return tuple(dict.fromkeys(typed))

    def _one(self, field: EntryField, typed: str) -> Any:
        plan = self.plan
        match field.kind:
            case "person":
                return self._person(typed)
            case "task":
                return naming.task(plan, typed)
            case "component":
                return naming.component(plan, typed)
            case "piece":
                return naming.piece(plan, typed)
            case "other work":
                return naming.other_work(plan, typed)
            case "guest":
                return naming.guest(self.bench.logbook, typed)
            case "supply":
                return naming.supply(plan, typed)
            case "hold":
                return naming.hold(self.bench.board(self.at), typed)
            case "temporary":
                return naming.temporary(self.bench, typed)
            case "entry" | "finding":
                return naming.entry(self.bench, typed)[1].id
            case "hours":
                return _within(field, parse_number(typed, "hours"))
            case "number":
                return _within(field, self._measure(field, typed))
            case "span":
                return as_read(lambda: as_typed.span(typed))
            case "moment":
                return parse_moment(typed, plan, self.at.date())
            case "day":
                return parse_day(typed, plan)
            case "time":
                return as_read(lambda: as_typed.clock(typed))
            case "length":
                return self._length(field, typed)
            case "flag":
                return _yes_or_no(field, typed)
            case "one of":
                return _one_of(field, typed)
            case _:
                return typed

    def _person(self, typed: str) -> str:
        try:
            return naming.person(self.plan, typed)
        except NoSuch:
            guest = naming.guest_of_name(self.bench.logbook, typed)
            if not guest:
                raise
            sentence = f"{guest} is not in the crew, but came as a guest"
            mend = "crewboard guest-hours writes down a guest's hours"
            raise NoSuch("person", sentence, mend) from None

    def _length(self, field: EntryField, typed: str) -> str:
        from crewboard.logbook import measured

        return as_read(lambda: measured.as_typed(field, typed, self.plan.vehicle.units))

    def with_units(self, act: Act) -> Act:
        """The act with the unit of each of its lengths. Raises `WrongCall`."""
        if not any(field.beside for field in fields_of(type(act))):
            return act
        from crewboard.logbook import measured

        return as_read(lambda: measured.with_units(act, self.plan.vehicle.units))

    def _measure(self, field: EntryField, typed: str) -> float:
        from crewboard.plan.units import as_kept

        return as_read(lambda: as_kept(typed, field.unit, self.plan.vehicle.units))


def _within(field: EntryField, number: float) -> float:
    if not field.takes(number):
        mend = f"write {field.bounds_in_words()}"
        raise WrongCall(f"{field.asked}: {number:,.10g} {field.unit}".rstrip(), mend)
    return number


def _yes_or_no(field: EntryField, typed: str) -> bool:
    answers = {"yes": True, "true": True, "no": False, "false": False}
    if typed.casefold() not in answers:
        raise WrongCall(f'"{typed}" is no answer to "{field.asked}"', "write yes or no")
    return answers[typed.casefold()]


def _one_of(field: EntryField, typed: str) -> str:
    if typed not in field.words:
        listed = ", ".join(field.words)
        raise WrongCall(f'there is no {field.name} "{typed}"', f"write one of {listed}")
    return typed
