"""Work that must not be left half done, in one course: begun only where all of it fits the day."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.model import Work

# After so many work days on which too few came for it the crew makes a day of it (common sense, no
# source): else work that nearly always needs more than come would never be done.
PATIENCE = 12


def most_hands(work: Work) -> int:
    """How many can ever be on it."""
    return max(1, min(work.most, work.allowed.bit_count()))


class InOneGo:
    """`waits`: the tasks that are held to it still, with the days on which they did not fit."""

    __slots__ = ("_did_not_fit", "waits")

    def __init__(self, works: Sequence[Work], table: WorkDayTable, left: list[float]) -> None:
        self.waits = {
            task: 0
            for task in table.in_one_go
            if left[task] <= table.longest * most_hands(works[task])
        }
        self._did_not_fit: set[int] = set()

    def crew(self, task: int, crew: int, able: int, most: int, hours: tuple[float, float]) -> int:
        """The crew with as many more of those able as it takes to end in time; 0 where there are
        too few. `hours` are the minutes of work left in the task and till the shop closes."""
        left, till = hours
        wanted = max(crew.bit_count(), -int(-left // till))
        if wanted > max(crew.bit_count(), min(most, able.bit_count())):
            self._did_not_fit.add(task)
            return 0
        while crew.bit_count() < wanted:
            rest = able & ~crew
            crew |= rest & -rest
        return crew

    def day_is_over(self) -> None:
        for task in self._did_not_fit & self.waits.keys():
            self.waits[task] += 1
            if self.waits[task] >= PATIENCE:
                del self.waits[task]
        self._did_not_fit.clear()
