"""What the logbook says of pieces: one failed, a spare took its place."""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import EntryField, PieceId, Why
from crewboard.logbook.kinds import ByCommand, entry


@entry(
    "failed",
    "{piece} failed{again:, and is made anew|}",
    title="A piece failed",
    menu="a piece split, broke or came out wrong",
    command=ByCommand(
        "fail",
        "a piece failed: it split, broke, came out wrong",
        "Says that a piece failed, with the reason. What was done to it counts for nothing any "
        "more, and its holds are over. With --again it is made anew: all its tasks are to be done "
        "once more. Otherwise a spare may take its place.",
        ("piece",),
        "",
        (
            'crewboard fail . arches/3 --why "a knot let go at the crown" --by mirela',
            'crewboard fail . panes/5 --why "cracked in its rebate" --again',
        ),
    ),
)
class PieceFailed(NamedTuple):
    """A piece failed. Its work counts no more; with `again` all of its tasks begin anew."""

    piece: PieceId
    why: Why = ""
    again: Annotated[
        bool, EntryField("flag", "made anew", "it is made anew, from the first task")
    ] = False


@entry(
    "took its place",
    "{piece} takes the place of {instead}",
    title="A spare takes a place",
    menu="of a piece that failed or is not used",
    command=ByCommand(
        "use-spare",
        "a spare takes the place of a piece",
        "Says that a spare takes the place of a piece: what is still to be done to that piece is "
        "done to the spare.",
        ("piece",),
        "",
        ('crewboard use-spare . panes/12 --for panes/5 --why "cracked"',),
    ),
)
class TookPlace(NamedTuple):
    """A spare piece took the place of another, for which nothing more is done."""

    piece: Annotated[str, EntryField("piece", "the spare", "the spare")]
    instead: Annotated[
        str, EntryField("piece", "takes the place of", "the piece it stands for", option="for")
    ]
    why: Why = ""
