"""What can hurt people in a task, and the checks, gear, clocks and limits that guard against it.

A hazard is data: it comes from the built-in sheets or from the crew's own `hazards.toml`. Every
number on a sheet is a `Number` with its source and mark; texts refer to it as `{number-id}`.
A check that was signed authorises nothing: law, labels and licensed trades prevail.
"""

import re
from collections.abc import Iterable
from datetime import date
from typing import Literal, NamedTuple

from crewboard.plan.bench_card import BenchCard
from crewboard.plan.duration import Duration, NotADuration, parse_duration
from crewboard.plan.units import Safe, both
from crewboard.plan.workdays import MONTHS

Mark = Literal["verified", "second-hand", "from memory", "common practice", "crew's rule"]
When = Literal["before", "during", "after"]
# How often a check must be signed: once a work day, once for each task, for each task on each day
# it is worked on, by each person who works on the task once a year (a machine briefing), or by
# each person once for each task (an under-18 being shown it).
Every = Literal["day", "task", "task a day", "person a year", "person a task"]
EVERY_IN_WORDS: dict[Every, str] = {
    "day": "each day",
    "task": "once for the task",
    "task a day": "each day of the task",
    "person a year": "by each person, each year",
    "person a task": "by each person, for each task",
}
# What a clock stands in the way of until it has run out: leaving the shop, the work that may not
# follow (`not_after`), or any work in the same place.
Guards = Literal["closing", "task", "entry"]
# How far "near" reaches: the whole shop, or the place in the shop that both tasks name.
Near = Literal["shop", "place"]
# What a sheet is for: the tasks that name it, every work day (opening and closing the shop), or
# also every task that an under-18 takes part in, or that is begun while one person is in the shop.
Concerns = Literal["task", "day", "minors", "alone"]

CAUTION = (
    "These checks quote published limits as of the date shown. They are not legal advice or a "
    "permit. Law, the site's safety officer, product labels and licensed trades (electrical, "
    "pressure, lifting, asbestos) always prevail. A check passed here authorises nothing. "
    "OSHA may not cover unpaid volunteers; this crew treats its limits as minimum care."
)
# Where a number or a sentence holds that no one jurisdiction has said.
ANYWHERE = "anywhere"
_REFERENCE = re.compile(r"\{([a-z][a-z0-9-]*)\}")


class Number(NamedTuple):
    """One quoted value, never bare: who says it, in which edition, when it was read, how surely."""

    id: str
    value: float | date
    unit: str
    says: str  # may hold its own {number-id}, or another of the sheet
    source: str
    where: str  # jurisdiction: "US", "GB", "EU" or "anywhere"
    edition: str
    read: date | None  # the day somebody looked; None where nobody did
    mark: Mark
    safe: Safe = ""  # which way it is rounded where it is told in another unit

    @property
    def may_gate(self) -> bool:
        """A value from memory is shown as unverified and stops nobody."""
        return self.mark != "from memory"

    @property
    def amount(self) -> str:
        """The value with its unit, as it stands in a sentence: "60 min", "8 May 2029"."""
        if isinstance(self.value, date):
            return f"{self.value.day} {MONTHS[self.value.month - 1]} {self.value.year}"
        return f"{self.value:.10g} {self.unit}".rstrip()

    def amount_in(self, units: str) -> str:
        """As `amount`, in metric and imperial units both, those of the folder first."""
        if isinstance(self.value, date):
            return self.amount
        return both(self.value, self.unit, units, self.safe)

    @property
    def span(self) -> Duration | None:
        """The value as a time, None where its unit is none of time."""
        try:
            return parse_duration(self.amount)
        except NotADuration:
            return None


class Law(NamedTuple):
    """What a source says of the hazard, in words: a jurisdiction's law, a duty to report, advice
    on first aid. Figures stand in it as `{number-id}`."""

    where: str
    says: str
    source: str
    edition: str
    read: date | None
    mark: Mark
    borrowed: str = ""  # what it was written for, where it is only borrowed as practice


class Check(NamedTuple):
    """Something looked at and signed before, during or after the work."""

    id: str
    when: When
    text: str  # may hold {number-id}
    every: Every = "task"
    signs: str = "anyone"  # "anyone", "lead", or the certificate the signer must hold
    interval: str = ""  # a number-id: a during-check comes round this often
    last_out: bool = False  # signed by the last one out: not while anybody else is in
    waivable: bool = True  # whether it may be found not to apply at all
    licensed: bool = False  # licensed trades: signed one at a time, never along with others
    names: str = ""  # whom its signing must name: "anyone", "adult", or a certificate they hold
    title: str = ""  # in a few words: "rags in the can"

    @property
    def short(self) -> str:
        """By what people call it."""
        return self.title or self.id.replace("-", " ")

    @property
    def each_person(self) -> bool:
        """Whether it is signed for each person by themselves."""
        return self.every in ("person a year", "person a task")


class Clock(NamedTuple):
    """A time that protects: a fire watch, rags drying, cooling, re-entry after spraying."""

    id: str
    kind: str  # how it is said: "fire watch", "airing"
    numbers: tuple[str, ...]  # the quoted rules; the longest that may gate applies by default
    guards: Guards = "closing"
    text: str = ""
    applies: str = ""  # the crew's choice among the numbers, empty for the longest
    starts: str = ""  # the after-check whose signing starts it; empty: the end of the work
    ends: str = ""  # the after-check that may not be signed before it has run out


class CertificateNeed(NamedTuple):
    """A certificate somebody (or everybody) on the task must hold."""

    kind: str
    who: Literal["one", "each"] = "each"
    lasts: str = ""  # a number-id of how long it lasts, empty where the card says it


