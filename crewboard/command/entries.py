"""The commands that write an entry of the logbook, each made from the description of its kind."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from crewboard.command import naming, naming_several
from crewboard.command.entry_values import TypedValues
from crewboard.command.exits import Exit, Refused
from crewboard.command.naming_several import TO_DO
from crewboard.command.opened import DIR, TASK, moment, open_bench, typed_writer
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import WRITING, write
from crewboard.logbook.acts import Act, Begun, ClosedDay, Finished, PieceFailed, SetAside
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import ByCommand, KindOfEntry
from crewboard.logbook.on_several import on_pieces, on_tasks

if TYPE_CHECKING:
    from crewboard.order.board import Board

# How the value of a field is called in the help, and what it says where the field says nothing.
_SHOWN: dict[str, tuple[str, str]] = {
    "person": ("WHO", "a person: short id, or a part of the name"),
    "people": ("WHO", "people: short ids, or parts of their names"),
    "task": ("TASK", TASK.says),
    "component": ("COMPONENT", "a component: its id, or words of its name"),
    "piece": ("PIECE", "a piece: its id, such as ribs/3, or words of its name"),
    "pieces": ("PIECES", 'pieces: ribs/3, ribs for all of them, "ribs 1 to 9"'),
    "other work": ("KIND", "a kind of other work, as vehicle.toml names it"),
    "guest": ("GUEST", "a guest, by name"),
    "supply": ("SUPPLY", "a supply: its id, or words of its name"),
    "hold": ("HOLD", "a hold: its id, or its task or component"),
    "entry": ("ENTRY", "an entry's id, as crewboard log shows it"),
    "hours": ("HOURS", "person-hours, such as 3, 3.5 or 3:30"),
    "span": ("SPAN", '"36 hours", "2 days", "1 month"'),
    "moment": ("MOMENT", "when, such as 2026-05-02T09:00 or 09:00"),
    "day": ("DATE", "a date, such as 2026-05-02"),
    "time": ("TIME", "a time of day, such as 10:30"),
    "picture": ("FILE", "a picture's path from the folder"),
    "pictures": ("FILE", "pictures' paths from the folder"),
}
# The temperature of the shop can be given in either unit by name, whatever the folder's own is.
_BY_UNIT = {
    "celsius": (
        (Option("celsius", "the same in °C", "DEGREES"), "°C"),
        (Option("fahrenheit", "or in °F", "DEGREES"), "°F"),
    )
}


def command_for(kind: KindOfEntry) -> Command:
    """The command that writes entries of the kind."""
    offered = kind.command
    assert offered is not None
    typed = [field for name in offered.words for field in kind.fields if field.name == name]
    left = [field for field in kind.fields if field not in typed and not field.kept]
    asked = [field for field in left if field.kind != "despite"]
    options = [option for field in asked for option in options_of(field)]
    return Command(
        partial(_write, kind, offered),
        offered.says,
        (DIR, *(_word(field, offered) for field in typed)),
        (*options, *WRITING),
        offered.examples,
    )


def _word(field: EntryField, offered: ByCommand) -> Word:
    shown, hint = _SHOWN.get(field.kind, (field.asked.upper(), ""))
    if field.name == offered.each:
        hint = _SHOWN["people"][1] if field.kind == "person" else hint
    many = field.many or field.name == offered.each
    return Word(shown, field.help or hint, many=many, optional=not field.needed)


def options_of(field: EntryField) -> Iterable[Option]:
    """The options by which a field is said."""
    name, (shown, hint) = _option_name(field), _SHOWN.get(field.kind, ("", ""))
    if field.kind == "flag":
        yield Option(name, field.help or field.asked)
        return
    shown = shown or {"%": "PERCENT", "°C": "DEGREES"}.get(field.unit, "TEXT")
    yield Option(name, field.help or hint or field.asked, shown, many=field.many)
    for option, _ in _BY_UNIT.get(field.name, ()):
        yield option


def _option_name(field: EntryField) -> str:
    return field.option or field.name.replace("_", "-")


def _write(kind: KindOfEntry, offered: ByCommand, call: Call) -> Exit:
    """Write what was typed: one entry, or one for each of the words that may come several times."""
    bench = open_bench(call)
    at = moment(call, bench.plan)
    values = TypedValues(bench, at)
    acts: list[Act] = []
    for one in _calls(kind, offered, call):
        tasks, pieces = _tasks(kind, offered, values, one), _pieces(kind, values, one)
        named = {"task": tasks[0]} if tasks else {"piece": pieces[0]} if pieces else {}
        fields = [field for field in kind.fields if field.name not in named]
        given: dict[str, Any] = {f.name: _told(f, offered, values, one) for f in fields} | named
        told = {name: value for name, value in given.items() if value is not None}
        act = values.with_units(kind.act(**told))
        acts += on_tasks(act, tasks) if len(tasks) > 1 else on_pieces(act, pieces)
    also = _ALSO.get(kind.act)
    done = write(call, bench, also(bench.board(at), acts) if also else acts)
    if kind.act is Begun and done == Exit.REFUSED:
        from crewboard.command.planned_people import offer_people

        offer_people(call, bench.board(at), acts)
    if kind.act is Finished and done == Exit.FINE and not call.given("json"):
        from crewboard.command.old_pieces import ask_for_old_pieces

        ask_for_old_pieces(call, bench, at, acts)
    if kind.act is ClosedDay and done == Exit.FINE and not call.given("json"):
        from crewboard.command.day_end import print_day_end

        call.out.line("")
        print_day_end(call, bench, at)
    return done


def _calls(kind: KindOfEntry, offered: ByCommand, call: Call) -> Iterable[Call]:
    """The call, taken apart where each of its words is an entry of its own."""
    if not offered.each:
        return [call]
    field = next(field for field in kind.fields if field.name == offered.each)
    name = _word(field, offered).name
    return [call._replace(words={**call.words, name: (one,)}) for one in call.each(name)]


def _tasks(
    kind: KindOfEntry, offered: ByCommand, values: TypedValues, call: Call
) -> tuple[str, ...]:
    """The tasks that the call names, several where pieces of a series are named; empty: none."""
    field = next((field for field in kind.fields if field.kind == "task"), None)
    if field is None or not values.plan.series:
        return ()
    word = field.name in offered.words
    typed = call.each(_word(field, offered).name) if word else call.every(_option_name(field))[-1:]
    name = " ".join(typed).strip()
    if not name:
        return ()
    wanted = offered.of_series or (TO_DO,)
    if kind.act is SetAside and call.given("back"):
        wanted = (("set aside",),)
    return naming_several.tasks(values.bench.board(values.at), name, wanted)


def _pieces(kind: KindOfEntry, values: TypedValues, call: Call) -> tuple[str, ...]:
    """The pieces that failed, together and with one reason."""
    typed = call.word("PIECE") if kind.act is PieceFailed else ""
    return naming.pieces(values.plan, [typed]) if typed else ()


def _told(field: EntryField, offered: ByCommand, values: TypedValues, call: Call) -> Any:
    """What the call says of a field; None where it says nothing. Raises `Refused`."""
    if field.name in offered.words:
        words = call.each(_word(field, offered).name)
        if field.needed and not " ".join(words).strip():
            raise Refused(f"say {field.label or 'which ' + field.name}")
        return values.value(field, words) if any(words) else None
    option = _option_name(field)
    if field.kind == "despite" or field.kept:
        return None  # a reason is said of any entry: see `write`
    if field.kind == "flag":
        return (not field.default) if call.given(option) else None
    typed = _typed_option(field, option, call)
    if field.asked == "lead" and field.needed and not typed:  # the lead who writes it signs it
        typed = list(filter(None, (typed_writer(call),)))
    if field.needed and not typed:
        raise Refused(f"say {field.asked}", f"write --{option}")
    return values.value(field, typed if field.many else typed[-1:]) if any(typed) else None


def _typed_option(field: EntryField, option: str, call: Call) -> Sequence[str]:
    for by_unit, sign in _BY_UNIT.get(field.name, ()):
        if call.given(by_unit.name):
            return [f"{call.option(by_unit.name)} {sign}"]
    return [_in_the_unit_said(field, typed, call) for typed in call.every(option)]


def _in_the_unit_said(field: EntryField, typed: str, call: Call) -> str:
    """The unit that was said of the temperature is meant for its lowest and highest too."""
    if field.unit == "°C" and typed[-1:].isdigit():
        for by_unit, sign in _BY_UNIT["celsius"]:
            if call.given(by_unit.name):
                return f"{typed} {sign}"
    return typed


def _close(board: Board, acts: Sequence[Act]) -> Sequence[Act]:
    """Whoever is still here is signed out with the day."""
    from crewboard.order.safety.closing import closing_acts

    return [
        closing_act
        for act in acts
        if isinstance(act, ClosedDay)
        for closing_act in closing_acts(board, act)
    ]


# What else is written with an entry.
_ALSO: dict[type, Callable[[Board, Sequence[Act]], Sequence[Act]]] = {ClosedDay: _close}
