"""Whether what the record says was done to pieces can have been so, one line with another."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import COMPONENTS, DAYS, day_path
from crewboard.folder.read.folder import Folder
from crewboard.logbook.fields import named_by
from crewboard.order.admit.contradicted import (
    all_contradictions,
    contradiction_in_words,
    insisted_on,
)


def contradicted_lines(folder: Folder) -> Iterator[Remark]:
    """Lines that cannot be as the others stand: put away after it was discarded."""
    yield from _lines(folder, yields=False)


def doubted_lines(folder: Folder) -> Iterator[Remark]:
    """Lines that hardly can be, and for which nobody gave a reason."""
    yield from _lines(folder, yields=True)


def entries_of_nothing(folder: Folder) -> Iterator[Remark]:
    """Findings, papers and temporary things that an entry names, and that there are not."""
    days = folder.logbook.days.values()
    known = {entry_id for day in days for entry_id in day.ids}
    hint = "look up its id: crewboard log"
    for day in days:
        for entry in (*day.record, *day.events):
            for named in named_by(entry.act):
                if named.thing == "entry" and named.id not in known:
                    path = ("entries", day.last_wording(entry.id), named.field)
                    sentence, file = f'there is no entry "{named.id}"', day_path(day.date)
                    yield Remark(file, path, "no-entry", sentence, hint, rests_on=(DAYS,))


def _lines(folder: Folder, *, yields: bool) -> Iterator[Remark]:
    days = {entry.id: day for day in folder.logbook.days.values() for entry in day.record}
    if not days:
        return
    for odd in all_contradictions(folder.plan, folder.logbook):
        day = days.get(odd.entry.id)
        if odd.yields is not yields or day is None or insisted_on(odd.entry):
            continue
        sentence, mend = contradiction_in_words(folder.plan, odd)
        path = ("entries", day.last_wording(odd.entry.id))
        rests_on = (DAYS, COMPONENTS)
        code = odd.code.replace(" ", "-")
        yield Remark(day_path(day.date), path, code, sentence, mend, rests_on=rests_on)
