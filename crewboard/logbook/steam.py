"""What the logbook says of the steam box and the boiling trough: what went in, and came out."""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import EntryField, Note, TaskId
from crewboard.logbook.kinds import ByCommand, entry
from crewboard.plan.duration import Duration


@entry(
    "steam",
    "{task} {out:out of|into} the {boiling:boiling trough|steam box}[ for {lasts}]",
    title="Into the steam box, or out of it",
    menu="a clock of the day: when it has to come out",
    command=ByCommand(
        "steam",
        "into the steam box or the boiling trough, or out of it",
        "Starts the clock of a piece that went into the steam box, or with --boiling into the "
        "boiling trough: the day's rule shows when it has to come out. --out says that it came "
        "out; finishing or stopping the task says so too. Of two in the box of one task the one "
        "that went in first comes out first. How long: crewboard reckon . steaming",
        ("task",),
        "",
        (
            'crewboard steam . bend/arches/8 --lasts "65 minutes" --at 2026-04-18T11:10',
            "crewboard steam . bend/arches/8 --out --at 2026-04-18T12:20",
        ),
        of_series=(("under way",),),
    ),
)
class Steamed(NamedTuple):
    """What a task bends went into the steam or the boiling water for so long, or came out of it."""

    task: TaskId
    lasts: Annotated[
        Duration | None, EntryField("span", "stays in for", 'how long it stays in: "65 minutes"')
    ] = None
    out: Annotated[bool, EntryField("flag", "came out", "it came out")] = False
    boiling: Annotated[
        bool, EntryField("flag", "in boiling water", "in boiling water, not in steam")
    ] = False
    note: Note = ""
