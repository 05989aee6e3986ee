"""Entries of the record that cannot be, or hardly can, as the others stand, each in a sentence."""

from collections.abc import Iterable
from datetime import datetime

from crewboard.fabric.place import Contradiction
from crewboard.fabric.trace import (
    contradictions,
    in_order,
    of_pieces,
    of_the_vehicle,
    traced,
)
from crewboard.logbook.acts import (
    DoneTo,
    Gone,
    PieceFailed,
    PieceMade,
    Reused,
    Stored,
    TakenOff,
    TookPlace,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.done import DONE
from crewboard.order.said import day_in_words, piece_name
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan

_NOT_SO = "take that entry back or correct it, if it was not so"


def all_contradictions(plan: Plan, logbook: Logbook) -> list[Contradiction]:
    """All that cannot be, or hardly can, in order of time."""
    return contradictions(traced(plan.pieces.values(), _of_pieces(logbook)).values())


def contradicted_by(plan: Plan, logbook: Logbook, entry: Entry) -> list[Contradiction]:
    """Those that come with one more entry: its own, and of entries that stand already."""
    own = (getattr(entry.act, "piece", ""), getattr(entry.act, "into", ""))
    known, standing = of_pieces(logbook, own)
    with_it = in_order((*standing, entry))
    pieces = [plan.pieces[piece] for piece in known if piece in plan.pieces]
    before = {(odd.code, odd.entry.id) for odd in _among(pieces, standing)}
    return [odd for odd in _among(pieces, with_it) if (odd.code, odd.entry.id) not in before]


def _among(pieces: Iterable[Piece], entries: Iterable[Entry]) -> list[Contradiction]:
    return contradictions(traced(pieces, entries).values())


def _of_pieces(logbook: Logbook) -> list[Entry]:
    """What was ever done to pieces, in order of time."""
    kinds = (*DONE, PieceFailed, TookPlace)
    return [e for e in of_the_vehicle(logbook, datetime.max) if isinstance(e.act, kinds)]


def contradiction_in_words(plan: Plan, odd: Contradiction) -> tuple[str, str]:
    """The sentence, and how it is mended."""
    name = ("the old " if odd.old else "") + piece_name(plan, odd.piece)
    does = doing(odd.entry)
    before = odd.whereabouts.entry
    when = f" on {day_in_words(before.at)}" if before else ""
    match odd.code:
        case "gone" if odd.whereabouts.where == "in other pieces":
            return f"all of {name} went into other pieces{when}: it cannot be {does} now", _NOT_SO
        case "gone":
            return f"{name} was {odd.whereabouts}{when}: it cannot be {does} after that", _NOT_SO
        case "came back":
            return f"{name} was {odd.whereabouts}{when}, and is {does} now", "say how it came back"
        case "nothing there" if odd.yields:
            return f"{name} was missing when the crew began", "say where it was found"
        case "nothing there":
            sentence = f"{name} was missing when the crew began: it cannot be {does}"
            return sentence, "say first that a new one was made, or where the old one was found"
        case "off already":
            sentence = f"{name} is {odd.whereabouts} already{when}"
            return sentence, "say that it was fitted in between, or why it is so"
        case "kept and replaced":
            sentence = f"a part of {name} was kept: so it was spliced, not {does}"
            return sentence, "write that it was spliced, with how much of the old was kept"
        case "itself":
            sentence = f"no piece is made of itself: wood of {name} does not go into its own place"
            return sentence, "write that it was spliced, with how much of the old was kept"
        case "circle":
            into = odd.entry.act.into if isinstance(odd.entry.act, Reused) else ""
            sentence = f"the wood would go round: {name} has wood of {piece_name(plan, into)} in it"
            return sentence, "write from which piece to which it went"


def insisted_on(entry: Entry) -> bool:
    """Whether somebody gave the reason for writing it although something stood against it."""
    return bool(entry.despite or getattr(entry.act, "despite", ""))


def doing(entry: Entry) -> str:
    """What an entry says was done to the piece: "put away", "replaced in kind", "reused"."""
    match entry.act:
        case DoneTo(action="copied on evidence", grade="E"):
            return "copied by conjecture"
        case DoneTo() as done:
            return done.action
        case Gone() as gone:
            return gone.how
        case Stored():
            return "put away"
        case TakenOff():
            return "taken off"
        case Reused():
            return "reused"
        case PieceMade():
            return "made"
        case _:
            return "changed"
