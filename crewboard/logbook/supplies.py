"""What the logbook says of supplies: ordered, arrived, sent back, used.

An amount that is left out means all that is needed, or all that is meant: so a folder without
amounts says what it always said.
"""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import Day, EntryField, FindingId, Note, SupplyId, Why
from crewboard.logbook.kinds import ByCommand, entry

MOST = 1_000_000
Amount = Annotated[
    float | None,
    EntryField("number", "how much", "left out: all that is needed", 0, MOST),
]
AllOfIt = Annotated[
    float | None, EntryField("number", "how much", "how much; left out: all of it", 0, MOST)
]


@entry(
    "ordered",
    "{supply} ordered[: {amount}][, promised for {due}]",
    title="Ordered",
    command=ByCommand(
        "ordered",
        "a supply was ordered",
        "Says that a supply was ordered, how much of it, and for when it is promised.",
        ("supply",),
        "",
        (
            "crewboard ordered . roof-canvas --due 2026-06-20",
            "crewboard ordered . canvas-tacks --amount 500",
        ),
    ),
)
class Ordered(NamedTuple):
    """A supply was ordered, and when it is promised for."""

    supply: SupplyId
    due: Annotated[Day, EntryField("day", "promised for", "the day it is promised for")] = None
    amount: Amount = None
    note: Note = ""
    finding: FindingId = ""


@entry(
    "arrived",
    "{supply} arrived[: {amount}]",
    title="Arrived",
    command=ByCommand(
        "arrived",
        "a supply came",
        "Says that a supply came, how much of it, and what was not as ordered.",
        ("supply",),
        "",
        (
            "crewboard arrived . roof-canvas",
            'crewboard arrived . half-round --amount 12 --defects "two lengths are bowed"',
        ),
    ),
)
class Arrived(NamedTuple):
    """A supply came. `unlike` and `defects` say what was not as ordered, and kept all the same."""

    supply: SupplyId
    amount: Amount = None
    unlike: Annotated[
        str,
        EntryField(
            "text",
            "unlike the order",
            "how it is unlike what was ordered",
            tail=", unlike the order: {}",
        ),
    ] = ""
    defects: Annotated[
        str,
        EntryField(
            "text",
            "defects accepted",
            "the defects it was accepted with",
            tail=", accepted with defects: {}",
        ),
    ] = ""
    note: Note = ""


@entry(
    "sent back",
    "{supply} sent back[: {amount}]",
    title="Sent back",
    menu="a supply that goes back",
    command=ByCommand(
        "sent-back",
        "a supply went back",
        "Says that a supply went back to where it came from: it is short again until more comes.",
        ("supply",),
        "",
        ('crewboard sent-back . canvas-tacks --amount 100 --why "rusty"',),
    ),
)
class SentBack(NamedTuple):
    """A supply went back; without an amount, all that was here."""

    supply: SupplyId
    amount: AllOfIt = None
    why: Why = ""


@entry(
    "used",
    "{supply} used[: {amount}][ on {task}]",
    title="Used",
    menu="a supply that was used up",
    command=ByCommand(
        "used",
        "a supply was used",
        "Says how much of a supply was used, and on which task.",
        ("supply",),
        "",
        ("crewboard used . canvas-tacks --amount 300 --task stretch-canvas",),
    ),
)
class Used(NamedTuple):
    """A supply was used, on a task or not; without an amount, all that was here."""

    supply: SupplyId
    task: Annotated[str, EntryField("task", help="the task it was used on")] = ""
    amount: AllOfIt = None
    note: Note = ""
