"""The logbook in plain lines: every line with its fate, nothing hidden."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from crewboard.logbook.acts import TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by, people_of
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import day_in_words, person
from crewboard.paper.plain import Paper
from crewboard.plan.plan import Plan
from crewboard.telling.entry_words import EntryWords


def logbook_lines(
    plan: Plan, logbook: Logbook, width: int, wanted: Callable[[Day, Entry], bool]
) -> list[str]:
    """The entries wanted, by day; corrected and taken-back lines say by which line."""
    paper, words = Paper(width), EntryWords(plan, logbook)
    for day in logbook.days.values():
        entries = sorted((e for e in day.entries if wanted(day, e)), key=lambda each: each.at)
        if not entries:
            continue
        paper.heading(day_in_words(day.date))
        fates = day.fate()
        lines = {each.id: each for each in day.entries}
        for entry in entries:
            fate = fate_in_words(entry, fates, lines)
            paper.line(_line(words, day, entry, fate), indent=2, hang=7)
    if not paper.lines:
        paper.line("There is no such entry in the logbook.")
    return paper.lines


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
    own = people_of(entry.act) == {entry.by}
    by = f", written by {person(words.plan, entry.by)}" if entry.by and not own else ""
    mark = f" - {fate}" if fate else ""
    return f"{when}  {words.of(entry, day)}{by}  [{entry.id}]{mark}"
