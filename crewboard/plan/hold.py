"""Holds: times in which work must be left alone because something sets, cures or has to arrive."""

from typing import Literal, NamedTuple

from crewboard.plan.duration import Duration

HoldKind = str  # a key of KINDS
Release = Literal["time", "look"]


class KindOfHold(NamedTuple):
    """What is common to the holds of one kind."""

    noun: str  # as it stands behind its span: "36 hour clamp time"
    words: str  # how the board says that one runs: "in clamps", "on the form"
    release: Release  # what ends it where the plan is silent
    longest: str  # the longest that it plausibly lasts; the review asks about more
    # Something has to come or be said: nothing here must be left alone. Put on a component, such a
    # hold keeps what comes after it, and the work on the component itself goes on; a hold of any
    # other kind leaves the whole of it alone.
    awaited: bool = False
    over: str = "released"  # what is said of the work once it is over: "decided", "inspected"


# A bend, a glued joint and a structural cure are looked at before they are let go; a coat dries by
# the clock; what waits on people or on a delivery has no clock of its own. The longest times are
# wide, to catch a wrong unit. (Both common practice, no source.) This is the only table of kinds.
KINDS: dict[HoldKind, KindOfHold] = {
    "clamp": KindOfHold("clamp time", "in clamps", "look", "2 weeks"),
    "glue": KindOfHold("glue set", "glue is setting", "look", "2 weeks"),
    "bend set": KindOfHold("bend set", "on the form", "look", "1 year"),
    "dry": KindOfHold("drying time", "drying", "time", "2 months"),
    "cure": KindOfHold("cure", "curing", "time", "3 months"),
    "soak": KindOfHold("soak", "soaking", "time", "2 months"),
    "delivery": KindOfHold(
        "wait for a delivery",
        "awaiting delivery",
        "look",
        "18 months",
        awaited=True,
        over="delivered",
    ),
    "inspection": KindOfHold(
        "wait for an inspection",
        "awaiting inspection",
        "look",
        "1 year",
        awaited=True,
        over="inspected",
    ),
    "weather": KindOfHold(
        "wait for the weather",
        "awaiting the weather",
        "look",
        "1 year",
        awaited=True,
        over="let by the weather",
    ),
    "decision": KindOfHold(
        "wait for a decision", "awaiting a decision", "look", "1 year", awaited=True, over="decided"
    ),
    # The owner's or the curator's word: on a plan, a colour, a departure, a piece to be discarded.
    "approval": KindOfHold(
        "wait for an approval", "awaiting approval", "look", "1 year", awaited=True, over="approved"
    ),
    "fire watch": KindOfHold("fire watch", "fire watch", "look", "1 day"),
}


class Conditions(NamedTuple):
    """What the shop must be like for a hold's hours to count. °C and % relative humidity."""

    at_least_c: float | None = None
    at_most_c: float | None = None
    at_least_humidity: float | None = None
    at_most_humidity: float | None = None

    def __bool__(self) -> bool:
        return any(limit is not None for limit in self)


class Hold(NamedTuple):
    """A hold as the plan foresees it: it starts when its task's work is finished.

    `lasts` is None where nothing but a person's word ends it (an inspection, a decision).
    """

    kind: HoldKind
    lasts: Duration | None = None
    release: Release = "look"
    leave_alone: bool = False  # the whole component is left alone, not only the followers
    conditions: Conditions = Conditions()
    note: str = ""
    source: str = ""  # where the time comes from: the label, the book, the shop's own practice
