"""What can hurt people in a task, and the checks, gear, clocks and limits that guard against it.

A hazard is data: it comes from the built-in sheets or from the crew's own `hazards.toml`. Every
number on a sheet is a `Number` with its source and mark; texts refer to it as `{number-id}`.
A check that was signed authorises nothing: law, labels and licensed trades prevail.
"""

from __future__ import annotations

from datetime import date
from typing import Literal, NamedTuple

from crewboard.plan.duration import Duration

Mark = Literal["verified", "second-hand", "from memory", "common practice", "crew's rule"]
When = Literal["before", "during", "after"]
# How often a check must be signed: once a work day, once for each task, or by each person who
# works on the task once a year (a fit test, a machine briefing).
Every = Literal["day", "task", "person a year"]
# What a clock stands in the way of until it has run out.
Guards = Literal["closing", "task", "entry"]


class Number(NamedTuple):
    """One quoted value, never bare: who says it, in which edition, when it was read, how surely."""

    id: str
    value: float
    unit: str
    says: str
    source: str
    where: str  # jurisdiction: "US", "GB", "EU" or "anywhere"
    edition: str
    read: date | None  # the day the value was last looked at
    mark: Mark

    @property
    def may_gate(self) -> bool:
        """A value from memory is shown as unverified and stops nobody."""
        return self.mark != "from memory"


class Law(NamedTuple):
    """What a jurisdiction says of the hazard, in words (may quote figures with their source)."""

    where: str
    says: str
    source: str
    edition: str
    read: date | None
    mark: Mark


class Check(NamedTuple):
    """Something looked at and signed before, during or after the work."""

    id: str
    when: When
    text: str  # may hold {number-id}
    every: Every = "task"
    signs: str = "anyone"  # "anyone", "lead", or the certificate the signer must hold
    interval: Duration | None = None  # a during-check comes round at this interval


class Clock(NamedTuple):
    """A time that protects: a fire watch, rags drying, cooling, re-entry after spraying."""

    id: str
    kind: str
    numbers: tuple[str, ...]  # the quoted rules; the longest that may gate applies by default
    guards: Guards = "closing"
    text: str = ""
    applies: str = ""  # the crew's choice among the numbers, empty for the longest


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
    not_after: tuple[str, ...] = ()  # hazards whose clock must have run out first
    clocks: tuple[Clock, ...] = ()
    certificates: tuple[CertificateNeed, ...] = ()
    under_18: bool = True  # may under-18s take part
    under_18_why: str = ""
    if_wrong: tuple[str, ...] = ()
    laws: tuple[Law, ...] = ()
    weakened: tuple[Weakened, ...] = ()
    own: bool = False  # from the crew's own file

    def number(self, number_id: str) -> Number | None:
        """The quoted number of that id, None where the sheet has none."""
        return next((n for n in self.numbers if n.id == number_id), None)
