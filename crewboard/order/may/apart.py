"""Which dangers are kept apart: near one another, in one task, after one another."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from crewboard.plan.hazard import Clock, Hazard


def keep_apart(one: Hazard, other: Hazard, beside: bool) -> bool:
    """Whether two dangers must not be near one another; `beside`: they are in the same place.

    The whole shop is near, unless every sheet that says so means the same place only.
    """
    saying = [mine for mine, theirs in ((one, other), (other, one)) if theirs.id in mine.not_near]
    return any(sheet.near == "shop" or beside for sheet in saying)


def clashing(hazards: Sequence[Hazard]) -> Iterator[tuple[Hazard, Hazard]]:
    """The pairs of these sheets that may not be in one place, and so not in one task."""
    for one, other in combinations(hazards, 2):
        if keep_apart(one, other, beside=True):
            yield one, other


def same_place(one: str, other: str) -> bool:
    """Work without a named place could be anywhere, so it counts as the same place."""
    return not one or not other or one == other


def follows(hazards: Sequence[Hazard], earlier: Hazard, beside: bool) -> bool:
    """Whether work with these hazards must wait until the clocks of the earlier one ran out: any of
    the sheets says that it may not follow, or one of the two that they may not be near."""
    return any(
        earlier.id in hazard.not_after or keep_apart(hazard, earlier, beside) for hazard in hazards
    )


def keeps_out(hazard: Hazard, clock: Clock) -> bool:
    """Whether nobody may work in the place while this clock runs."""
    return clock.guards == "entry" or hazard.closes_place
