"""Which dangers are kept apart: near one another, in one task, after one another."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from crewboard.plan.hazard import Clock, Hazard, minutes_of


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


def must_not_be_near(mine: Sequence[Hazard], theirs: Sequence[Hazard], beside: bool) -> bool:
    """Whether two works must not go on at a time; `beside`: they are in the same place."""
    if any(keep_apart(one, other, beside) for one in mine for other in theirs):
        return True
    return beside and any(hazard.closes_place for hazard in (*mine, *theirs))


def clocks_between(
    first: Sequence[Hazard], then: Sequence[Hazard], beside: bool
) -> Iterator[tuple[Clock, int]]:
    """The clocks of the first work that keep the other out, each with its minutes."""
    for hazard in first:
        named = follows(then, hazard, beside)
        for clock in hazard.clocks:
            rule = hazard.ruling(clock)
            if rule is not None and (named or (beside and keeps_out(hazard, clock))):
                yield clock, minutes_of(rule)


def all_end(hazards: Iterable[Hazard]) -> bool:
    """Whether of each danger somebody can say that it has ended, before the work is finished."""
    return all(any(check.when == "after" for check in hazard.checks) for hazard in hazards)
