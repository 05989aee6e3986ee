"""Who said that they will come, and who was there."""

from __future__ import annotations

from datetime import date

from crewboard.logbook.acts import Expected
from crewboard.logbook.logbook import Logbook


def expected_on(logbook: Logbook, day: date) -> dict[str, Expected]:
    """Each person's last word on whether they come that day."""
    of_day = logbook.days.get(day)
    said: dict[str, Expected] = {}
    for entry in of_day.counting if of_day else ():
        if isinstance(entry.act, Expected):
            said[entry.act.who] = entry.act
    return said
