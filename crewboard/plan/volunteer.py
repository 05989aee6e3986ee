"""The people: who they are to the shop, what they can do and what they hold papers for."""

from datetime import date
from typing import NamedTuple

from crewboard.plan.time_away import TimeAway


class Certificate(NamedTuple):
    """A paper or training that lapses: a fit test, first aid, hot work, a machine briefing."""

    kind: str
    until: date | None = None  # the last day it is good for; None where it does not say
    since: date | None = None
    note: str = ""
    seen: date | None = None  # when somebody last looked at it

    def good_on(self, day: date) -> bool:
        return (self.since is None or self.since <= day) and (
            self.until is None or day <= self.until
        )


class Volunteer(NamedTuple):
    """One member of the crew."""

    id: str
    name: str
    skills: tuple[str, ...] = ()
    certificates: tuple[Certificate, ...] = ()
    lead: bool = False
    adult: bool | None = None  # None: nobody has said
    eighteen_on: date | None = None  # the eighteenth birthday, kept of minors only
    joined: date | None = None
    left: date | None = None
    needs_beside: str = ""  # a skill or a person's id that must be beside this volunteer
    note: str = ""
    learning: tuple[str, ...] = ()  # skills that they want to learn beside somebody who has them
    was_guest: tuple[str, ...] = ()  # the names under which they came before they joined
    away: tuple[TimeAway, ...] = ()  # weeks of which it is known that they do not come

    def minor_on(self, day: date) -> bool:
        """Whether they are known to be under 18 on that day."""
        if self.eighteen_on is not None:
            return day < self.eighteen_on
        return self.adult is False

    def adult_on(self, day: date) -> bool:
        """Whether they are known to be 18 or older: an age that nobody said is not."""
        if self.eighteen_on is not None:
            return self.eighteen_on <= day
        return self.adult is True

    def leads_on(self, day: date) -> bool:
        """Whether they may answer as a lead: an under-18 may not, nor whose age nobody said."""
        return self.lead and self.adult_on(day)

    def with_us_on(self, day: date) -> bool:
        """Whether they are of the crew. Who left before they joined came back then."""
        has_joined = self.joined is None or self.joined <= day
        not_left = self.left is None or day <= self.left
        if self.joined is not None and self.left is not None and self.left < self.joined:
            return has_joined or not_left
        return has_joined and not_left

    def away_on(self, day: date) -> bool:
        """Whether it is known that they do not come that day, unless they say otherwise."""
        return any(away.holds_on(day) for away in self.away)

    def certificate(self, kind: str, day: date) -> Certificate | None:
        """A certificate of that kind that is good on the day."""
        return next((c for c in self.certificates if c.kind == kind and c.good_on(day)), None)
