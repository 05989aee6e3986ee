"""The logbook in plain lines: every line with its fate, nothing hidden."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from crewboard.logbook.acts import TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import day_in_words, person
from crewboard.paper.plain import Paper
from crewboard.plan.plan import Plan
from crewboard.telling.entry_words import entry_in_words


def logbook_lines(
    plan: Plan, logbook: Logbook, width: int, wanted: Callable[[Day, Entry], bool]
) -> list[str]:
    """The entries wanted, by day; corrected and taken-back lines say by which line."""
    paper = Paper(width)
    for day in logbook.days.values():
        entries = sorted((e for e in day.entries if wanted(day, e)), key=lambda each: each.at)
        if not entries:
            continue
        paper.heading(day_in_words(day.date))
        fates = day.fate()
        lines = {each.id: each for each in day.entries}
        for entry in entries:
            paper.line(
                _line(plan, day, entry, fate_in_words(entry, fates, lines)), indent=2, hang=7
            )
    if not paper.lines:
        paper.line("There is no such entry in the logbook.")
    return paper.lines


def about(entry: Entry) -> set[str]:
    """The ids of everything an entry is about: people, task, component, supply, hazard."""
    ids: set[str] = {entry.by} - {""}
    for key in ("who", "crew", "seen_by", "task", "component", "supply", "hazard"):
        value = getattr(entry.act, key, ())
        ids |= {value} if isinstance(value, str) else set(value)
    return ids - {""}


def fate_in_words(entry: Entry, fates: Mapping[str, str], lines: Mapping[str, Entry]) -> str:
    """What became of a line: corrected or taken back, by which line."""
    fate = fates.get(entry.id)
    if fate is None:
        return f"corrects {entry.replaces}" if entry.replaces else ""
    taken = fate in lines and isinstance(lines[fate].act, TakenBack)
    return f"does not count: {'taken back' if taken else 'corrected'} by {fate}"


def _line(plan: Plan, day: Day, entry: Entry, fate: str) -> str:
    when = f"{entry.at:%H:%M}" if entry.at.date() == day.date else f"{entry.at:%Y-%m-%d %H:%M}"
    own = getattr(entry.act, "who", "") == entry.by
    by = f", written by {person(plan, entry.by)}" if entry.by and not own else ""
    mark = f" - {fate}" if fate else ""
    return f"{when}  {entry_in_words(plan, entry)}{by}  [{entry.id}]{mark}"