class Weakened(NamedTuple):
    """A crew's decision to ask less than the built-in sheet: shown on the sheet with its reason."""

    what: str
    decided_by: str
    why: str
    on: date | None = None


class Hazard(NamedTuple):
    """One hazard sheet."""

    id: str
    name: str
    harm: tuple[str, ...]
    checks: tuple[Check, ...] = ()
    gear: tuple[str, ...] = ()
    numbers: tuple[Number, ...] = ()
    least_people: str = ""  # a number-id
    not_near: tuple[str, ...] = ()  # hazards that may not be under way at the same time
    near: Near = "shop"
    not_after: tuple[str, ...] = ()  # hazards whose clock must have run out first
    clocks: tuple[Clock, ...] = ()
    certificates: tuple[CertificateNeed, ...] = ()
    under_18: bool = True  # may under-18s take part
    under_18_why: str = ""
    if_wrong: tuple[str, ...] = ()
    laws: tuple[Law, ...] = ()
    reporting: tuple[Law, ...] = ()  # what may have to be reported after an accident, and to whom
    prevail: tuple[str, ...] = ()  # local codes, labels, licensed trades that go before the sheet
    weakened: tuple[Weakened, ...] = ()
    concerns: Concerns = "task"
    own: bool = False  # from the crew's own file
    closes_place: bool = False  # no other work in its place while it goes on
    words: tuple[str, ...] = ()  # words in a task's title or method that point to it
    words_not: tuple[str, ...] = ()  # phrases in which those words mean something else
    watch: str = ""  # who must be named beside the work and do nothing else: "fire watcher"
    training: bool = False  # whether a lead may let an under-18 take part for training
    card: BenchCard = BenchCard()
    first_aid: tuple[Law, ...] = ()
    do_not_use: str = ""  # what to do instead; where it says so, no task with it begins
    units: str = "metric"  # in which the reader's folder tells measures first
    here: str = ""  # the folder's jurisdiction, whose law is told first; empty where it names none

    @property
    def short(self) -> str:
        """The name as it stands within a sentence: "hot work", "lead paint"."""
        name = self.name.partition(":")[0]
        return name[:1].lower() + name[1:]

    def number(self, number_id: str) -> Number | None:
        """The quoted number of that id, None where the sheet has none."""
        return next((n for n in self.numbers if n.id == number_id), None)

    def check(self, check_id: str) -> Check | None:
        """The check of that id, None where the sheet has none."""
        return next((c for c in self.checks if c.id == check_id), None)

    def told(self, text: str) -> str:
        """The text with each `{number-id}` as its value; what is from memory says "unverified"."""

        def amount(reference: re.Match[str]) -> str:
            number = self.number(reference[1])
            if number is None:
                return reference[0]
            told = number.amount_in(self.units)
            return told if number.may_gate else f"{told} (unverified)"

        return _REFERENCE.sub(amount, text)

    def sentence(self, number: Number) -> str:
        """What a number says, with the number in it: "the air is measured again after 30 min"."""
        own = f"{{{number.id}}}"
        if own in number.says:
            return self.told(number.says.replace(own, number.amount_in(self.units)))
        return f"{number.amount_in(self.units)}: {self.told(number.says)}"

    def words_on_card(self) -> int:
        """How many words are read on its bench card."""
        return self.card.words(self.name, self.told, self.here, self.do_not_use)

    def here_first(self, laws: Iterable[Law]) -> tuple[Law, ...]:
        """What holds in the folder's jurisdiction before what holds elsewhere."""
        if not self.here:
            return tuple(laws)
        return tuple(sorted(laws, key=lambda law: law.where not in (self.here, ANYWHERE)))

    @property
    def laws_here(self) -> tuple[Law, ...]:
        """What the law of the folder's jurisdiction says, and what holds anywhere."""
        return tuple(law for law in self.laws if self.here and law.where in (self.here, ANYWHERE))

    @property
    def laws_elsewhere(self) -> tuple[Law, ...]:
        """The law of others; all of it where the folder names no jurisdiction."""
        here = self.laws_here
        return tuple(law for law in self.laws if law not in here)

    @property
    def people(self) -> int:
        """The least number of people for the work; 1 where the sheet asks for none."""
        number = self.number(self.least_people)
        if number is None or not number.may_gate or isinstance(number.value, date):
            return 1
        return max(1, int(number.value))

    def ruling(self, clock: Clock) -> Number | None:
        """The number that sets a clock: the crew's choice, else the longest that may gate."""
        chosen = self.number(clock.applies)
        if chosen is not None and chosen.span is not None:
            return chosen
        rules = [n for n in map(self.number, clock.numbers) if n is not None and n.may_gate]
        return max(rules, key=minutes_of, default=None)


def minutes_of(number: Number) -> int:
    """A time in minutes, months at their longest, to compare two; 0 where it is no time."""
    span = number.span
    return 0 if span is None else span.months * 44640 + span.days * 1440 + span.minutes


def longest_clock(sheets: Iterable[Hazard]) -> int:
    """Minutes that the longest protective clock of these sheets lasts; 0 where there is none."""
    clocks = ((hazard, clock) for hazard in sheets for clock in hazard.clocks)
    rules = (hazard.ruling(clock) for hazard, clock in clocks)
    return max((minutes_of(rule) for rule in rules if rule is not None), default=0)


def references(text: str) -> list[str]:
    """The number-ids a text refers to."""
    return _REFERENCE.findall(text)
