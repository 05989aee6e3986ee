"""The logbook in plain lines: every line with its fate, nothing hidden."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from crewboard.legible import legible
from crewboard.logbook.acts import CheckSigned, TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by, people_of
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import day_in_words, person
from crewboard.plan.plan import Plan
from crewboard.telling.entry_words import MOST_OF_A_TEXT, EntryWords, put_down_in_words
from crewboard.telling.line import GAP, Line

_HANG = 7  # cells: what is wrapped hangs under the words, not under the time before them


def logbook_lines(plan: Plan, logbook: Logbook, wanted: Callable[[Day, Entry], bool]) -> list[Line]:
    """The entries wanted, by day; corrected and taken-back lines say by which line."""
    words = EntryWords(plan, logbook, most=MOST_OF_A_TEXT)
    lines: list[Line] = []
    for day in logbook.days.values():
        entries = sorted((e for e in day.entries if wanted(day, e)), key=lambda e: e.at)
        if not entries:
            continue
        fates, of_day = day.fate(), {entry.id: entry for entry in day.entries}
        lines += [*([GAP] if lines else []), Line(day_in_words(day.date))]
        for entry in entries:
            text = _line(words, day, entry, fate_in_words(entry, fates, of_day))
            lines.append(Line(legible(text), indent=2, hang=_HANG))
    return lines or [Line("There is no such entry in the logbook.")]


def about(entry: Entry) -> set[str]:
    """The ids of everything an entry is about, with who wrote it."""
    return {named.id for named in named_by(entry.act)} | ({entry.by} - {""})


def fate_in_words(entry: Entry, fates: Mapping[str, str], lines: Mapping[str, Entry]) -> str:
    """What became of a line: corrected or taken back, by which line."""
    fate = fates.get(entry.id)
    if fate is None:
        return f"corrects {entry.replaces}" if entry.replaces else ""
    taken = fate in lines and isinstance(lines[fate].act, TakenBack)
    return f"does not count: {'taken back' if taken else 'corrected'} by {fate}"


def _line(words: EntryWords, day: Day, entry: Entry, fate: str) -> str:
    when = f"{entry.at:%H:%M}" if entry.at.date() == day.date else f"{entry.at:%Y-%m-%d %H:%M}"
    # Of a signature its own words say who wrote it down for whom.
    own = isinstance(entry.act, CheckSigned) or people_of(entry.act) == {entry.by}
    by = f", written by {person(words.plan, entry.by)}" if entry.by and not own else ""
    facts = "".join(f" - {fact}" for fact in (put_down_in_words(entry), fate) if fact)
    return f"{when}  {words.of(entry, day)}{by}  [{entry.id}]{facts}"
