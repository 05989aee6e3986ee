"""What a logbook entry can say. One type for each kind of line in a day's file.

Fields named `task`, `component`, `supply`, `who`, `hazard` hold ids of the plan; a name the plan
does not know (any more) is kept as written: the logbook says what happened.
"""

from datetime import date, datetime
from typing import NamedTuple

from crewboard.plan.duration import Duration


class SignIn(NamedTuple):
    """Somebody came to the shop."""

    who: str
    note: str = ""


class SignOut(NamedTuple):
    """Somebody left the shop."""

    who: str
    note: str = ""


class Expected(NamedTuple):
    """Somebody said whether they will come on that day."""

    who: str
    coming: bool = True
    note: str = ""


class HoursWorked(NamedTuple):
    """Person-hours of one person, on a task or (task empty) on something else, told in the note."""

    who: str
    hours: float
    task: str = ""
    note: str = ""


class Begun(NamedTuple):
    """Work on a task began. `crew` are the people on it."""

    task: str
    crew: tuple[str, ...] = ()
    despite: str = ""  # why it was begun although something stood against it; `by` answers for it
    note: str = ""


class Finished(NamedTuple):
    """The work of a task is done; its hold starts now, or at `clock`."""

    task: str
    clock: datetime | None = None
    note: str = ""


class Reopened(NamedTuple):
    """A finished task has to be worked on again; what its finish started is void."""

    task: str
    why: str = ""


class HoursLeft(NamedTuple):
    """A new estimate of the person-hours still to do on a task."""

    task: str
    hours: float
    why: str = ""


class HoldStarted(NamedTuple):
    """A hold started by hand, on a task or on a whole component."""

    hold: str  # the kind
    task: str = ""
    component: str = ""
    lasts: Duration | None = None
    release: str = ""  # "time" or "look"; empty for what is usual for the kind
    leave_alone: bool = False
    why: str = ""


class Extended(NamedTuple):
    """A running hold made longer: by a span, or until a moment."""

    hold: str  # the id of the entry that started it
    lasts: Duration | None = None
    until: datetime | None = None
    why: str = ""


class Released(NamedTuple):
    """A hold let go, at its time after a look or earlier."""

    hold: str
    why: str = ""


class CheckSigned(NamedTuple):
    """A safety check signed by `who`, for a task where it is asked for each task.

    `applies` False means: looked at and found not to apply, with the reason in `why`.
    """

    hazard: str
    check: str
    who: str
    task: str = ""
    applies: bool = True
    why: str = ""


class Reading(NamedTuple):
    """What the thermometer (°C) and the hygrometer (% relative humidity) in the shop said."""

    celsius: float | None = None
    humidity: float | None = None
    note: str = ""


class Arrived(NamedTuple):
    """A supply came."""

    supply: str
    note: str = ""


class Ordered(NamedTuple):
    """A supply was ordered, and when it is promised for."""

    supply: str
    due: date | None = None
    note: str = ""


class SetAside(NamedTuple):
    """A task is put off, or (back True) taken up again."""

    task: str
    why: str = ""
    back: bool = False


class Noted(NamedTuple):
    """Anything worth keeping, on a task, on a component or on the day."""

    text: str
    task: str = ""
    component: str = ""


class Incident(NamedTuple):
    """A near miss or an injury: what happened, where, who saw it, what was done."""

    what: str
    injury: bool = False
    place: str = ""
    task: str = ""
    who: tuple[str, ...] = ()  # people concerned
    seen_by: tuple[str, ...] = ()
    done: str = ""


class ClosedDay(NamedTuple):
    """The work day was closed. `despite` is the reason, where something stood against it."""

    despite: str = ""
    note: str = ""


class TakenBack(NamedTuple):
    """An earlier entry of the same day does not count any more."""

    entry: str
    why: str = ""


Act = (
    SignIn
    | SignOut
    | Expected
    | HoursWorked
    | Begun
    | Finished
    | Reopened
    | HoursLeft
    | HoldStarted
    | Extended
    | Released
    | CheckSigned
    | Reading
    | Arrived
    | Ordered
    | SetAside
    | Noted
    | Incident
    | ClosedDay
    | TakenBack
)

# The word that stands as `kind` in the day's file, for each type.
KIND: dict[type, str] = {
    SignIn: "sign-in",
    SignOut: "sign-out",
    Expected: "expected",
    HoursWorked: "hours",
    Begun: "begun",
    Finished: "finished",
    Reopened: "reopened",
    HoursLeft: "hours left",
    HoldStarted: "hold",
    Extended: "extended",
    Released: "released",
    CheckSigned: "check",
    Reading: "reading",
    Arrived: "arrived",
    Ordered: "ordered",
    SetAside: "set aside",
    Noted: "note",
    Incident: "incident",
    ClosedDay: "day closed",
    TakenBack: "taken back",
}
