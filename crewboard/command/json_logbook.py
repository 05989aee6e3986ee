"""The forms of `--json` (see `json_form`) for entries, what was kept or refused, and mistakes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import TYPE_CHECKING

from crewboard.command.json_form import Form, form_of, plain
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook

if TYPE_CHECKING:
    from crewboard.folder.read.fault import Fault
    from crewboard.workbench import Outcome


def log_form(logbook: Logbook, wanted: Callable[[Day, Entry], bool]) -> Form:
    entries = []
    for day in logbook.days.values():
        fates = day.fate()
        entries += [
            entry_form(day.date, entry, fates.get(entry.id))
            for entry in sorted(day.entries, key=lambda each: each.at)
            if wanted(day, entry)
        ]
    return form_of("log", entries=entries)


def entry_form(day: date, entry: Entry, fate: str | None = None) -> Form:
    from crewboard.folder.read.day_file import entry_fields

    fields = {key: plain(value) for key, value in entry_fields(entry).items()}
    fields.setdefault("by", None)
    return {"id": entry.id, "day": day, **fields, "counts": fate is None, "fate": fate}


def check_form(files: int, mistakes: Iterable[Fault], questions: Iterable[Fault]) -> Form:
    return form_of(
        "check",
        files=files,
        mistakes=[fault._asdict() for fault in mistakes],
        questions=[fault._asdict() for fault in questions],
    )


def outcome_form(outcome: Outcome) -> Form:
    if not outcome.kept:
        return form_of("refused", refused=[refusal._asdict() for refusal in outcome.refused])
    entries = [entry_form(entry.at.date(), entry) for entry in outcome.entries]
    return form_of("kept", entries=entries, files=outcome.files)
