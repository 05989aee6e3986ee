"""All commands: in which module each stands, and what it does in a line.

The module holds the command under its name with "_" for "-".
"""

from typing import NamedTuple


class Listed(NamedTuple):
    """A command as the overview lists it."""

    module: str
    says: str


CHAPTERS: dict[str, dict[str, Listed]] = {
    "Look": {
        "day": Listed("looking", "the work day: who is here, what goes first, what is ready"),
        "task": Listed("looking", "a task's sheet, with its safety checks"),
        "why": Listed("looking", "why a task stands where it stands, down to the root"),
        "then": Listed("looking", "what finishing a task lets go"),
        "holds": Listed("looking", "what sets, cures or is awaited, and until when"),
        "vehicle": Listed("looking", "the components and how far each is"),
        "crew": Listed("crew", "the people, their hours, skills and certificates"),
        "log": Listed("looking_over", "the logbook, by day, person or task"),
        "forecast": Listed("forecast", "when it will be finished, and what would bring it forward"),
        "plan-day": Listed("plan_day", "who does what and when, for the people who are here"),
        "hazards": Listed("looking_over", "the hazard sheets, and their numbers with sources"),
        "check": Listed("looking_over", "every mistake in the folder, with file and line"),
        "review": Listed("looking_over", "what a reviewer of the order of work would ask"),
    },
    "Write in the logbook": {
        "sign-in": Listed("people", "somebody came"),
        "sign-out": Listed("people", "somebody left"),
        "expect": Listed("people", "somebody will come on a day, or will not"),
        "hours": Listed("people", "hours that somebody worked"),
        "begin": Listed("work", "work on a task begins"),
        "finish": Listed("work", "the work of a task is done; its hold starts"),
        "reopen": Listed("work", "a finished task has to be worked on again"),
        "hours-left": Listed("work", "a new estimate of what is still to do"),
        "set-aside": Listed("work", "a task is put off, or taken up again"),
        "hold": Listed("holding", "start a hold by hand"),
        "extend": Listed("holding", "make a running hold longer"),
        "release": Listed("holding", "let a hold go"),
        "sign": Listed("safety", "sign safety checks"),
        "incident": Listed("safety", "a near miss or an injury"),
        "reading": Listed("shop", "what thermometer and hygrometer say"),
        "ordered": Listed("shop", "a supply was ordered"),
        "arrived": Listed("shop", "a supply came"),
        "note": Listed("shop", "anything worth keeping"),
        "close-day": Listed("shop", "close the work day"),
        "take-back": Listed("mending", "an entry does not count any more"),
        "correct": Listed("mending", "an entry should have said something else"),
    },
    "Print and hand on": {
        "report": Listed("report", "day sheet, hours statement, calendar: text, HTML, CSV, ICS"),
        "briefing": Listed("briefing", "the day's safety talk"),
        "picture": Listed("picture", "a screen as an SVG file"),
    },
    "Look after the folder": {
        "new": Listed("keeping", "make a folder for a vehicle"),
        "plan-keys": Listed("keeping", "what can be said in the plan's files, key by key"),
        "fold": Listed("keeping", "fold in copies of day files that a sync left"),
        "copies": Listed("keeping", "the daily copies of the folder"),
        "restore": Listed("keeping", "bring a daily copy back, after showing what would change"),
    },
}
COMMANDS: dict[str, Listed] = {
    name: listed for chapter in CHAPTERS.values() for name, listed in chapter.items()
}
