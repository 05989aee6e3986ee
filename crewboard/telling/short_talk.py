"""The talk before work on one page: what hurts today, who watches, what ends when, whom to call.

It takes the whole talk's facts and leaves what hangs beside the work: each sheet's checks, law and
what to do when it goes wrong are on the whole talk and on the tasks' own sheets.
"""

from collections.abc import Iterable, Iterator

from crewboard.order.safety.briefing import Briefing, Danger
from crewboard.order.said import day_in_words, listed
from crewboard.telling.briefing import emergency
from crewboard.telling.line import Line
from crewboard.telling.report import Chapter, Sheet, points
from crewboard.telling.safety import AUTHORISES_NOTHING

MOST_WORDS = 550  # of a usual day, what must be left alone told whole: more is not heard
_TITLES = 2  # of the tasks of a hazard
_GEAR = 4  # pieces of gear that are named


def short_talk_sheet(talk: Briefing) -> Sheet:
    """One page to be read out; the whole talk has every check and what to do when it goes wrong."""
    chapters = (
        Chapter("In an emergency", points(_call(talk), "must"), "must"),
        Chapter("Who", points(_who(talk)), "strong"),
        Chapter("What can hurt today", points(_what_hurts(talk), "warning"), "warning"),
        Chapter("Who watches", points(talk.watching, "must"), "must"),
        Chapter("What ends when", points((*talk.running, *talk.must_end), "warning"), "warning"),
        Chapter("Leave alone", points(talk.leave_alone, "danger"), "danger"),
        Chapter("Before the work", (Line(_BEFORE, "must"),), "must"),
    )
    name = f"Safety talk, {day_in_words(talk.day)}: {talk.vehicle}"
    return Sheet(name, AUTHORISES_NOTHING, tuple(c for c in chapters if c.points))


_BEFORE = (
    "Read the sheet of your task, sign its checks one by one, and stop when something is not as it "
    "says. Nobody is pushed, and everybody may say stop."
)


def _call(talk: Briefing) -> Iterator[str]:
    for word, fact in emergency(talk):
        if word != "first-aiders":
            yield f"{word}: {fact}"


def _who(talk: Briefing) -> Iterator[str]:
    yield f"here: {len(talk.people)}; leads: {listed(talk.leads) or 'nobody'}"
    if talk.under_18:
        yield f"under 18, each with an adult beside: {listed(talk.under_18)}"


def _what_hurts(talk: Briefing) -> Iterator[str]:
    yield from map(_hazard, talk.dangers)
    if talk.reckoned:
        yield f"Reckoned for {' '.join(f'{said}.' for said in talk.reckoned)}"


def _hazard(danger: Danger) -> str:
    """ "Hot work ("Weld the brackets"): it sets fire to ... Wear: ... Keep away from: ..." """
    sheet = danger.hazard
    parts = [danger.harm[0]] if danger.harm else []
    if danger.gear:
        parts.append(f"Wear: {_first(danger.gear, _GEAR)}.")
    if danger.keep_away:
        parts.append(f"Keep away from {listed(danger.keep_away)}.")
    if sheet.people > 1:
        parts.append(f"At least {sheet.people} people.")
    if not danger.may:
        parts.append("NOBODY HERE MAY DO IT.")
    titles = "" if sheet.concerns == "minors" else f" ({_quoted(danger.tasks)})"
    return f"{sheet.short}{titles}: {' '.join(parts)}"


def _first(texts: Iterable[str], most: int) -> str:
    named = list(texts)
    return "; ".join(named[:most]) + (" ..." if len(named) > most else "")


def _quoted(titles: Iterable[str]) -> str:
    named = [f'"{name}"' for name in titles]
    more = f" and {len(named) - _TITLES} more" if len(named) > _TITLES else ""
    return ", ".join(named[:_TITLES]) + more
