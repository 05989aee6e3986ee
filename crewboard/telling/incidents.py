"""Near misses and injuries as a report, with the names or without them.

Without names each person becomes "person A", the same throughout the report, in the free text too
wherever a name or short name of the crew stands in it.
"""

import re
from collections.abc import Iterable, Iterator
from datetime import date

from crewboard.logbook.acts import Incident
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import day_and_time, how_many, listed, person, task_title
from crewboard.plan.plan import Plan
from crewboard.telling.hazard_sheet import nothing_written
from crewboard.telling.line import Line
from crewboard.telling.report import Chapter, Request, Sheet, points

READ_FIRST = (
    "Names of the crew list were left out. Somebody who is not on it may still be named in the "
    "words: read the report before it is shared."
)
IN_FULL = "With names: for the crew's own records, not to be shared."


def report(request: Request) -> Sheet:
    """All near misses and injuries up to the board's day."""
    board = request.board
    entries = incidents(board.logbook, until=board.at.date())
    sheet = incident_sheet(board.plan, entries, names=request.names)
    chapters = (help_first(board.plan), *sheet.chapters, reporting(board.plan))
    return sheet._replace(chapters=chapters)


REPORTING = "What the law may ask to be reported (no advice: ask those named)"


def reporting(plan: Plan) -> Chapter:
    """What may have to be reported, and to whom, by jurisdiction, with source and mark."""
    here = plan.vehicle.jurisdiction
    duties = [
        f"{law.where}: {sheet.told(law.says)} ({law.source}; {law.mark})"
        for sheet in plan.hazards.values()
        for law in sheet.here_first(sheet.reporting)
    ]
    if duties and here and not any(duty.startswith(f"{here}: ") for duty in duties):
        duties.insert(0, nothing_written(here))
    return Chapter(REPORTING, points(duties))


def help_first(plan: Plan) -> Chapter:
    """Whom to call, and the nearest hospital."""
    shop = plan.vehicle.shop
    facts = [f"call: {shop.emergency or 'not written down: add it to vehicle.toml'}"]
    facts += [f"hospital: {shop.hospital or 'not written down: add it to vehicle.toml'}"]
    return Chapter("In an emergency", points(facts, "must"), "must")


def incidents(
    logbook: Logbook, since: date | None = None, until: date | None = None
) -> Iterator[Entry]:
    """The near misses and injuries that count, from `since` to `until`, both days included."""
    for day in logbook.days.values():
        if (since is None or day.date >= since) and (until is None or day.date <= until):
            yield from (entry for entry in day.counting if isinstance(entry.act, Incident))


def incident_sheet(plan: Plan, entries: Iterable[Entry], *, names: bool) -> Sheet:
    """A chapter for each of them; `names` False leaves the names of people out."""
    recorded = [(entry, entry.act) for entry in entries if isinstance(entry.act, Incident)]
    veil = None if names else _Veil(plan, recorded)
    injuries = sum(act.injury for _, act in recorded)
    missed = how_many(len(recorded) - injuries, "near miss", "near misses")
    hurt = how_many(injuries, "injury", "injuries")
    chapters = tuple(_chapter(plan, entry, act, veil) for entry, act in recorded)
    caution = IN_FULL if names else READ_FIRST
    return Sheet(f"Near misses and injuries: {missed}, {hurt}", caution, chapters)


def _chapter(plan: Plan, entry: Entry, act: Incident, veil: "_Veil | None") -> Chapter:
    def text(words: str) -> str:
        return veil.text(words) if veil else words

    def people(*ids: str) -> str:
        return listed(veil.person(who) if veil else person(plan, who) for who in ids if who)

    facts = {
        "what:": text(act.what),
        "where:": text(act.place),
        "task:": text(task_title(plan, act.task)),
        "who:": people(*act.who),
        "seen by:": people(*act.seen_by),
        "done:": text(act.done),
        "written by:": people(entry.by),
        "written:": day_and_time(entry.written) if entry.written else "",
    }
    heading = f"{day_and_time(entry.at)}: {'injury' if act.injury else 'near miss'}"
    return Chapter(heading, tuple(Line(fact, word=word) for word, fact in facts.items() if fact))


class _Veil:
    """Puts "person A" in the place of every name it knows, the same letter for the same person."""

    def __init__(self, plan: Plan, recorded: Iterable[tuple[Entry, Incident]]) -> None:
        self._called: dict[str, str] = {}
        self._whose: dict[str, str] = {}  # any way of naming somebody, in lower case -> id
        ids = dict.fromkeys(plan.crew)
        for entry, act in recorded:
            ids |= dict.fromkeys(who for who in (*act.who, *act.seen_by, entry.by) if who)
        for who in ids:
            name = person(plan, who)
            for way in (name, *name.split(), who):
                self._whose.setdefault(way.lower(), who)
        ways = sorted(filter(None, self._whose), key=len, reverse=True)
        names = "|".join(re.escape(way) for way in ways)
        self._names = re.compile(rf"(?<!\w)(?:{names})(?!\w)", re.IGNORECASE) if ways else None

    def person(self, who: str) -> str:
        """What somebody is called in this report."""
        return self._called.setdefault(who, f"person {_letters(len(self._called))}")

    def text(self, words: str) -> str:
        if self._names is None:
            return words
        return self._names.sub(lambda m: self.person(self._whose[m[0].lower()]), words)


def _letters(count: int) -> str:
    """A, B, ... Z, AA, AB ..."""
    letters = ""
    while count >= 0:
        letters = chr(ord("A") + count % 26) + letters
        count = count // 26 - 1
    return letters
