"""Holds: times in which work must be left alone because something sets, cures or has to arrive."""

from typing import Literal, NamedTuple

from crewboard.plan.duration import Duration

HoldKind = Literal[
    "clamp",
    "glue",
    "bend set",
    "dry",
    "cure",
    "soak",
    "delivery",
    "inspection",
    "weather",
    "decision",
    "fire watch",
]
Release = Literal["time", "look"]


class KindOfHold(NamedTuple):
    """What is common to the holds of one kind."""

    says: str  # how the board says it: "in clamps", "on the form"
    release: Release  # what ends it where the plan is silent


# A bend, a glued joint and a structural cure are looked at before they are let go; a coat dries by
# the clock; what waits on people or on a delivery has no clock of its own. (Common practice, no
# source.)
KINDS: dict[str, KindOfHold] = {
    "clamp": KindOfHold("in clamps", "look"),
    "glue": KindOfHold("glue is setting", "look"),
    "bend set": KindOfHold("on the form", "look"),
    "dry": KindOfHold("drying", "time"),
    "cure": KindOfHold("curing", "time"),
    "soak": KindOfHold("soaking", "time"),
    "delivery": KindOfHold("waiting for a delivery", "look"),
    "inspection": KindOfHold("waiting for an inspection", "look"),
    "weather": KindOfHold("waiting for the weather", "look"),
    "decision": KindOfHold("waiting for a decision", "look"),
    "fire watch": KindOfHold("fire watch", "look"),
}


class Conditions(NamedTuple):
    """What the shop must be like for a hold's hours to count. °C and % relative humidity."""

    at_least_c: float | None = None
    at_most_c: float | None = None
    at_least_humidity: float | None = None
    at_most_humidity: float | None = None

    def allow(self, celsius: float | None, humidity: float | None) -> bool:
        """Whether a shop reading lies within the conditions; what was not read does not count."""
        return (
            _within(celsius, self.at_least_c, self.at_most_c)
            and _within(humidity, self.at_least_humidity, self.at_most_humidity)
        )  # fmt: skip

    def __bool__(self) -> bool:
        return any(limit is not None for limit in self)


def _within(value: float | None, least: float | None, most: float | None) -> bool:
    if value is None:
        return True
    return (least is None or value >= least) and (most is None or value <= most)


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
