"""All commands: in which module each stands, and what it does in a line.

The module holds the command under its name with "_" for "-"; those that write one entry are made
from the descriptions of its kind.
"""

from typing import NamedTuple

import crewboard.logbook.acts  # noqa: F401  (where the kinds of entries are described)
from crewboard.logbook.kinds import BY_COMMAND

WRITING = "Write in the logbook"
ENTRIES = "entries"


class Listed(NamedTuple):
    """A command as the overview lists it."""

    module: str
    says: str


CHAPTERS: dict[str, dict[str, Listed]] = {
    "Look": {
        "day": Listed("looking", "the work day: who is here, what goes first, what is ready"),
        "day-end": Listed("day_end", "what the day brought, and what comes first next time"),
        "task": Listed("looking", "a task's sheet, with its safety checks"),
        "why": Listed("looking", "why a task stands where it stands, down to the root"),
        "then": Listed("looking", "what finishing a task frees"),
        "holds": Listed("looking", "what sets, cures or is awaited, and until when"),
        "vehicle": Listed("looking", "the components and how far each is"),
        "pieces": Listed("pieces", "what the vehicle is made of, piece by piece"),
        "fabric": Listed("fabric", "what each piece is now, where it is, how much is original"),
        "gaps": Listed("fabric", "what the record lacks, piece by piece, and what would close it"),
        "crew": Listed("looking", "the people, their hours, skills and certificates"),
        "supplies": Listed("looking", "what is here, short, on its way, and to be ordered"),
        "waiting": Listed("take_in", "pictures and recordings that nobody has sorted yet"),
        "log": Listed("looking_over", "the logbook, by day, person or task"),
        "forecast": Listed("forecast", "when it will be finished, and what would bring it forward"),
        "plan-day": Listed("plan_day", "who does what and when, for the people who are here"),
        "programme": Listed("programme", "the next work days: what is done on each, and by whom"),
        "hazards": Listed("hazards", "the hazard sheets with sources, and their bench cards"),
        "unverified": Listed("hazards", "what the sheets quote that nobody has looked up"),
        "reckon": Listed("reckon", "bends, boards, coats, air, fastenings: reckoned with sources"),
        "check": Listed("looking_over", "every mistake in the folder, with file and line"),
        "review": Listed("looking_over", "what a reviewer of the order of work would ask"),
    },
    WRITING: {
        "release": Listed("release", "release a hold, and what a bend came to"),
        "sign": Listed("safety", "sign safety checks"),
        "take-back": Listed("mending", "an entry does not count any more"),
        "correct": Listed("mending", "an entry should have said something else"),
        "findings": Listed("dictated", "a text dictated elsewhere becomes findings, line by line"),
        "take-in": Listed("take_in", "pictures and recordings of a phone or camera"),
        "from-finding": Listed("from_finding", "what comes of a finding: a task, a hold, an order"),
        "take-readings": Listed("take_readings", "what a data logger says of the shop's air"),
        "undo": Listed("mending", "take back what you wrote last"),
    },
    "Change the plan": {
        "call-off": Listed("planning", "a work day is called off, and why"),
        "adult": Listed("planning", "somebody is 18 or older, or is not"),
        "add-pieces": Listed("pieces", "pieces of a component, many on one line"),
        "describe": Listed("pieces", "what is known of a piece, or of all of a kind"),
        "remove-pieces": Listed("pieces", "pieces are removed from the plan"),
        "seen": Listed("planning", "a certificate was looked at"),
    },
    "Print and hand on": {
        "report": Listed("printing", "day sheet, hours statement, calendar: text, HTML, CSV, ICS"),
        "book": Listed("book", "the record: found, done, where it is, how much is original"),
        "briefing": Listed("printing", "the day's safety talk"),
        "wall": Listed("wall", "a page for a tablet or television on the wall"),
        "screenshot": Listed("printing", "a screen as an SVG file"),
    },
    "Look after the folder": {
        "new": Listed("keeping", "make a folder for a vehicle"),
        "plan-keys": Listed("keeping", "what can be said in the plan's files, key by key"),
        "came": Listed("came", "when each task came into the plan, and how that is known"),
        "fold": Listed("folding", "bring copies and misplaced files to their place"),
        "meant": Listed("meant", "what is gone from the folder was meant to go, and why"),
        "copies": Listed("copies", "the daily copies of the folder"),
        "restore": Listed("copies", "bring a daily copy back, after showing what would change"),
    },
}


def chapters() -> dict[str, dict[str, Listed]]:
    """The commands by chapter, with those that the kinds of entries offer."""
    offered = {
        name: Listed(ENTRIES, kind.command.overview)
        for name, kind in BY_COMMAND.items()
        if kind.command is not None
    }
    return {
        chapter: {**(offered if chapter == WRITING else {}), **commands}
        for chapter, commands in CHAPTERS.items()
    }


def all_commands() -> dict[str, Listed]:
    """Every command by its name."""
    return {name: listed for commands in chapters().values() for name, listed in commands.items()}
