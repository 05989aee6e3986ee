"""The values a forecast gives."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import NamedTuple


class Finish(NamedTuple):
    """The dates by which something is finished with a chance of 50, 80 and 95 %.

    None where no such date was found within fifty years.
    """

    even: date | None
    likely: date | None
    nearly_sure: date | None


class OnChain(NamedTuple):
    """In what share of the courses a task was on the chain that set the finish."""

    task: str
    share: float


class Sooner(NamedTuple):
    """One change and what it brings: `gain` is how much earlier the finish is on average,
    `doubt` the standard error of that. `says` names the change in words."""

    says: str
    gain: timedelta
    doubt: timedelta

    @property
    def tells(self) -> bool:
        """Whether the gain stands clear of chance and is at least a day."""
        return self.gain >= timedelta(days=1) and self.gain > 2 * self.doubt


class Basis(NamedTuple):
    """What of the logbook the forecast stands on."""

    work_days: int
    tasks_with_hours: int
    people: int


class Forecast(NamedTuple):
    """When the vehicle is finished, as far as can be told at `at`.

    `runs` courses were played (`asked` for more, where it was stopped). `soonest` is the earliest
    at which any of them would have ended, had nothing in it ever waited for people: none ends
    before. `courses` are the finish dates of all courses in order, None where one did not end
    within fifty years. `sooner` is empty until it is asked for.
    """

    at: datetime
    seed: int
    runs: int
    asked: int
    soonest: date
    vehicle: Finish
    components: tuple[tuple[str, Finish], ...]
    courses: tuple[date | None, ...]
    on_chain: tuple[OnChain, ...]
    basis: Basis
    remarks: tuple[str, ...]
    sooner: tuple[Sooner, ...] = ()

    @property
    def stopped(self) -> bool:
        return self.runs < self.asked
