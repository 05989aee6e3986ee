"""What stands against people doing a task, and the smallest crew that could do it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.may.needs import CertificateOf, Needs, companions, counts
from crewboard.order.may.obstacle import Among, Obstacle
from crewboard.plan.volunteer import Volunteer


def known(board: Board, people: Iterable[str]) -> list[Volunteer]:
    """The members of the crew among these ids."""
    crew = board.plan.crew
    return [crew[who] for who in dict.fromkeys(people) if who in crew]


# --- people who are named ------------------------------------------------------------------------


def too_young(board: Board, needs: Needs, people: Iterable[str]) -> Iterator[Obstacle]:
    """An under-18 named for work that is kept for adults."""
    day = board.at.date()
    for volunteer in known(board, people):
        for hazard in needs.too_young_for(volunteer, day):
            yield Obstacle("under-18", (volunteer.id,), hazard=hazard.id)


def of_unknown_age(board: Board, needs: Needs, people: Iterable[str]) -> Iterator[Obstacle]:
    """Somebody named for dangerous work of whom nobody said whether they are 18."""
    for who in ages_unsaid(board, people) if needs.dangerous else ():
        yield Obstacle("age", (who,))


def ages_unsaid(board: Board, people: Iterable[str]) -> list[str]:
    """Those of the people of whom nobody has said whether they are 18 or older."""
    day = board.at.date()
    crew = known(board, people)
    return [v.id for v in crew if not v.adult_on(day) and not v.minor_on(day)]


def without_certificate(board: Board, needs: Needs, people: Sequence[str]) -> Iterator[Obstacle]:
    """Certificates that everybody on the task, or somebody, must hold."""
    crew, day = board.plan.crew, board.at.date()
    for asked in (*needs.each, *needs.one):
        lacking = [who for who in people if who not in crew or not asked.held_by(crew[who], day)]
        ask = [who for who in lacking if who in crew and asked.in_question_of(crew[who], day)]
        if asked.need.who == "each":
            yield from (_certificate(asked, (who,), ask=who in ask) for who in lacking)
        elif len(lacking) == len(people):
            yield _certificate(asked, tuple(ask), ask=bool(ask))


def against_person(board: Board, needs: Needs, who: str) -> list[Obstacle]:
    """What bars this person from the work, whoever else is on it: age, certificates."""
    alone = needs._replace(one=())
    return [
        *too_young(board, needs, (who,)),
        *of_unknown_age(board, needs, (who,)),
        *without_certificate(board, alone, (who,)),
    ]


def _certificate(
    asked: CertificateOf, people: tuple[str, ...] = (), among: Among = "named", *, ask: bool = False
) -> Obstacle:
    """That it is missing, or, with `ask`, that somebody has to look at it first."""
    code, kind = "paper" if ask else "certificate", asked.need.kind
    return Obstacle(code, people, among, hazard=asked.hazard.id, certificate=kind)


def not_here(board: Board, needs: Needs, people: Sequence[str]) -> Iterator[Obstacle]:
    """Everyone on dangerous work is signed in: the sign-in is what is counted by after a fire.
    For other work it is asked where sign-ins are kept that day."""
    present = {visit.who for visit in board.present}
    away = tuple(who for who in people if who not in present)
    if away and (needs.hazards or board.history.visits):
        yield Obstacle("away", away, strict=bool(needs.hazards))


def against_practice(board: Board, needs: Needs, people: Sequence[str]) -> Iterator[Obstacle]:
    """What good practice asks: numbers, skills, who is beside whom, who is in the crew that day."""
    day, crew = board.at.date(), known(board, people)
    count = len(people)
    if count < needs.planned:
        yield Obstacle("few", needed=needs.planned, there=count)
    if needs.most is not None and count > needs.most:
        yield Obstacle("many", needed=needs.most, there=count)
    for skill in needs.skills:
        if not any(skill in volunteer.skills for volunteer in crew):
            yield Obstacle("skill", skill=skill)
    for volunteer in crew:
        if volunteer.needs_beside and not companions(volunteer, crew):
            yield Obstacle("beside", (volunteer.id,), strict=bool(needs.hazards))
        if not volunteer.with_us_on(day):  # a guest, who does nothing dangerous
            yield Obstacle("not-with-us", (volunteer.id,), strict=needs.dangerous)


# --- a crew out of some people -------------------------------------------------------------------


def a_crew(
    needs: Needs, people: Sequence[Volunteer], day: date, one_of: frozenset[str] | None = None
) -> tuple[str, ...] | None:
    """The smallest crew out of these people that could do the task; None where there is none.

    Of crews alike the one whose people come first in `people`. With `one_of` somebody of those is
    in it.
    """
    able = accompanied([v for v in people if not needs.bars(v, day)])
    covers = needs.covers(able, day)
    grown_up = frozenset(v.id for v in able if counts(v, day))
    if one_of is not None:
        covers.append(one_of & {v.id for v in able})
    if needs.for_minors:
        covers.append(grown_up)
    if len(able) < needs.least or len(grown_up) < needs.adults or not all(covers):
        return None
    wanted = _CrewWanted(
        covers, {v.id: companions(v, able) for v in able if v.needs_beside}, grown_up, needs.adults
    )
    names = [v.id for v in able]
    most = min(len(names), needs.most or len(names))
    for size in range(needs.least, most + 1):
        crew = _crew_of(size, names, wanted, ())
        if crew is not None:
            return crew
    return None


def accompanied(people: Sequence[Volunteer]) -> list[Volunteer]:
    """Those who need nobody beside them, and those who could have that person beside them."""
    able = list(people)
    while True:
        fewer = [v for v in able if not v.needs_beside or companions(v, able)]
        if len(fewer) == len(able):
            return able
        able = fewer


class _CrewWanted(NamedTuple):
    """What a crew must be: one of each of `covers`, `beside` each who needs it one of theirs, and
    so many `adults` of the grown-ups."""

    covers: Sequence[frozenset[str]]
    beside: Mapping[str, frozenset[str]]
    grown_up: frozenset[str]
    adults: int

    def missing(self, crew: tuple[str, ...]) -> frozenset[str] | None:
        """Of whom one has to join this crew; None where nobody has to."""
        for cover in self.covers:
            if cover.isdisjoint(crew):
                return cover
        for who in crew:
            if who in self.beside and self.beside[who].isdisjoint(crew):
                return self.beside[who]
        if len(self.grown_up.intersection(crew)) < self.adults:
            return self.grown_up
        return None


def _crew_of(
    size: int, names: Sequence[str], wanted: _CrewWanted, crew: tuple[str, ...]
) -> tuple[str, ...] | None:
    """A crew of that size with these people in it: who is missing most is tried first."""
    missing = wanted.missing(crew)
    if len(crew) == size:
        return crew if missing is None else None
    # Only to make up the number is everybody as good as anybody: those further on in the list.
    alike = crew and not wanted.covers and not wanted.beside
    since = names.index(crew[-1]) if missing in (None, wanted.grown_up) and alike else -1
    for place, who in enumerate(names):
        if who not in crew and place > since and (missing is None or who in missing):
            full = _crew_of(size, names, wanted, (*crew, who))
            if full is not None:
                return full
    return None


def why_nobody(
    needs: Needs, people: Sequence[Volunteer], day: date, among: Among
) -> tuple[Obstacle, ...]:
    """Why no crew out of these people could do the task; empty where one could."""
    if a_crew(needs, people, day) is not None:
        return ()
    lacking = tuple(_lacking(needs, people, day, among))
    return lacking or tuple(_too_few_able(needs, people, day, among))


def _lacking(
    needs: Needs, people: Sequence[Volunteer], day: date, among: Among
) -> Iterator[Obstacle]:
    """Certificates and skills that none of the people has."""
    for asked in (*needs.each, *needs.one):
        if not any(asked.held_by(volunteer, day) for volunteer in people):
            yield _held_by_none(asked, people, day, among)
    for skill in needs.skills:
        if not any(skill in volunteer.skills for volunteer in people):
            yield Obstacle("skill", among=among, skill=skill)


def _held_by_none(
    asked: CertificateOf, people: Sequence[Volunteer], day: date, among: Among
) -> Obstacle:
    """That nobody has it, or that it has to be looked at first where somebody may."""
    ask = tuple(v.id for v in people if asked.in_question_of(v, day))
    return _certificate(asked, ask, among, ask=bool(ask))


def _too_few_able(
    needs: Needs, people: Sequence[Volunteer], day: date, among: Among
) -> Iterator[Obstacle]:
    """Those who could help are barred, too few, or need somebody beside them who is not there."""
    able = [v for v in people if not needs.bars(v, day)]
    for asked in needs.one:
        if not any(asked.held_by(volunteer, day) for volunteer in able):
            yield _held_by_none(asked, able, day, among)
            return
    for skill in needs.skills:
        if not any(skill in volunteer.skills for volunteer in able):
            yield Obstacle("skill", among=among, skill=skill, there=1)
            return
    unsaid = [v.id for v in people if not v.adult_on(day) and not v.minor_on(day)]
    if needs.dangerous and unsaid:
        yield Obstacle("age", tuple(unsaid), among)
    elif needs.adults_only and not any(not v.minor_on(day) for v in people):
        yield Obstacle("under-18", among=among, hazard=needs.adults_only[0].id)
    elif sum(counts(v, day) for v in able) < needs.adults:
        there = sum(counts(v, day) for v in able)
        yield Obstacle("few", among=among, needed=needs.adults, there=there)
    elif len(able) < needs.least:
        yield Obstacle("few", among=among, needed=needs.least, there=len(able))
    elif len(accompanied(able)) < len(able):
        alone = [v.id for v in able if v not in accompanied(able)]
        yield Obstacle("beside", tuple(alone), among)
    else:
        yield Obstacle("many", among=among, needed=needs.most or 0, there=len(able))
