"""A day's file in which nothing can be wrong, as nearly all are: read several times faster, its
lines of the record not before somebody asks for them."""

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from functools import lru_cache, partial

from crewboard.folder.read.day_file import entry_of, usual_entry
from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.line_forms import ODD_BYTES, is_known, learn
from crewboard.folder.read.table import Table
from crewboard.folder.toml.day import DATED_LINE, PLAIN_HEAD, PLAIN_REMARK, plain_fields
from crewboard.folder.toml.text import text_of
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.put_off import PutOff
from crewboard.plan.clock import FIRST_YEAR, LAST_YEAR, year_amiss

_IDS = r"[a-z0-9]+(?: [a-z0-9]+)*"


def usual_day(day: date, data: bytes) -> Day | None:
    """The day of a file as this program writes it, in which there is no mistake: what `decode_day`
    gives. None of any other file, the values of which have to be looked at one by one."""
    text = text_of(data)
    head = PLAIN_HEAD.match(text) if isinstance(text, str) else None
    if head is None or not isinstance(text, str) or head[1] != str(day) or year_amiss(day)[0]:
        return None
    *lines, last = text[head.end() :].split("\n")
    if last:  # without its line end
        return None
    odd = len(data.translate(None, ODD_BYTES)) != len(data)
    return _day_of(day, lines, may_put_off=not odd)


def _day_of(day: date, lines: Sequence[str], *, may_put_off: bool) -> Day | None:
    ids: list[str] = []
    every: list[Entry | str] = []
    of_work: list[Entry] = []
    names: dict[tuple[str, str], set[str]] = defaultdict(set)
    begins = f"{day}T"
    for line in lines:
        entry_id, _, written = line.partition(" = { at = ")
        if may_put_off and is_known(written, begins, names):
            ids.append(entry_id)
            every.append(line)
        elif not PLAIN_REMARK.fullmatch(line):
            entry = entry_in(line)
            if entry is None:
                return None
            ids.append(entry.id)
            every.append(entry)
            of_work.append(entry)
            if may_put_off:
                learn(written, entry)
    known = " ".join(sorted(ids))
    if len(set(ids)) != len(ids) or (ids and not re.fullmatch(_IDS, known, re.ASCII)):
        return None
    if len(of_work) == len(every):
        return Day(day, of_work)
    return Day(day, of_work, put_off=PutOff(known, names, partial(entries_in, every)))


def entries_in(lines: Iterable[Entry | str]) -> tuple[Entry, ...]:
    """The entries of these lines, of which each says one or is no line of an entry."""
    entries = (entry_in(line) if isinstance(line, str) else line for line in lines)
    return tuple(entry for entry in entries if entry is not None)


def entry_in(line: str) -> Entry | None:
    """The entry of a line as this program writes it, None where it has mistakes."""
    dated = DATED_LINE.fullmatch(line)
    if dated is None:
        return None
    entry_id, written_at, written = dated.groups()
    try:
        at = datetime.fromisoformat(written_at)
    except ValueError:  # the 30th of February
        return None
    read = _read_once(written)
    if read is None or not FIRST_YEAR <= at.year <= LAST_YEAR:
        return None
    _, _, act, by, written_later, replaces, despite = read
    return Entry(entry_id, at, act, by, written_later, replaces, despite)


_AT = datetime(2000, 1, 1)


@lru_cache(maxsize=1 << 13)
def _read_once(written: str) -> Entry | None:
    """What stands behind the moment of a line, as an entry of no id; None where it has mistakes.

    The same words say the same on any day: of somebody who comes and goes they are read once.
    """
    try:
        fields = plain_fields(written)
    except ValueError:  # the 30th of February
        return None
    if fields is None or "at" in fields:
        return None
    fields["at"] = _AT
    misfits: list[Misfit] = []
    entry = usual_entry("", fields) or entry_of("", Table(fields, (), misfits))
    return None if misfits else entry
