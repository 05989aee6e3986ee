"""What a task asks of whoever works on it."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.plan.clock import ShopClock
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Certificate, Volunteer


def good_until(certificate: Certificate, need: CertificateNeed, hazard: Hazard) -> date | None:
    """The last day a certificate is good for: its own date, else what the sheet says it lasts.

    A length that is only from memory lapses nothing. None: it does not lapse.
    """
    if certificate.until is not None or certificate.since is None:
        return certificate.until
    number = hazard.number(need.lasts)
    span = number.span if number is not None and number.may_gate else None
    if span is None:
        return None
    end = ShopClock().add(datetime.combine(certificate.since, time.min), span)
    return end.date() - timedelta(days=1)


def has_certificate(volunteer: Volunteer, need: CertificateNeed, hazard: Hazard, day: date) -> bool:
    """Whether the volunteer holds what the hazard asks for on that day."""
    return any(
        c.kind == need.kind
        and c.good_on(day)
        and ((until := good_until(c, need, hazard)) is None or day <= until)
        for c in volunteer.certificates
    )


class CertificateOf(NamedTuple):
    """A certificate with the hazard sheet that asks for it."""

    need: CertificateNeed
    hazard: Hazard

    def held_by(self, volunteer: Volunteer, day: date) -> bool:
        return has_certificate(volunteer, self.need, self.hazard, day)

    def could_be_got_by(self, volunteer: Volunteer, day: date) -> bool:
        """Whether it would be new to this person, and they are of age for it."""
        return not self.held_by(volunteer, day) and not volunteer.minor_on(day)


class Needs(NamedTuple):
    """The numbers, skills, certificates and age that a task asks for.

    `planned` is the least number by the plan, `least` that or a hazard's, whichever is more;
    `most` is None where the plan does not say, and never less than `least`. `each` certificate is
    held by everybody on the task, of `one` by somebody. `adults_only` are the hazards that no
    under-18 takes part in.
    """

    planned: int = 1
    least: int = 1
    most: int | None = None
    skills: tuple[str, ...] = ()
    hazards: tuple[Hazard, ...] = ()
    each: tuple[CertificateOf, ...] = ()
    one: tuple[CertificateOf, ...] = ()
    adults_only: tuple[Hazard, ...] = ()

    def bars(self, volunteer: Volunteer, day: date) -> bool:
        """Whether this person may not take part, whoever else does: too young, no certificate."""
        if self.adults_only and volunteer.minor_on(day):
            return True
        return not all(asked.held_by(volunteer, day) for asked in self.each)

    def covers(self, crew: Iterable[Volunteer], day: date) -> list[frozenset[str]]:
        """For each skill, and each certificate that one must hold, the people who have it."""
        people = list(crew)
        sets = [frozenset(v.id for v in people if skill in v.skills) for skill in self.skills]
        return sets + [
            frozenset(v.id for v in people if asked.held_by(v, day)) for asked in self.one
        ]


def needs_of_hazards(hazards: Sequence[Hazard]) -> Needs:
    """What these hazard sheets ask of whoever works with them."""
    asked = [CertificateOf(need, hazard) for hazard in hazards for need in hazard.certificates]
    return Needs(
        least=max([1, *(hazard.people for hazard in hazards)]),
        hazards=tuple(hazards),
        each=tuple(needed for needed in asked if needed.need.who == "each"),
        one=tuple(needed for needed in asked if needed.need.who == "one"),
        adults_only=tuple(hazard for hazard in hazards if not hazard.under_18),
    )


def needs_of(task: Task, hazards: Sequence[Hazard]) -> Needs:
    """The needs of a task with these hazard sheets."""
    needs = needs_of_hazards(hazards)
    least, most = max(needs.least, task.least_people), task.most_people
    return needs._replace(
        planned=task.least_people,
        least=least,
        most=max(least, most) if most is not None else None,
        skills=task.skills,
    )


def under_18s(people: Iterable[Volunteer], day: date) -> list[Volunteer]:
    """Those of the people who are not 18 on that day."""
    return [volunteer for volunteer in people if volunteer.minor_on(day)]


def hazards_for(plan: Plan, task: Task, people: Iterable[str], day: date) -> list[Hazard]:
    """The sheets that a task asks for when these people work on it on that day.

    What is for under-18s counts where one of them is on it, named or not; before anybody is
    named, where the task names it.
    """
    people = tuple(people)
    minors = bool(under_18s((plan.crew[who] for who in people if who in plan.crew), day))
    hazards = [
        hazard
        for hazard_id in task.hazards
        if (hazard := plan.hazards.get(hazard_id)) is not None
        and (hazard.concerns != "minors" or minors or not people)
    ]
    if minors:
        hazards += [
            hazard
            for hazard in plan.hazards.values()
            if hazard.concerns == "minors" and hazard.id not in task.hazards
        ]
    return hazards


def hazards_named(board: Board, task: Task) -> list[Hazard]:
    """The sheets that the task names and that stand whoever does it."""
    named = (board.plan.hazards.get(hazard_id) for hazard_id in task.hazards)
    return [hazard for hazard in named if hazard is not None and hazard.concerns != "minors"]


def hazards_of_minors(board: Board) -> list[Hazard]:
    """The sheets that stand beside those of any task in which an under-18 takes part."""
    return [hazard for hazard in board.plan.hazards.values() if hazard.concerns == "minors"]


def companions(volunteer: Volunteer, crew: Iterable[Volunteer]) -> frozenset[str]:
    """Who of these people could be the one whom the volunteer needs beside them."""
    need = volunteer.needs_beside
    return frozenset(
        other.id
        for other in crew
        if other.id != volunteer.id and (other.id == need or need in other.skills)
    )
