"""What the logbook says beside the pieces: patterns, departures, temporary things, earlier repairs,
sizes decided on."""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import EntryField, Note, Pictures
from crewboard.logbook.kinds import ByCommand, entry
from crewboard.logbook.record.done import REVERSIBLE
from crewboard.logbook.record.seen import Cited, OnComponent, OnPiece


@entry(
    "pattern",
    "pattern[, {piece}]: {what}[, traced from {traced_from}][, kept {kept}]",
    title="A pattern or form",
    heads="Patterns and forms",
    of_record=True,
    command=ByCommand(
        "pattern",
        "a pattern or form: traced from what, kept where",
        "Keeps a pattern, template or form: what it is for, which old part it was traced from, "
        "where it is kept.",
        ("what",),
        "",
        (
            'crewboard pattern . "curve of the roof arches" --piece arches/3 '
            '--traced-from "the second arch, left half" --kept "the loft, on the wall"',
        ),
    ),
)
class Pattern(NamedTuple):
    """A pattern or form, what it was traced from and where it is kept."""

    what: Annotated[str, EntryField("text", "what", "what it is of")]
    traced_from: Annotated[
        str, EntryField("text", "traced from", "from which old part", option="traced-from")
    ] = ""
    kept: Annotated[str, EntryField("text", "kept", "where it is kept")] = ""
    piece: OnPiece = ""
    component: OnComponent = ""
    pictures: Pictures = ()
    note: Note = ""


@entry(
    "departure",
    "departs from how it was built[, {piece|component}]: {what}[ ({why})]"
    "[, can be undone: {reversible}]",
    title="A departure",
    heads="Departures from how it was built",
    of_record=True,
    command=ByCommand(
        "departure",
        "something is not as it was built: what, why, can it be undone",
        "Keeps a departure from how the vehicle was built: a bolt where a rivet was, glue where "
        "there was none.",
        ("what",),
        "",
        (
            'crewboard departure . "bolts in place of rivets" --component running-gear '
            '--why "the rivets cannot be reached any more" --reversible yes',
        ),
    ),
)
class Departure(NamedTuple):
    """Something that is not as it was built: what, why, whether it can be undone."""

    what: Annotated[str, EntryField("text", "what", "what is not as it was")]
    why: Annotated[str, EntryField("text", "why", "the reason")] = ""
    reversible: Annotated[
        str, EntryField("one of", "can be undone", "yes, partly or no", words=REVERSIBLE)
    ] = ""
    piece: OnPiece = ""
    component: OnComponent = ""
    sources: Cited = ()
    pictures: Pictures = ()


@entry(
    "temporary",
    "temporary[, {piece}]: {what}[, to be undone before {before}]",
    title="Something temporary",
    heads="Temporary, to be undone",
    command=ByCommand(
        "temporary",
        "something temporary, and the task before which it must be undone",
        "Keeps what must not stay: over-long ends, props, straps, cuts made for transport. It "
        "stands in the way of the tasks that are named until it is undone.",
        ("what",),
        "",
        (
            'crewboard temporary . "props under the cantrail" --component body-frame '
            "--before bell-cord",
        ),
    ),
)
class Temporary(NamedTuple):
    """Something that must not stay, and the tasks before which it must be undone."""

    what: Annotated[str, EntryField("text", "what", "what must not stay")]
    before: Annotated[
        tuple[str, ...], EntryField("tasks", "before", "the tasks before which it is undone")
    ] = ()
    piece: OnPiece = ""
    component: OnComponent = ""
    pictures: Pictures = ()
    note: Note = ""


@entry(
    "undone",
    "undone: {entry}",
    title="Something temporary was undone",
    command=ByCommand(
        "undone",
        "something temporary was undone",
        "Says that something temporary is gone: the props are out, the ends cut to length.",
        ("entry",),
        "",
        ('crewboard undone . "props under the ridge"',),
    ),
)
class Undone(NamedTuple):
    """Something temporary is gone; `entry` is the entry that named it, of whatever day."""

    entry: Annotated[str, EntryField("temporary", "what", "the entry that named it")]
    how: Annotated[str, EntryField("text", "how", "how it was undone", tail=" ({})")] = ""


HOW_SURE = ("sure", "likely", "a guess")


@entry(
    "earlier repair",
    "earlier repair[ on {piece|component}]: {what}[, by {whom}][, {sure}]",
    title="An earlier repair",
    heads="Earlier repairs",
    of_record=True,
    command=ByCommand(
        "earlier-repair",
        "an earlier repair: by whom, how sure that is",
        "Keeps a repair that was there before this crew began: what, by whom, how sure that is.",
        ("what",),
        "",
        (
            'crewboard earlier-repair . "iron strap over the split" --piece arches/3 '
            '--whom "the depot, before 1950" --sure likely',
        ),
    ),
)
class EarlierRepair(NamedTuple):
    """A repair from before this crew began."""

    what: Annotated[str, EntryField("text", "what", "what was done")]
    whom: Annotated[str, EntryField("text", "by whom", "by whom, when")] = ""
    sure: Annotated[str, EntryField("one of", "how sure", "how sure that is", words=HOW_SURE)] = ""
    piece: OnPiece = ""
    component: OnComponent = ""
    sources: Cited = ()
    pictures: Pictures = ()


@entry(
    "size decided",
    "{what}[, {piece|component},] is to be {value}[ ({why})][, for {tasks}]",
    title="A size decided on",
    heads="Sizes decided on",
    of_record=True,
    command=ByCommand(
        "decide-size",
        "a size that was decided on, why, and for which tasks",
        "Keeps a size that was decided on, with the reason. It is shown on the sheets of the "
        "tasks that use it.",
        ("what", "value"),
        "",
        (
            'crewboard decide-size . "gap between deck boards" "3 mm" --task bell-cord '
            '--why "two in three of the old gaps measured 3 mm"',
        ),
    ),
)
class SizeDecided(NamedTuple):
    """A size that was decided on: what, how much, why, and the tasks that use it."""

    what: Annotated[str, EntryField("text", "what", "the size of what")]
    value: Annotated[str, EntryField("length", "how much", '"3 mm", "1 1/8 in"')]
    why: Annotated[str, EntryField("text", "why", "the reason")] = ""
    tasks: Annotated[
        tuple[str, ...], EntryField("tasks", "for", "the tasks that use it", option="task")
    ] = ()
    piece: OnPiece = ""
    component: OnComponent = ""
    sources: Cited = ()
