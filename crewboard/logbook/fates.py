"""What became of each line of a day: it counts, it was corrected, or it was taken back.

Lines speak of one another by id. A hand can make them speak in a ring, or in a chain of thousands:
each line is therefore looked at once, without recursion.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime

from crewboard.logbook.acts import TakenBack
from crewboard.logbook.entry import Entry


def fates(entries: Iterable[Entry]) -> dict[str, str]:
    """Line id -> id of the line that took it back or took its place; without those that count."""
    lines = {entry.id: entry for entry in entries}
    found = _taken_back(lines)
    first_lines = origins(lines)
    last: dict[str, tuple[datetime, int, str]] = {}
    for entry_id, entry in lines.items():
        if entry_id not in found:
            # Two people corrected the same line: the one written later counts, wherever it stands.
            first, depth = first_lines[entry_id]
            rank = (entry.written or entry.at, depth, entry_id)
            if depth == 0:
                rank = (datetime.min, 0, entry_id)
            last[first] = max(last.get(first, rank), rank)
    for entry_id in lines:
        first, _ = first_lines[entry_id]
        if entry_id not in found and last[first][2] != entry_id:
            found[entry_id] = last[first][2]
    return found


def origins(lines: Mapping[str, Entry]) -> dict[str, tuple[str, int]]:
    """Line id -> the first line of its chain of corrections, and how many corrections after it.

    The first may be a line that is not there. A ring begins at each of its lines.
    """
    found: dict[str, tuple[str, int]] = {}
    for start in lines:
        trail: dict[str, None] = {}
        each = start
        while each not in found and each not in trail and _replaces(lines, each):
            trail[each] = None
            each = _replaces(lines, each)
        behind = list(trail)
        if each in trail:
            ring = behind[behind.index(each) :]
            found |= {one: (one, len(ring)) for one in ring}
            behind = behind[: behind.index(each)]
        first, depth = found.setdefault(each, (each, 0))
        for one in reversed(behind):
            depth += 1
            found[one] = (first, depth)
    return found


def rings(lines: Mapping[str, Entry]) -> list[str]:
    """One line of each ring of lines that replace or take back one another."""
    found: list[str] = []
    seen: dict[str, int] = {}  # line -> the walk on which it was met
    for number, start in enumerate(lines):
        each = start
        while each in lines and each not in seen:
            seen[each] = number
            act = lines[each].act
            each = lines[each].replaces or (act.entry if isinstance(act, TakenBack) else "")
        if seen.get(each) == number:
            found.append(each)
    return found


def _replaces(lines: Mapping[str, Entry], entry_id: str) -> str:
    return lines[entry_id].replaces if entry_id in lines else ""


def _taken_back(lines: Mapping[str, Entry]) -> dict[str, str]:
    """Line id -> the line that takes it back.

    Who takes back a line means its corrections too; a taking-back that was itself taken back does
    not count. In a ring the line asked first is taken back by the one before it.
    """
    takers: dict[str, list[str]] = {}
    for entry in lines.values():
        if isinstance(entry.act, TakenBack):
            takers.setdefault(entry.act.entry, []).append(entry.id)
    if not takers:
        return {}

    def asks(entry_id: str) -> Iterator[str]:
        yield from takers.get(entry_id, ())
        if replaces := _replaces(lines, entry_id):
            yield replaces

    told: dict[str, str | None] = {}
    for start in lines:
        asking = {start: asks(start)} if start not in told else {}
        while asking:
            each = next(reversed(asking))
            other = next((o for o in asking[each] if o not in told and o not in asking), None)
            if other is not None:
                asking[other] = asks(other)
                continue
            own = (t for t in takers.get(each, ()) if t in told and told[t] is None)
            told[each] = next(own, told.get(_replaces(lines, each)))
            del asking[each]
    return {each: taker for each, taker in told.items() if taker is not None and each in lines}
