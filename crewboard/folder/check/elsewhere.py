"""Two vehicles with one crew: the same people's hours on the same day, here and there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crewboard.folder.read.elsewhere import elsewhere_on
from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import VEHICLE, day_path
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import HOURS
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.hours.elsewhere import doubt_of_both
from crewboard.order.hours.guests import Worker, joined_since, worker


def hours_elsewhere(folder: Folder) -> Iterator[Remark]:
    """Hours that a day hardly has room for beside those on another vehicle, where nobody gave a
    reason; and other vehicles' folders that cannot be read, each once."""
    plan, logbook = folder.plan, folder.logbook
    paths, unread = plan.vehicle.shares_crew_with, dict[int, str]()
    joined = joined_since(plan)
    for day in logbook.days.values() if paths else ():
        elsewhere = elsewhere_on(str(folder.root), paths, day.date)
        for number, sentence in elsewhere.unread:
            unread.setdefault(number, sentence)
        for who, lines in _by_worker(joined, day).items():
            hours = sum(line.act.hours for line in lines if isinstance(line.act, HOURS))
            doubt = doubt_of_both(plan, logbook, day.date, who, hours, elsewhere.days)
            if doubt and not any(line.despite for line in lines):
                at = ("entries", lines[-1].id, "hours")
                hint = "correct the hours here or there, if one of them is wrong"
                yield Remark(day_path(day.date), at, "hours-elsewhere", doubt, hint)
    for number, sentence in unread.items():
        hint = "write the path from this folder: ../other-bus"
        yield Remark(VEHICLE, ("shares_crew_with", number), "elsewhere", sentence, hint)


def _by_worker(joined: Mapping[str, str], day: Day) -> dict[Worker, list[Entry]]:
    lines: dict[Worker, list[Entry]] = {}
    for entry in day.counting:
        if isinstance(entry.act, HOURS):
            lines.setdefault(worker(joined, entry.act), []).append(entry)
    return lines
