"""What the logbook says of hours: who worked how long, and on what."""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import EntryField, Hours, Note, Person
from crewboard.logbook.kinds import ByCommand, entry
from crewboard.logbook.state import NOT_YET

OnTask = Annotated[str, EntryField("task", help="a task; leave it out for other work")]
OnComponent = Annotated[str, EntryField("component", help="or a component, where it is no task")]
OnPiece = Annotated[str, EntryField("piece", help="or a piece, where it is no task")]
OnOther = Annotated[
    str,
    EntryField("other work", "other work", "or a kind of other work, as other_work names it"),
]
_ON = "[ on {task|component|piece}][ on other work: {other}]"


class WorkedOn(NamedTuple):
    """What hours are on: one of these, or none of them where the note tells it."""

    task: str = ""
    component: str = ""
    piece: str = ""
    other: str = ""  # a kind of other work, as the crew names it


@entry(
    "hours",
    f"{{who}} worked {{hours}}{_ON}",
    title="Hours",
    command=ByCommand(
        "hours",
        "hours that somebody worked",
        "Writes down the hours that one person worked: on a task, on a component or a piece, on a "
        "kind of other work that vehicle.toml names, or on something that the note tells.",
        ("who", "hours", "task"),
        "",
        (
            "crewboard hours . mirela 3.5 strip-sashes",
            "crewboard hours . mirela 2 --component body-frame",
            'crewboard hours . mirela 1 --note "swept the shop"',
        ),
        of_series=(("under way",), ("ready", *NOT_YET), ("finished",)),
    ),
)
class HoursWorked(NamedTuple):
    """Person-hours of one person of the crew, on one thing or (none named) on what the note
    tells."""

    who: Person
    hours: Hours
    task: OnTask = ""
    note: Note = ""
    component: OnComponent = ""
    piece: OnPiece = ""
    other: OnOther = ""


@entry(
    "guest hours",
    f"{{name}}, a guest, worked {{hours}}{_ON}",
    title="Hours of a guest",
    menu="of somebody who is not in the crew",
    command=ByCommand(
        "guest-hours",
        "hours that a guest worked",
        "Writes down the hours that a guest worked, by the name that the guest was signed in "
        "with. Where the guest joins the crew later, `was_guest` in crew.toml makes them theirs.",
        ("name", "hours", "task"),
        "",
        ('crewboard guest-hours . "Ines Bratt" 1.5 --note "old photos" --at 2025-11-15T14:00',),
    ),
)
class GuestHours(NamedTuple):
    """Person-hours of a guest, by name, on one thing or on what the note tells."""

    name: Annotated[str, EntryField("guest", "the guest's name", "the guest's name, in quotes")]
    hours: Hours
    task: OnTask = ""
    note: Note = ""
    component: OnComponent = ""
    piece: OnPiece = ""
    other: OnOther = ""


HOURS = (HoursWorked, GuestHours)
"""Both kinds of hours."""


def worked_on(act: HoursWorked | GuestHours) -> WorkedOn:
    """What the hours are on."""
    return WorkedOn(act.task, act.component, act.piece, act.other)
