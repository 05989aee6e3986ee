"""Taking in the files of a phone or camera: copied first, then all entries in one write."""

from __future__ import annotations

import os
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from crewboard.folder.intake.brought import Brought, brought
from crewboard.folder.intake.copied import without_entries
from crewboard.folder.intake.looked_through import PassedOver
from crewboard.logbook.entry import Said
from crewboard.logbook.record.seen import TookIn
from crewboard.workbench.bench import Workbench
from crewboard.workbench.outcome import Outcome


class TakenIn(NamedTuple):
    """What became of the files: the entries that were kept, and what was passed over and why."""

    outcome: Outcome
    passed_over: tuple[PassedOver, ...]


def bring_in(bench: Workbench, sources: Sequence[str], year: int, *, large: bool) -> Brought:
    """Copy the files that the logbook does not know yet; nothing is written into it."""
    zone = bench.plan.clock.zone
    return brought(
        os.fspath(bench.folder.root),
        sources,
        _taken_before(bench),
        local=lambda seconds: datetime.fromtimestamp(seconds, zone).replace(tzinfo=None),
        year=year,
        large=large,
    )


def write_down(
    bench: Workbench, files: Brought, *, by: str, at: datetime, now: datetime
) -> TakenIn:
    """Write an entry for each file, all or none; where none is, their copies go again."""
    if not files.acts:
        return TakenIn(Outcome(), files.passed_over)
    outcome = bench.record([Said(act, at) for act in files.acts], by=by, now=now)
    if not outcome.kept:
        kept = set(_taken_before(bench).values())  # it may not be sure whether they were saved
        without_entries(
            os.fspath(bench.folder.root), [path for path in files.new_files if path not in kept]
        )
    return TakenIn(outcome, files.passed_over)


def take_in(
    bench: Workbench,
    sources: Sequence[str],
    *,
    by: str,
    at: datetime,
    now: datetime,
    large: bool = False,
) -> TakenIn:
    """Take the files in that `sources` name, or that lie in the folders that they name."""
    return write_down(bench, bring_in(bench, sources, at.year, large=large), by=by, at=at, now=now)


def _taken_before(bench: Workbench) -> dict[str, str]:
    """The path in the folder of each hash that an entry that counts has."""
    taken_in = (entry.act for entry in bench.logbook.record() if isinstance(entry.act, TookIn))
    return {act.hash: act.file for act in taken_in if act.hash}
