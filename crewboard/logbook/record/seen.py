"""What the logbook says was seen: findings, measurements, layers of paint, papers and pictures."""

from typing import Annotated, Any, NamedTuple

from crewboard.logbook.fields import EntryField, Moment, Note, Only, Pictures, Text
from crewboard.logbook.kinds import ByCommand, Tell, entry

OnPiece = Annotated[str, EntryField("piece", help="the piece it is of")]
OnComponent = Annotated[str, EntryField("component", help="or the component it is of")]
Whereabouts = Annotated[str, EntryField("text", "where on it", "where on it")]
Cited = Annotated[
    tuple[str, ...],
    EntryField(
        *("entries", "borne out by", "old photographs and papers: the ids of their entries"),
        tail="; borne out by: {}",
    ),
]


@entry(
    "found",
    "found[ on {piece|component}][, {place}]: {seen}[, pictures: {pictures}][, sample {sample}]"
    "[ kept {kept_at}][, said in {recording}][ at {minute}][; thought: {thought}]",
    title="Found",
    heads="Findings",
    of_record=True,
    jotted=1,
    command=ByCommand(
        "found",
        "something was found: what was seen, and what is thought",
        "Keeps a finding: what was seen and, apart from it, what is thought of it; on a piece, a "
        "component, or the vehicle as a whole.",
        ("seen",),
        "",
        (
            'crewboard found . "old screw holes, puttied, 40 mm apart" --piece arches/3',
            'crewboard found . "green under the brown" --component body-frame '
            '--thought "the colour before the brown one"',
        ),
    ),
)
class Found(NamedTuple):
    """A finding. What was seen and what is thought of it never share a field.

    `recording` is a sound or a film of the folder in which it is said, `minute` where ("12:30").
    """

    seen: Annotated[str, EntryField("text", "seen", "what was seen, in quotes")]
    thought: Annotated[str, EntryField("text", "thought", "what it may mean")] = ""
    piece: OnPiece = ""
    component: OnComponent = ""
    place: Whereabouts = ""
    pictures: Pictures = ()
    sample: Annotated[str, EntryField("text", "sample", "what was taken as a sample")] = ""
    kept_at: Annotated[
        str, EntryField("text", "kept", "where the sample is kept", only=Only("sample"))
    ] = ""
    recording: Annotated[
        str, EntryField("picture", "recording", "a sound or film in which it is said")
    ] = ""
    minute: Annotated[
        str, EntryField("text", "minute", "where in it: 12:30", only=Only("recording"))
    ] = ""
    sources: Cited = ()


def _measured(act: Any, tell: Tell) -> str:
    """ "Rod 3, eye to eye: 2400 mm ± 2 mm, with tape"; what was left out is not told."""
    ends = " to ".join(filter(None, (tell("start"), tell("end"))))
    what = ", ".join(filter(None, (tell("piece") or tell("component"), ends)))
    give_or_take = f" ± {tell('tolerance')}" if act.tolerance else ""
    tool = f", with {tell('tool')}" if act.tool else ""
    return f"{what or 'measured'}: {tell('value')}{give_or_take}{tool}"


_LONG = EntryField("length", "how long", '"2400 mm", "812 mm ± 2"', beside="tolerance")
_EXACTLY = EntryField("length", "give or take", "how exactly: 2 mm", beside="value")


@entry(
    "measured",
    _measured,
    title="Measured",
    heads="Measured",
    of_record=True,
    jotted=3,
    command=ByCommand(
        "measured",
        "a length was measured",
        "Keeps a measurement: from where to where, how long, how exactly, with what.",
        ("value",),
        "",
        (
            'crewboard measured . "2400 mm" --piece arches/3 --from "sole of the foot" '
            '--to crown --tolerance "2 mm" --with tape',
        ),
    ),
)
class Measured(NamedTuple):
    """A length that was measured. `value` and `tolerance` stand as they were typed."""

    value: Annotated[str, _LONG]
    start: Annotated[str, EntryField("text", "from", "from where", option="from")] = ""
    end: Annotated[str, EntryField("text", "to", "to where", option="to")] = ""
    piece: OnPiece = ""
    component: OnComponent = ""
    tolerance: Annotated[str, _EXACTLY] = ""
    tool: Annotated[str, EntryField("text", "with", "with what", option="with")] = ""
    pictures: Pictures = ()
    note: Note = ""


