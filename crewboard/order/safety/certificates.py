"""Who holds which certificate on which day, and which lapse before the work that needs them."""

from collections.abc import Iterable
from datetime import date
from itertools import islice
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.may.needs import good_until, has_certificate
from crewboard.order.said import day_in_words, how_many, listed, quoted_title
from crewboard.plan.hazard import CertificateNeed, Hazard
from crewboard.plan.volunteer import Volunteer

# How many work days ahead a lapse is told: about two months where the crew meets twice a month.
AHEAD = 4


class Lapse(NamedTuple):
    """A certificate that will not be good when it is needed.

    `who` is empty where nobody of the crew holds one. `day` is the first work day without it,
    `tasks` the unfinished tasks that need it, `others` how many people still hold one then.
    """

    who: str
    kind: str
    until: date | None
    day: date
    tasks: tuple[str, ...]
    others: int
    says: str


def last_day(
    volunteer: Volunteer, need: CertificateNeed, hazard: Hazard
) -> tuple[bool, date | None]:
    """Whether the volunteer ever held it, and until when (None: it does not lapse)."""
    ends = [good_until(c, need, hazard) for c in volunteer.certificates if c.kind == need.kind]
    if not ends:
        return False, None
    return True, None if None in ends else max(end for end in ends if end is not None)


def lapses(board: Board, ahead: int = AHEAD) -> list[Lapse]:
    """Certificates that lapse within the next `ahead` work days and that unfinished work needs."""
    plan, today = board.plan, board.at.date()
    days = list(islice(plan.vehicle.work_days.coming(today), ahead)) or [today]
    lapsing: list[Lapse] = []
    for (kind, _), (need, hazard, tasks) in _needed(board).items():
        crew = [v for v in plan.crew.values() if v.with_us_on(today)]
        held = [v for v in crew if last_day(v, need, hazard)[0]]
        if not held:
            sentence = f'nobody holds the certificate "{kind}": {_for_work(board, tasks)}'
            lapsing.append(Lapse("", kind, None, days[0], tasks, 0, sentence))
        for volunteer in held:
            _, until = last_day(volunteer, need, hazard)
            day = next((d for d in days if until is not None and until < d), None)
            if until is None or day is None:
                continue
            others = sum(has_certificate(v, need, hazard, day) for v in held)
            lapsing.append(
                Lapse(
                    volunteer.id,
                    kind,
                    until,
                    day,
                    tasks,
                    others,
                    _lapse_in_words(board, volunteer, kind, until, day, tasks, others),
                )
            )
    return sorted(_each_once(lapsing), key=lambda lapse: (lapse.day, lapse.kind, lapse.who))


def _needed(
    board: Board,
) -> dict[tuple[str, str], tuple[CertificateNeed, Hazard, tuple[str, ...]]]:
    """(kind, what it lasts) -> the need, a sheet that asks for it, and the unfinished tasks."""
    needed: dict[tuple[str, str], tuple[CertificateNeed, Hazard, tuple[str, ...]]] = {}
    for standing in board.standings.values():
        if standing.work_done or standing.state == "set aside":
            continue
        for hazard_id in standing.task.hazards:
            hazard = board.plan.hazards.get(hazard_id)
            for need in hazard.certificates if hazard else ():
                assert hazard is not None
                number = hazard.number(need.lasts)
                key = (need.kind, number.amount if number and number.may_gate else "")
                _, _, tasks = needed.get(key, (need, hazard, ()))
                needed[key] = (need, hazard, tuple(dict.fromkeys((*tasks, standing.task.id))))
    return needed


def _lapse_in_words(
    board: Board,
    volunteer: Volunteer,
    kind: str,
    until: date,
    day: date,
    tasks: tuple[str, ...],
    others: int,
) -> str:
    lapsed = "lapsed" if until < board.at.date() else "lapses"
    left = f"{how_many(others, 'other')} still {'holds' if others == 1 else 'hold'} it"
    return (
        f'{volunteer.name}\'s certificate "{kind}" {lapsed} on {day_in_words(until)}, before the '
        f"work day of {day_in_words(day)}; {left if others else 'nobody else holds it then'}: "
        f"{_for_work(board, tasks)}"
    )


def _for_work(board: Board, tasks: tuple[str, ...]) -> str:
    shown = [quoted_title(board.plan, task_id) for task_id in tasks[:2]]
    more = len(tasks) - len(shown)
    if more:
        shown.append(how_many(more, "more task"))
    return f"{listed(shown)} {'needs' if len(tasks) == 1 else 'need'} it"


def _each_once(lapsing: Iterable[Lapse]) -> list[Lapse]:
    """Two sheets may ask for the same certificate: the earlier lapse of a person is enough."""
    first: dict[tuple[str, str], Lapse] = {}
    for lapse in lapsing:
        known = first.get((lapse.who, lapse.kind))
        if known is None or lapse.day < known.day:
            first[lapse.who, lapse.kind] = lapse
    return list(first.values())
