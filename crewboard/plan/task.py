"""A task: one piece of work that is begun and finished."""

from collections.abc import Mapping
from datetime import date
from typing import Literal, NamedTuple

from crewboard.plan.duration import Duration
from crewboard.plan.hold import Conditions, Hold

# Work after which what was there cannot be seen any more.
Changes = Literal["closes", "strips", "blasts", "cuts"]
# A coat of faces that will be hidden, or of those that show; or work that covers faces up.
Faces = Literal["hidden", "shown", "covers"]


class Estimate(NamedTuple):
    """Person-hours the work may take."""

    low: float
    likely: float
    high: float


class Task(NamedTuple):
    """One piece of work. `id` is "component/task"; `component` is its component's or part's id."""

    id: str
    title: str
    component: str
    method: str = ""
    after: tuple[str, ...] = ()  # ids of tasks and components that come before
    during: tuple[str, ...] = ()  # tasks before it whose hold need not be over
    estimate: Estimate | None = None
    least_people: int = 1
    most_people: int | None = None
    skills: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    supplies: tuple[str, ...] = ()
    amounts: Mapping[str, float] = {}  # how much of a supply it needs, where that is said
    place: str = ""
    pictures: tuple[str, ...] = ()
    hold: Hold | None = None
    conditions: Conditions = Conditions()  # what the shop must be like while it is done
    not_before: date | None = None  # a fixed date: a tent booked, a visit agreed
    due: date | None = None  # a date it should be finished by: an open day
    finished: date | None = None  # finished before the logbook was kept
    set_aside: str = ""  # the reason, where it is not to be done for now
    each: tuple[str, ...] = ()  # the pieces for each of which it is done
    pieces: tuple[str, ...] = ()  # the pieces that it is done to
    series: str = ""  # the task as it is written, where this is its part for one piece
    spares: bool = False  # of a task for each: done to the spares too
    enough: Mapping[str, int] = {}  # of a series before it: so many are enough
    within: Mapping[str, Duration] = {}  # task before it -> the longest time after its finish
    uses: tuple[str, ...] = ()  # jigs, forms, stands: taken until its hold is over
    in_one_go: bool = False  # must not be left half done
    changes: Changes | None = None  # what it does to old fabric, which needs its picture first
    faces: Faces | None = None  # which faces it coats, or that it covers them; None: by its title
    finding: str = ""  # the entry of the finding that it came from
    added: date | None = None  # when it came into the plan; None: nothing says so

    @property
    def name(self) -> str:
        """The part of the id after the component's file."""
        return self.id.partition("/")[2]
