"""What the logbook says of the shop's reckoning: answers that were kept, bends and their result."""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import EntryField, Note, Pictures
from crewboard.logbook.kinds import ByCommand, entry
from crewboard.logbook.record.seen import OnComponent, OnPiece

Kept = Annotated[str, EntryField("kept")]
KeptLines = Annotated[tuple[str, ...], EntryField("kept several")]


@entry(
    "reckoned",
    "reckoned ({about})[ for {task|piece|component}]: {answer}[, {way}]",
    title="Reckoned",
    of_record=True,
)
class Reckoned(NamedTuple):
    """An answer that was kept: what was typed and what the folder knew, by which it can be worked
    out again, and its first line as it was then. `before` is the entry that it stands anew for,
    `way` which of several ways was chosen, and which were looked at."""

    about: Kept
    answer: Kept
    given: KeptLines = ()
    known: KeptLines = ()
    before: Annotated[str, EntryField("entry", "before", "the answer that it stands anew for")] = ""
    task: Annotated[str, EntryField("task", help="the task it is for")] = ""
    piece: OnPiece = ""
    component: OnComponent = ""
    note: Note = ""
    way: Kept = ""


@entry(
    "bent",
    "bent {species}, {thickness} thick[, {plies} plies][, over a chord of {chord}], form {form}, "
    "came to {came_to}[, {days} after its release][, stored {stored}]",
    title="A bend and what it came to",
    heads="Bends and what they came to",
    of_record=True,
    command=ByCommand(
        "bent",
        "a bend: its form, and what it came to",
        "Keeps a bend: which wood, how thick, the radius of its form and the radius that it came "
        "to; with --chord both are rises over that chord. The form of the next bend of the same "
        "wood is reckoned from these.",
        ("species",),
        "",
        (
            "crewboard bent . ash --thickness 26mm --chord 2060mm --form 355mm --came-to 322mm "
            '--days 21 --stored "loft, dry"',
        ),
    ),
)
class Bent(NamedTuple):
    """A bend of the shop's own. Form and result are radii, or rises over the chord."""

    species: Annotated[str, EntryField("text", "which wood", "which wood, such as white ash")]
    thickness: Annotated[str, EntryField("length", "thickness", "thickness across the bend")]
    form: Annotated[str, EntryField("length", "form", "radius of the form, or its rise")]
    came_to: Annotated[
        str,
        EntryField(
            "length", "came to", "the radius that the bend came to, or its rise", option="came-to"
        ),
    ]
    chord: Annotated[
        str, EntryField("length", "over a chord of", "the chord, where those are rises")
    ] = ""
    plies: Annotated[
        float | None, EntryField("number", "plies", "how many, if glued up", 2, 200)
    ] = None
    days: Annotated[
        float | None,
        EntryField("number", "measured after", "how many days after its release", 0, 36500, "days"),
    ] = None
    stored: Annotated[str, EntryField("text", "stored", "how it was stored until then")] = ""
    task: Annotated[str, EntryField("task", help="the task it is of")] = ""
    piece: OnPiece = ""
    pictures: Pictures = ()
    note: Note = ""
