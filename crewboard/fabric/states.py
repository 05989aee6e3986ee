"""In one word: what a piece is now, by the thing that sits in its place or belongs there."""

from typing import Literal

from crewboard.fabric.place import Place, Traced
from crewboard.fabric.thing import GONE, NOWHERE
from crewboard.logbook.record.done import DoneTo

State = Literal[
    "original",
    "original, moved",
    "earlier repair",
    "later change",
    "later change, removed",
    "repaired in place",
    "spliced",
    "replaced in kind",
    "replaced in other material",
    "copied on evidence",
    "copied by conjecture",
    "replaced, not said how",
    "missing, not replaced",
    "not made yet",
    "spare",
    "spare, in use",
    "unknown",
]
# What was done to a thing that stayed, by what says most.
_SAYS_MOST: tuple[tuple[str, State], ...] = (
    ("spliced", "spliced"),
    ("repaired in place", "repaired in place"),
)


def state_of_fabric(place: Place) -> State:
    """A copy by conjecture stays one, whatever is done to it after."""
    thing = place.current
    if thing.where == "not made yet":
        return "not made yet"
    if place.piece.spare and thing.number == 0:
        return "spare, in use" if place.went_to else "spare"
    if thing.sort == "later change" and thing.where in GONE:
        return "later change, removed"  # nothing of the vehicle as built is missing there
    if thing.where in NOWHERE:
        return "missing, not replaced"
    if thing.sort not in ("original", "unknown"):
        return thing.sort  # type: ignore[return-value]
    return _treated(thing)


def _treated(thing: Traced) -> State:
    done = {e.act.action for e in thing.entries if isinstance(e.act, DoneTo)}
    for action, state in _SAYS_MOST:
        if action in done:
            return state
    if thing.sort == "original" and "moved" in done:
        return "original, moved"
    return "original" if thing.sort == "original" else "unknown"
