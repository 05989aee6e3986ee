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
    fate = _taken_back(lines)
    first_lines = origins(lines)
    last: dict[str, tuple[datetime, int, str]] = {}
    for entry_id, entry in lines.items():
        if entry_id not in fate:
            # Two people corrected the same line: the one written later counts, wherever it stands.
            first, depth = first_lines[entry_id]
            rank = (entry.written or entry.at, depth, entry_id)
            if depth == 0:
                rank = (datetime.min, 0, entry_id)
            last[first] = max(last.get(first, rank), rank)
    for entry_id in lines:
        first, _ = first_lines[entry_id]
        if entry_id not in fate and last[first][2] != entry_id:
            fate[entry_id] = last[first][2]
    return fate


def origins(lines: Mapping[str, Entry]) -> dict[str, tuple[str, int]]:
    """Line id -> the first line of its chain of corrections, and how many corrections after it.

    The first may be a line that is not there. A ring begins at each of its lines.
    """
    chains: dict[str, tuple[str, int]] = {}
    for start in lines:
        trail: dict[str, None] = {}
        line_id = start
        while line_id not in chains and line_id not in trail and _replaces(lines, line_id):
            trail[line_id] = None
            line_id = _replaces(lines, line_id)
        behind = list(trail)
        if line_id in trail:
            ring = behind[behind.index(line_id) :]
            chains |= {one: (one, len(ring)) for one in ring}
            behind = behind[: behind.index(line_id)]
        first, depth = chains.setdefault(line_id, (line_id, 0))
        for one in reversed(behind):
            depth += 1
            chains[one] = (first, depth)
    return chains


def rings(lines: Mapping[str, Entry]) -> list[str]:
    """One line of each ring of lines that replace or take back one another."""
    ring_lines: list[str] = []
    seen: dict[str, int] = {}  # line -> the walk on which it was met
    for number, start in enumerate(lines):
        line_id = start
        while line_id in lines and line_id not in seen:
            seen[line_id] = number
            act = lines[line_id].act
            line_id = lines[line_id].replaces or (act.entry if isinstance(act, TakenBack) else "")
        if seen.get(line_id) == number:
            ring_lines.append(line_id)
    return ring_lines


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

    taken_by: dict[str, str | None] = {}
    for start in lines:
        asking = {start: asks(start)} if start not in taken_by else {}
        while asking:
            line_id = next(reversed(asking))
            other = next(
                (o for o in asking[line_id] if o not in taken_by and o not in asking), None
            )
            if other is not None:
                asking[other] = asks(other)
                continue
            own = (t for t in takers.get(line_id, ()) if t in taken_by and taken_by[t] is None)
            taken_by[line_id] = next(own, taken_by.get(_replaces(lines, line_id)))
            del asking[line_id]
    return {
        line_id: taker
        for line_id, taker in taken_by.items()
        if taker is not None and line_id in lines
    }
