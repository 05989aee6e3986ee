"""What the logbook says was done to a piece, and where the old one is now."""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import Despite, EntryField, Note, Only, Pictures
from crewboard.logbook.kinds import ByCommand, entry

Piece = Annotated[str, EntryField("piece", help="the piece")]
OnTask = Annotated[str, EntryField("task", help="the task by which it was done")]
Old = Annotated[
    bool, EntryField("flag", "the old one", "the old piece is meant, not the one in its place")
]

# What can be done to a piece in its place. The replaced ones put a new thing where the old was.
REPLACED = ("replaced in kind", "replaced in other material", "copied on evidence")
ACTIONS = (
    "cleaned",
    "repaired in place",
    "spliced",
    *REPLACED,
    "fitted",
    "moved",
    "marked",
    "left as found",
    "varied from the plan",
)
# What puts something in or may; what puts in a new part, which must be told from the old; what
# needs its reason on record.
CHANGES = ("cleaned", "repaired in place", "spliced", *REPLACED)
NEW_PART = ("spliced", *REPLACED)
NEEDS_REASON = (*CHANGES[1:], "left as found", "varied from the plan")
# How well a copy is borne out: A by the old piece itself, B by its like on this vehicle, C by
# marks, pictures or papers, D by another vehicle of the kind, E by conjecture.
GRADES = ("A", "B", "C", "D", "E")
REVERSIBLE = ("yes", "partly", "no")
_OF_A_COPY = Only("action", ("copied on evidence",))


@entry(
    "done",
    "{piece} {action}[: {how}][, materials: {materials}][, evidence {grade}]"
    "[, {share} of the old kept][, mark: {mark}][, can be undone: {reversible}]",
    title="Done to a piece",
    heads="Done to pieces",
    of_record=True,
    jotted=2,
    command=ByCommand(
        "done",
        "what was done to a piece",
        f"Keeps what was done to a piece, one entry for each action: {', '.join(ACTIONS)}. A copy "
        "says how well it is borne out: A by the old piece itself, B by its like on this vehicle, "
        "C by marks, pictures or papers, D by another vehicle of the kind, E by conjecture.",
        ("piece", "action"),
        "",
        (
            'crewboard done . sashes/3 spliced --how "long scarf at the foot" --share 80 '
            '--materials "ash, the sawmill, lot 7; resin glue, its maker, batch 2231"',
            'crewboard done . sashes/4 "replaced in kind" --why "rotten through"',
        ),
    ),
)
class DoneTo(NamedTuple):
    """One action done to a piece in its place.

    `materials` are added ones, each "what, from whom, batch", or "none". `share` is how much of the
    old piece was kept, in percent of it. `grade` says how well a copy is borne out.
    """

    piece: Piece
    action: Annotated[str, EntryField("one of", "what was done", "what was done", words=ACTIONS)]
    how: Annotated[
        str, EntryField("text", "how", "how it was done; moved: from where to where")
    ] = ""
    why: Annotated[str, EntryField("why", "why", "the reason", tail=" ({})")] = ""
    materials: Annotated[
        tuple[str, ...],
        EntryField(
            *("texts", "materials", '"what, from whom, batch"; the next one; or "none"'),
            only=Only("action", (*CHANGES, "fitted", "varied from the plan")),
        ),
    ] = ()
    share: Annotated[
        float | None,
        EntryField(
            *("number", "of the old kept", "how much of the old piece was kept", 0, 100, "%"),
            only=Only("action", ("repaired in place", "spliced")),
        ),
    ] = None
    grade: Annotated[
        str, EntryField("one of", "evidence", "of a copy: A to E", words=GRADES, only=_OF_A_COPY)
    ] = ""
    sources: Annotated[
        tuple[str, ...],
        EntryField(
            *("entries", "borne out by", "entries of findings, photographs or papers"),
            tail="; borne out by: {}",
            only=_OF_A_COPY,
        ),
    ] = ()
    mark: Annotated[
        str,
        EntryField(
            *("text", "mark", "where and how the new part is marked"),
            only=Only("action", (*NEW_PART, "marked")),
        ),
    ] = ""
    reversible: Annotated[
        str,
        EntryField(
            *("one of", "can be undone", "yes, partly or no"),
            words=REVERSIBLE,
            only=Only("action", (*CHANGES[1:], "fitted", "varied from the plan")),
        ),
    ] = ""
    task: OnTask = ""
    pictures: Pictures = ()
    despite: Despite = ""


