"""Near misses and injuries as a report, with the names or without them.

Without names each person becomes "person A", the same throughout the report, in the free text too
wherever a name or short name of the crew stands in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import date
from typing import NamedTuple

from crewboard.logbook.acts import Incident
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import day_and_time, how_many, listed, person
from crewboard.paper.page import html_page, points, section
from crewboard.paper.plain import Paper
from crewboard.plan.plan import Plan

READ_FIRST = (
    "Names of the crew list were left out. Somebody who is not on it may still be named in the "
    "words: read the report before it is shared."
)
IN_FULL = "With names: for the crew's own records, not to be shared."


class IncidentTold(NamedTuple):
    """One near miss or injury, every text ready to be shown."""

    entry: str
    when: str
    kind: str  # "near miss" or "injury"
    what: str
    place: str
    task: str
    who: str
    seen_by: str
    done: str
    written_by: str


def incidents(
    logbook: Logbook, since: date | None = None, until: date | None = None
) -> Iterator[Entry]:
    """The near misses and injuries that count, from `since` to `until`, both days included."""
    for day in logbook.days.values():
        if (since is None or day.date >= since) and (until is None or day.date <= until):
            yield from (entry for entry in day.counting if isinstance(entry.act, Incident))


def incidents_told(plan: Plan, entries: Iterable[Entry], *, names: bool) -> list[IncidentTold]:
    """What is said of each of them; `names` False leaves the names of people out."""
    found = list(entries)
    veil = None if names else _Veil(plan, found)

    def text(words: str) -> str:
        return veil.text(words) if veil else words

    def people(ids: Iterable[str]) -> str:
        return listed(veil.person(who) if veil else person(plan, who) for who in ids if who)

    told = []
    for entry in found:
        act = entry.act
        assert isinstance(act, Incident)
        task = plan.tasks.get(act.task)
        told.append(
            IncidentTold(
                entry.id,
                day_and_time(entry.at),
                "injury" if act.injury else "near miss",
                text(act.what),
                text(act.place),
                text(task.title if task else act.task),
                people(act.who),
                people(act.seen_by),
                text(act.done),
                people([entry.by]),
            )
        )
    return told


def incident_lines(told: list[IncidentTold], *, names: bool, width: int = 80) -> list[str]:
    """The report as lines."""
    paper = Paper(width)
    paper.line(f"Near misses and injuries: {_count(told)}")
    paper.line(IN_FULL if names else READ_FIRST)
    for each in told:
        paper.heading(f"{each.when}: {each.kind}")
        for name, says in _facts(each):
            paper.line(f"{name}: {says}", indent=2, hang=2)
    return paper.lines


def incident_page(told: list[IncidentTold], *, names: bool) -> str:
    """The report as one HTML page to print, every text escaped."""
    body = [
        section(f"{each.when}: {each.kind}", points(f"{n}: {says}" for n, says in _facts(each)))
        for each in told
    ]
    title = f"Near misses and injuries: {_count(told)}"
    return html_page(title, IN_FULL if names else READ_FIRST, "".join(body))


def _count(told: list[IncidentTold]) -> str:
    injuries = sum(each.kind == "injury" for each in told)
    missed = len(told) - injuries
    near = "1 near miss" if missed == 1 else f"{missed} near misses"
    return f"{near}, {how_many(injuries, 'injury').replace('injurys', 'injuries')}"


def _facts(each: IncidentTold) -> list[tuple[str, str]]:
    facts = [
        ("what", each.what),
        ("where", each.place),
        ("task", each.task),
        ("who", each.who),
        ("seen by", each.seen_by),
        ("done", each.done),
        ("written by", each.written_by),
    ]
    return [(name, says) for name, says in facts if says]


class _Veil:
    """Puts "person A" in the place of every name it knows, the same letter for the same person."""

    def __init__(self, plan: Plan, entries: Iterable[Entry]) -> None:
        self._called: dict[str, str] = {}
        self._whose: dict[str, str] = {}  # any way of naming somebody, in lower case -> id
        ids = dict.fromkeys(plan.crew)
        for entry in entries:
            act = entry.act
            assert isinstance(act, Incident)
            ids |= dict.fromkeys(each for each in (*act.who, *act.seen_by, entry.by) if each)
        for who in ids:
            name = person(plan, who)
            for way in (name, *name.split(), who):
                self._whose.setdefault(way.lower(), who)
        ways = sorted(filter(None, self._whose), key=len, reverse=True)
        names = "|".join(re.escape(way) for way in ways)
        self._names = re.compile(rf"(?<!\w)(?:{names})(?!\w)", re.IGNORECASE) if ways else None

    def person(self, who: str) -> str:
        """What somebody is called in this report."""
        return self._called.setdefault(who, f"person {_letters(len(self._called))}")

    def text(self, words: str) -> str:
        if self._names is None:
            return words
        return self._names.sub(lambda m: self.person(self._whose[m[0].lower()]), words)


def _letters(count: int) -> str:
    """A, B, ... Z, AA, AB ..."""
    letters = ""
    while count >= 0:
        letters = chr(ord("A") + count % 26) + letters
        count = count // 26 - 1
    return letters
