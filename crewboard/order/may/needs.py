"""What a task asks of whoever works on it."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Certificate, Volunteer

# For so long a paper without a date of its own is believed once somebody looked at it.
SEEN_FOR = Duration(months=12)


def good_until(certificate: Certificate, need: CertificateNeed, hazard: Hazard) -> date | None:
    """The last day a certificate is good for: its own date, else what the sheet says it lasts,
    however surely that is known. None: neither says."""
    if certificate.until is not None or certificate.since is None:
        return certificate.until
    lasts = _lasts(need, hazard)
    return _last_day_of(certificate.since, lasts) if lasts else None


def believed_until(certificate: Certificate, need: CertificateNeed, hazard: Hazard) -> date | None:
    """The last day before somebody has to look at it again: what bears no end a year after it was
    seen, what is known to be older than the sheet's time at once. None: nobody has to."""
    lasts, since = _lasts(need, hazard), certificate.since
    if since is not None and lasts:
        return _last_day_of(since, lasts)
    if certificate.until is not None:
        return None
    believed = looked_at_until(certificate)
    if believed is None:
        return date.min
    seen = certificate.seen
    return min(believed, _last_day_of(seen, lasts)) if seen and lasts else believed


def looked_at_until(certificate: Certificate) -> date | None:
    """The last day on which a paper that bears no end is believed, since it was looked at or is
    dated; None where nobody said either."""
    seen = max(filter(None, (certificate.seen, certificate.since)), default=None)
    return _last_day_of(seen, SEEN_FOR) if seen else None


def _lasts(need: CertificateNeed, hazard: Hazard) -> Duration | None:
    number = hazard.number(need.lasts)
    return number.span if number is not None else None


def _last_day_of(since: date, span: Duration) -> date:
    return ShopClock().add(datetime.combine(since, time.min), span).date() - timedelta(days=1)


def has_certificate(volunteer: Volunteer, need: CertificateNeed, hazard: Hazard, day: date) -> bool:
    """Whether the volunteer holds what the hazard asks for on that day, beyond question."""
    return any(
        (until := believed_until(paper, need, hazard)) is None or day <= until
        for paper in _papers(volunteer, need, hazard, day)
    )


def certificate_in_question(
    volunteer: Volunteer, need: CertificateNeed, hazard: Hazard, day: date
) -> bool:
    """Whether they hold one that has not lapsed, but that has to be looked at first."""
    papers = _papers(volunteer, need, hazard, day)
    return bool(papers) and not has_certificate(volunteer, need, hazard, day)


def _papers(
    volunteer: Volunteer, need: CertificateNeed, hazard: Hazard, day: date
) -> list[Certificate]:
    """Their certificates of that kind that have not lapsed."""
    return [
        paper
        for paper in volunteer.certificates
        if paper.kind == need.kind
        and paper.good_on(day)
        and ((until := good_until(paper, need, hazard)) is None or day <= until)
    ]


class CertificateOf(NamedTuple):
    """A certificate with the hazard sheet that asks for it."""

    need: CertificateNeed
    hazard: Hazard

    def held_by(self, volunteer: Volunteer, day: date) -> bool:
        return has_certificate(volunteer, self.need, self.hazard, day)

    def in_question_of(self, volunteer: Volunteer, day: date) -> bool:
        return certificate_in_question(volunteer, self.need, self.hazard, day)

    def could_be_got_by(self, volunteer: Volunteer, day: date) -> bool:
        """Whether it would be new to this person, and they are of age for it."""
        return not self.held_by(volunteer, day) and not volunteer.minor_on(day)


class Needs(NamedTuple):
    """The numbers, skills, certificates and age that a task asks for.

    `planned` is the least number by the plan, `least` that or a hazard's, whichever is more;
    `most` is None where the plan does not say, and never less than `least`. `each` certificate is
    held by everybody on the task, of `one` by somebody. `adults_only` are the hazards that no
    under-18 takes part in, but for the `learners` (who, which), whom a lead lets for training.
    `adults` is the least number of grown-ups, `watched` a sheet for each watcher that is wanted,
    `for_minors` those that an under-18 brings.
    """

    planned: int = 1
    least: int = 1
    most: int | None = None
    skills: tuple[str, ...] = ()
    hazards: tuple[Hazard, ...] = ()
    each: tuple[CertificateOf, ...] = ()
    one: tuple[CertificateOf, ...] = ()
    adults_only: tuple[Hazard, ...] = ()
    adults: int = 0
    watched: tuple[Hazard, ...] = ()
    for_minors: tuple[Hazard, ...] = ()
    learners: frozenset[tuple[str, str]] = frozenset()

    @property
    def dangerous(self) -> bool:
        """Whether anything in it can hurt grown-ups too."""
        return len(self.hazards) > len(self.for_minors)

    def too_young_for(self, volunteer: Volunteer, day: date) -> list[Hazard]:
        """The hazards that this person is kept out of for their age."""
        if not volunteer.minor_on(day):
            return []
        return [h for h in self.adults_only if (volunteer.id, h.id) not in self.learners]

    def bars(self, volunteer: Volunteer, day: date) -> bool:
        """Whether this person may not take part, whoever else does: too young, of an age that
        nobody said, not of the crew, no certificate."""
        if volunteer.minor_on(day):
            if self.too_young_for(volunteer, day):
                return True
        elif self.dangerous and not counts(volunteer, day):
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
    # One pair of eyes for each kind of watch: the signal person of a hoist sees to its slings too.
    watched = tuple({hazard.watch: hazard for hazard in hazards if hazard.watch}.values())
    adults = max([0, *(h.people for h in hazards if h.people > 1 and h.concerns != "minors")])
    return Needs(
        least=max([1 + len(watched), *(hazard.people for hazard in hazards)]),
        hazards=tuple(hazards),
        each=tuple(needed for needed in asked if needed.need.who == "each"),
        one=tuple(needed for needed in asked if needed.need.who == "one"),
        adults_only=tuple(hazard for hazard in hazards if not hazard.under_18),
        adults=max(adults, 1 + len(watched) if watched else 0),
        watched=watched,
        for_minors=tuple(hazard for hazard in hazards if hazard.concerns == "minors"),
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


def counts(volunteer: Volunteer, day: date) -> bool:
    """Whether they count among the least people, and may watch and stay beside: known to be of
    age, and of the crew on that day. A guest is not, nor is an age that nobody said."""
    return volunteer.adult_on(day) and volunteer.with_us_on(day)


def counted(people: Iterable[Volunteer], hazard: Hazard, day: date) -> list[Volunteer]:
    """Those who count among the least people of a sheet. What is for under-18s counts them too:
    who must be beside them is asked for by name."""
    if hazard.concerns == "minors":
        return list(people)
    return [volunteer for volunteer in people if counts(volunteer, day)]


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


def hazards_of_one_alone(board: Board) -> list[Hazard]:
    """The sheets that stand beside those of any task while one person is in the shop."""
    if len(board.present) != 1:
        return []
    return [hazard for hazard in board.plan.hazards.values() if hazard.concerns == "alone"]


def companions(volunteer: Volunteer, crew: Iterable[Volunteer]) -> frozenset[str]:
    """Who of these people could be the one whom the volunteer needs beside them."""
    need = volunteer.needs_beside
    return frozenset(
        other.id
        for other in crew
        if other.id != volunteer.id and (other.id == need or need in other.skills)
    )