@entry(
    "layers",
    "layers[ on {piece|component}][, {place}], from the wood outward: {layers}[, sample {sample}]"
    "[, kept {kept_at}]",
    title="Layers of paint",
    heads="Layers of paint",
    of_record=True,
    command=ByCommand(
        "layers",
        "the layers of paint at one place",
        "Keeps the layers of a paint sample, from the wood outward: each its kind, its colour in "
        "words or notation, and a note, with a comma between them; a semicolon between layers.",
        ("layers",),
        "",
        (
            'crewboard layers . "primer, pink-grey; undercoat, white; finish, dark green" '
            "--piece arches/3",
        ),
    ),
)
class Layers(NamedTuple):
    """The layers of paint at one place, from the wood outward."""

    layers: Annotated[
        tuple[str, ...],
        EntryField("texts", "layers", "from the wood outward, semicolons between them"),
    ]
    piece: OnPiece = ""
    component: OnComponent = ""
    place: Annotated[str, EntryField("text", "where on it", "where the sample was taken")] = ""
    sample: Annotated[str, EntryField("text", "sample", "what the sample is called")] = ""
    kept_at: Annotated[str, EntryField("text", "kept", "where the sample is kept")] = ""
    pictures: Pictures = ()
    note: Note = ""


@entry(
    "dated source",
    "source[, {piece}]: {what}[, of {dated}][, kept {kept}][, rights: {rights}]",
    title="An old photograph or paper",
    heads="Old photographs and papers",
    of_record=True,
    command=ByCommand(
        "source",
        "an old photograph, drawing or paper that findings cite",
        "Keeps a dated source: what it is, of when, where it is kept, who has the rights to it.",
        ("what",),
        "",
        (
            'crewboard source . "the yard, seen from the gate" --dated "about 1931" '
            '--kept "album of a former driver, page 4" --rights "may be shown, not sold"',
        ),
    ),
)
class Sourced(NamedTuple):
    """An old photograph, a drawing or a paper; `dated` is in words: "about 1931"."""

    what: Annotated[str, EntryField("text", "what it is", "what it is and shows")]
    dated: Annotated[str, EntryField("text", "of when", 'of when, in words: "about 1931"')] = ""
    kept: Annotated[str, EntryField("text", "kept", "where it is kept")] = ""
    rights: Annotated[str, EntryField("text", "rights", "who has the rights to it")] = ""
    pictures: Pictures = ()
    piece: OnPiece = ""
    component: OnComponent = ""
    note: Note = ""


PICTURES, RECORDINGS = "pictures/", "recordings/"
"""Where in the vehicle's folder pictures are kept, and where sound and films."""
# By what it is known when a picture was taken, where the picture itself does not say.
TAKEN_BY_FILE = "its file's time"
TAKEN_BY = ("its name", TAKEN_BY_FILE)


@entry(
    "taken in",
    "{file} taken in[, taken {taken}][ by {taken_by}]",
    title="Taken in",
    of_record=True,
)
class TookIn(NamedTuple):
    """A file was copied into the folder and is not sorted yet. `hash` is the SHA-256 of its bytes,
    `taken` when it was taken, as its own data say or, where they do not, `taken_by` something less
    sure; `called` its name before."""

    file: Annotated[str, EntryField("picture", "file", "its path from the folder")]
    hash: Annotated[str, EntryField("kept")] = ""
    taken: Annotated[Moment, EntryField("moment", "taken")] = None
    taken_by: Annotated[
        str, EntryField("one of", "known by", "by what that is known", words=TAKEN_BY)
    ] = ""
    called: Annotated[str, EntryField("text", "called", "its name before")] = ""


# What a picture is for (common practice of conservators: before, during, what will be hidden again,
# after). "not kept in the record": looked at, and of no use.
PICTURE_KINDS = (
    "before",
    "during",
    "hidden now",
    "after",
    "evidence",
    "measured",
    "recording",
    "of no use",
)


@entry(
    "picture",
    "{file}: {shows}[, {pieces|component}][, {words}]",
    title="A picture",
    heads="Pictures",
    of_record=True,
    jotted=4,
    command=ByCommand(
        "caption",
        "says what a picture shows",
        "Sorts a picture or recording: what it is for, of which pieces or component, in words. "
        f"For: {', '.join(PICTURE_KINDS)}.",
        ("file",),
        "file",
        (
            "crewboard caption . pictures/2025/left-sill-joint.svg --shows before "
            '--piece left-joint --words "the joint from outside"',
        ),
    ),
)
class Pictured(NamedTuple):
    """What a picture or recording of the folder shows: with this it is sorted."""

    file: Annotated[str, EntryField("picture", "file", "its path from the folder")]
    shows: Annotated[str, EntryField("one of", "for", "what it is for", words=PICTURE_KINDS)] = (
        "evidence"
    )
    pieces: Annotated[
        tuple[str, ...],
        EntryField("pieces", "pieces", "the pieces on it", option="piece"),
    ] = ()
    component: OnComponent = ""
    task: Annotated[str, EntryField("task", help="the task it belongs to")] = ""
    words: Text = ""