@entry(
    "made",
    "{piece} made[ of {material}][, from {source}][, batch {batch}][: {how}]",
    title="A new piece was made",
    heads="Done to pieces",
    of_record=True,
    jotted=7,
    command=ByCommand(
        "made",
        "a new piece was made: of what, from whom",
        "Says that a new piece was made to go in the place of the old one: of what, from whom, of "
        "which batch.",
        ("piece",),
        "",
        ('crewboard made . arches/4 --of ash --source "the sawmill" --batch 7',),
    ),
)
class PieceMade(NamedTuple):
    """A new thing was made for the place of a piece."""

    piece: Piece
    material: Annotated[str, EntryField("text", "of", "of what material", option="of")] = ""
    source: Annotated[str, EntryField("text", "from", "from whom the material came")] = ""
    batch: Annotated[str, EntryField("text", "batch", "its batch")] = ""
    how: Annotated[str, EntryField("text", "how", "how it was made")] = ""
    task: OnTask = ""
    pictures: Pictures = ()


@entry(
    "taken off",
    "{piece} taken off[: {how}]",
    title="Taken off",
    heads="Done to pieces",
    of_record=True,
    jotted=6,
    command=ByCommand(
        "take-off",
        "a piece was taken off the vehicle",
        "Says that a piece was taken off the vehicle, and how it came off.",
        ("piece",),
        "piece",
        ('crewboard take-off . sashes/3 --how "all four screws sheared"',),
    ),
)
class TakenOff(NamedTuple):
    """A piece was taken off the vehicle."""

    piece: Piece
    how: Annotated[str, EntryField("text", "how", "how it came off")] = ""
    task: OnTask = ""
    pictures: Pictures = ()


@entry(
    "stored",
    "{old:the old |}{piece} put away: {where}",
    title="Put away",
    heads="Done to pieces",
    of_record=True,
    jotted=5,
    command=ByCommand(
        "store",
        "where a piece lies now",
        "Says where a piece lies now. With --old the old one is meant, in whose place another is.",
        ("piece", "where"),
        "",
        ('crewboard store . sashes/4 "shelf 3" --old',),
    ),
)
class Stored(NamedTuple):
    """Where a piece, or the old one, lies now."""

    piece: Piece
    where: Annotated[str, EntryField("text", "where", "where it lies")]
    old: Old = False
    task: OnTask = ""
    note: Note = ""


HOW_GONE = ("given away", "discarded", "lost")
PEOPLE_WHO_AGREE = 2  # before a piece is discarded


@entry(
    "gone",
    "{old:the old |}{piece} {how}[ to {to}][, agreed by {agreed}]",
    title="A piece is gone",
    heads="Done to pieces",
    of_record=True,
    jotted=8,
    command=ByCommand(
        "gone",
        "a piece was given away, discarded or lost",
        "Says that a piece is not here any more: given away, discarded or lost. To discard one, "
        "two people agree.",
        ("piece", "how"),
        "",
        (
            "crewboard gone . sashes/4 discarded --old --agreed mirela --agreed kwame "
            '--why "rotten through, nothing to learn from it"',
        ),
    ),
)
class Gone(NamedTuple):
    """A piece, or the old one, is not here any more."""

    piece: Piece
    how: Annotated[str, EntryField("one of", "how", "what became of it", words=HOW_GONE)]
    to: Annotated[
        str,
        EntryField("text", "to whom", "to whom it was given", only=Only("how", ("given away",))),
    ] = ""
    agreed: Annotated[
        tuple[str, ...],
        EntryField(
            *("people", "who agreed", "who agreed to it; two to discard"),
            only=Only("how", ("given away", "discarded")),
        ),
    ] = ()
    why: Annotated[str, EntryField("why", "why", "the reason", tail=" ({})")] = ""
    old: Old = False
    task: OnTask = ""
    despite: Despite = ""


@entry(
    "reused",
    "wood of {old:the old |}{piece} reused in {into}[: {how}]",
    title="Its wood was reused",
    heads="Done to pieces",
    of_record=True,
    jotted=9,
    command=ByCommand(
        "reuse",
        "wood of a piece was reused in another",
        "Says that wood (or metal) of a piece was reused in another one: the way from old to new "
        "can then be followed both ways.",
        ("piece",),
        "",
        ('crewboard reuse . sashes/4 --into sashes/3 --old --how "the sound upper half"',),
    ),
)
class Reused(NamedTuple):
    """Wood of a piece, or of the old one, went into another."""

    piece: Piece
    into: Annotated[str, EntryField("piece", "into", "the piece it went into")]
    how: Annotated[str, EntryField("text", "how", "which part of it, and how")] = ""
    old: Old = False
    all_of_it: Annotated[bool, EntryField("flag", "all of it", "nothing of it is left over")] = (
        False
    )
    task: OnTask = ""
    pictures: Pictures = ()


# Every kind that says what was done to a piece or where it is.
DONE = (DoneTo, PieceMade, TakenOff, Stored, Gone, Reused)
