"""What stands against people doing a task, and the smallest crew that could do it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from crewboard.order.board import Board
from crewboard.order.may.needs import CertificateOf, Needs, companions
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
    young = [volunteer.id for volunteer in known(board, people) if volunteer.minor_on(day)]
    for hazard in needs.adults_only:
        for who in young:
            yield Obstacle("under-18", (who,), hazard=hazard.id)


def without_certificate(board: Board, needs: Needs, people: Sequence[str]) -> Iterator[Obstacle]:
    """Certificates that everybody on the task, or somebody, must hold."""
    crew, day = board.plan.crew, board.at.date()
    for asked in (*needs.each, *needs.one):
        lacking = [who for who in people if who not in crew or not asked.held_by(crew[who], day)]
        if asked.need.who == "each":
            yield from (_certificate(asked, (who,)) for who in lacking)
        elif len(lacking) == len(people):
            yield _certificate(asked)


def against_person(board: Board, needs: Needs, who: str) -> list[Obstacle]:
    """What bars this person from the work, whoever else is on it: age, certificates."""
    alone = needs._replace(one=())
    return [*too_young(board, needs, (who,)), *without_certificate(board, alone, (who,))]


def _certificate(
    asked: CertificateOf, people: tuple[str, ...] = (), among: Among = "named"
) -> Obstacle:
    return Obstacle(
        "certificate", people, among, hazard=asked.hazard.id, certificate=asked.need.kind
    )


def too_few_here(board: Board, needs: Needs, people: Sequence[str]) -> Iterator[Obstacle]:
    """Everyone on dangerous work is signed in: the sign-in is what is counted by after a fire."""
    present = {visit.who for visit in board.present}
    away = tuple(who for who in people if who not in present)
    if away:
        yield Obstacle("away", away)
    here = len(people) - len(away)
    for hazard in needs.hazards:
        if here < hazard.people:
            yield Obstacle("people", away, hazard=hazard.id, needed=hazard.people, there=here)


def against_practice(board: Board, needs: Needs, people: Sequence[str]) -> Iterator[Obstacle]:
    """What good practice asks: numbers, skills, who is beside whom, who is of the crew that day."""
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
        if not volunteer.with_us_on(day):
            yield Obstacle("not-with-us", (volunteer.id,))


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
    if one_of is not None:
        covers.append(one_of & {v.id for v in able})
    if len(able) < needs.least or not all(covers):
        return None
    beside = {v.id: companions(v, able) for v in able if v.needs_beside}
    names = [v.id for v in able]
    most = min(len(names), needs.most or len(names))
    for size in range(needs.least, most + 1):
        crew = _crew_of(size, names, covers, beside, ())
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


def _crew_of(
    size: int,
    names: Sequence[str],
    covers: Sequence[frozenset[str]],
    beside: Mapping[str, frozenset[str]],
    crew: tuple[str, ...],
) -> tuple[str, ...] | None:
    """A crew of that size with these people in it: who is missing most is tried first."""
    missing = next((cover for cover in covers if cover.isdisjoint(crew)), None)
    if missing is None:
        alone = (who for who in crew if who in beside and beside[who].isdisjoint(crew))
        missing = next((beside[who] for who in alone), None)
    if len(crew) == size:
        return crew if missing is None else None
    # Only to make up the number is everybody as good as anybody: those further on in the list.
    since = names.index(crew[-1]) if missing is None and crew and not covers and not beside else -1
    for place, who in enumerate(names):
        if who not in crew and place > since and (missing is None or who in missing):
            full = _crew_of(size, names, covers, beside, (*crew, who))
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
            yield _certificate(asked, among=among)
    for skill in needs.skills:
        if not any(skill in volunteer.skills for volunteer in people):
            yield Obstacle("skill", among=among, skill=skill)


def _too_few_able(
    needs: Needs, people: Sequence[Volunteer], day: date, among: Among
) -> Iterator[Obstacle]:
    """Those who could help are barred, too few, or need somebody beside them who is not there."""
    able = [v for v in people if not needs.bars(v, day)]
    for asked in needs.one:
        if not any(asked.held_by(volunteer, day) for volunteer in able):
            yield _certificate(asked, among=among)
            return
    for skill in needs.skills:
        if not any(skill in volunteer.skills for volunteer in able):
            yield Obstacle("skill", among=among, skill=skill, there=1)
            return
    if needs.adults_only and not any(not v.minor_on(day) for v in people):
        yield Obstacle("under-18", among=among, hazard=needs.adults_only[0].id)
    elif len(able) < needs.least:
        yield Obstacle("few", among=among, needed=needs.least, there=len(able))
    elif len(accompanied(able)) < len(able):
        alone = [v.id for v in able if v not in accompanied(able)]
        yield Obstacle("beside", tuple(alone), among)
    else:
        yield Obstacle("many", among=among, needed=needs.most or 0, there=len(able))
