"""What a logbook entry can say: one type for each kind, described once, where it is defined.

Fields that name something hold ids of the plan; a name the plan does not know (any more) is kept
as written: the logbook says what happened. What a kind is called in a file, how its sentence goes,
how it is asked for and typed as a command stands above its type (`kinds.entry`), what each of its
fields means beside it (`fields`).
"""

from crewboard.logbook.hours import HOURS, GuestHours, HoursWorked, WorkedOn, worked_on
from crewboard.logbook.pieces import PieceFailed, TookPlace
from crewboard.logbook.planned import Planned
from crewboard.logbook.record.done import DoneTo, Gone, PieceMade, Reused, Stored, TakenOff
from crewboard.logbook.record.listed import (
    Departure,
    EarlierRepair,
    Pattern,
    SizeDecided,
    Temporary,
    Undone,
)
from crewboard.logbook.record.reckoned import Bent, Reckoned
from crewboard.logbook.record.seen import Found, Layers, Measured, Pictured, Sourced, TookIn
from crewboard.logbook.shop import (
    ClosedDay,
    Expected,
    GuestCame,
    GuestLeft,
    Incident,
    LetGo,
    Noted,
    OpenUntil,
    Reading,
    SignIn,
    SignOut,
    TakenBack,
)
from crewboard.logbook.steam import Steamed
from crewboard.logbook.supplies import Arrived, Ordered, SentBack, Used
from crewboard.logbook.work import (
    Begun,
    CheckSigned,
    Extended,
    Finished,
    HazardRuledOut,
    HoldStarted,
    HoursLeft,
    Released,
    Reopened,
    SetAside,
    Stopped,
    Training,
)

__all__ = [
    "HOURS",
    "Act",
    "Arrived",
    "Begun",
    "Bent",
    "CheckSigned",
    "ClosedDay",
    "Departure",
    "DoneTo",
    "EarlierRepair",
    "Expected",
    "Extended",
    "Finished",
    "Found",
    "Gone",
    "GuestCame",
    "GuestHours",
    "GuestLeft",
    "HazardRuledOut",
    "HoldStarted",
    "HoursLeft",
    "HoursWorked",
    "Incident",
    "Layers",
    "LetGo",
    "Measured",
    "Noted",
    "OpenUntil",
    "Ordered",
    "Pattern",
    "Pictured",
    "PieceFailed",
    "PieceMade",
    "Planned",
    "Reading",
    "Reckoned",
    "Released",
    "Reopened",
    "Reused",
    "SentBack",
    "SetAside",
    "SignIn",
    "SignOut",
    "SizeDecided",
    "Sourced",
    "Steamed",
    "Stopped",
    "Stored",
    "TakenBack",
    "TakenOff",
    "Temporary",
    "TookIn",
    "TookPlace",
    "Training",
    "Undone",
    "Used",
    "WorkedOn",
    "worked_on",
]

Act = (
    SignIn
    | SignOut
    | GuestCame
    | GuestLeft
    | Expected
    | HoursWorked
    | GuestHours
    | Begun
    | Finished
    | Stopped
    | Steamed
    | Reopened
    | HoursLeft
    | HoldStarted
    | Extended
    | Released
    | CheckSigned
    | HazardRuledOut
    | Reading
    | Arrived
    | Ordered
    | SentBack
    | Used
    | SetAside
    | PieceFailed
    | TookPlace
    | Noted
    | Incident
    | ClosedDay
    | OpenUntil
    | Planned
    | TakenBack
    | LetGo
    | Training
    | DoneTo
    | Gone
    | PieceMade
    | Reused
    | Stored
    | TakenOff
    | Departure
    | EarlierRepair
    | Pattern
    | SizeDecided
    | Temporary
    | Undone
    | Found
    | Layers
    | Measured
    | Pictured
    | Sourced
    | TookIn
    | Reckoned
    | Bent
)
