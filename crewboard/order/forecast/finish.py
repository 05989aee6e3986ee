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


class Growth(NamedTuple):
    """What came into the plan on the way, and what is learned of it.

    Tasks that came after `since` were found on the way (None: not known). `planned` are the tasks
    of the plan as first written, `found` those that came later, both with their estimates in
    person-hours. `rate` is what is believed to be found for each hour of estimated work that is
    finished, with its 80 % interval. Of `tasks_without_date` nothing says when they came.
    """

    since: date | None
    planned: int
    found: int
    planned_hours: float
    found_hours: float
    rate: float
    low: float
    high: float
    tasks_without_date: int = 0


class Supposed(NamedTuple):
    """What the dates suppose that nobody has seen to yet: "nobody may", "not ordered", "not
    decided", "not inspected" and the like, see `supposed`. `what` is the id of the task, supply or
    component, `says` one sentence with its name; `name` is that name alone, and `why` what is
    missing, where several may lack the same."""

    kind: str
    what: str
    says: str
    name: str = ""
    why: str = ""


class Rough(NamedTuple):
    """A range from the estimates alone, where too little is known for a date; no chance goes with
    it. `first` is when it ends with `low` person-hours and `many` people on each work day, `last`
    with `high` hours and `few` people (None: later than in fifty years). `crew` are the people of
    the crew list, `days` the work days of the year ahead."""

    first: date
    last: date | None
    low: float
    high: float
    few: int
    many: int
    crew: int
    days: int


class Forecast(NamedTuple):
    """When the vehicle is finished, as far as can be told at `at`.

    `runs` courses were played (`asked` for more, where it was stopped). `soonest` is the earliest
    at which any of them would have ended, had nothing in it ever waited for people: none ends
    before. `courses` are the finish dates of all courses in order, None where one did not end
    within fifty years. `sooner` is empty until it is asked for.

    `vehicle` and `components` are with what usually turns up on the way; `as_planned` is the plan
    as it stands, with nothing found. `too_little`, where it is not empty, says what would make a
    date of it: too little is known for one.
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
    as_planned: Finish = Finish(None, None, None)
    growth: Growth | None = None
    supposed: tuple[Supposed, ...] = ()
    too_little: str = ""
    rough: Rough | None = None

    @property
    def stopped(self) -> bool:
        return self.runs < self.asked
