"""Any entry of the record, of whatever kind, made by walking the kinds: a new one is among them by
itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from crewboard.logbook.acts import Act
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.logbook.pieces import PieceFailed, TookPlace
from crewboard.plan.plan import Plan

Pick = Callable[[Sequence[Any]], Any]
RECORD = [kind for kind in KINDS_OF_ENTRY.values() if "logbook.record" in str(kind.act)]
# The work says of a piece that it failed, or that a spare took its place: the fabric follows.
OF_PIECES = [KINDS_OF_ENTRY[PieceFailed], KINDS_OF_ENTRY[TookPlace]]

_WORDS = ("a split", "shelf 1", "shelf 2", "oak, the sawmill, lot 7", "none", "about 1931", "")
_HELD: dict[str, Sequence[Any]] = {
    "flag": (False, True),
    "number": (None, 0.0, 33.3, 50.0, 100.0),
    "length": ("2 m", "7 ft 10 1/2 in"),
    "moment": (None, datetime(2026, 5, 1, 12), datetime(2026, 5, 3, 12)),
    "people": ((), ("ada",), ("ada", "tom")),
    "texts": ((), ("oak, the sawmill, lot 7",), ("resin glue", "none")),
    "despite": ("", "it was so"),
}


class Names(NamedTuple):
    """What entries can name beside the plan."""

    entries: Sequence[str] = ("e0", "e1", "nowhere")
    files: Sequence[str] = ("pictures/2026/a.jpg", "recordings/2026/b.mp4")
    more_pieces: Sequence[str] = ()


_SOME = Names()


def act_of(kind: KindOfEntry, plan: Plan, pick: Pick, names: Names = _SOME) -> Act:
    """One act of the kind: what it must say, and of the rest what is picked."""
    values = {
        field.name: _value(field, plan, pick, names)
        for field in kind.fields
        if field.needed or pick((True, True, False))
    }
    act: Act = kind.act(**values)
    return act


def _value(field: EntryField, plan: Plan, pick: Pick, names: Names) -> Any:
    if field.kind == "one of":
        return pick(tuple(field.words) if field.needed else ("", *field.words)) or field.default
    if field.kind in _HELD:
        return pick(_HELD[field.kind])
    known: Sequence[str] = {
        "piece": (*plan.pieces, *names.more_pieces),
        "component": tuple(plan.components),
        "task": tuple(plan.tasks) or ("",),
        "entry": names.entries,
        "picture": names.files,
    }.get(field.names, _WORDS)
    if field.many:
        return tuple(dict.fromkeys(pick(known) for _ in range(pick((0, 1, 2)) or field.needed)))
    one = pick(known)
    return one if one or not field.needed else known[0]
