"""Entries of the record that cannot be, or hardly can, as the others stand, each in a sentence."""

from collections.abc import Iterable
from datetime import datetime

from crewboard.fabric.place import Contradiction
from crewboard.fabric.trace import contradictions, in_order, of_the_work, record_until, traced
from crewboard.logbook.acts import DoneTo, Gone, PieceMade, Reused, Stored, TakenOff
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import day_in_words, piece_name
from crewboard.plan.plan import Plan

_NOT_SO = "take that entry back or correct it, if it was not so"


def all_contradictions(
    plan: Plan, logbook: Logbook, more: Iterable[Entry] = (), at: datetime = datetime.max
) -> list[Contradiction]:
    """All that cannot be, in order of time, with `more` entries in the logbook."""
    record = (*record_until(logbook, at), *of_the_work(logbook, at), *more)
    return contradictions(traced(plan, in_order(record)).values())


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
