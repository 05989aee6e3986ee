"""A person's sheet as lines to read: skills, certificates, hours by month and by task."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import islice

from crewboard.logbook.acts import WorkedOn
from crewboard.order.board import Board
from crewboard.order.hours.worked import Totals, totals, worked
from crewboard.order.presence import expected_on, times_in_words
from crewboard.order.said import day_in_words, how_many, listed, on_in_words, person
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.crew import certificate_line, hours_in_words
from crewboard.telling.drawn import drawn_bar
from crewboard.telling.line import GAP, Line, Tone, title

_TASKS = 25  # the tasks with the most hours that are shown
_DAYS = 4  # work days ahead
_BAR = 12  # cells of the longest bar: with its month and hours it finds room beside a list
# Whether somebody comes, as they said; None for who said nothing.
_ANSWERS: dict[bool | None, tuple[str, Tone]] = {
    True: ("expected", "safe"),
    False: ("not coming", "plain"),
    None: ("no answer", "faint"),
}


def person_lines(board: Board, who: str, *, plain: bool = False) -> list[Line]:
    """The whole sheet; of somebody whom only the logbook knows, the hours."""
    lines = [title(person(board.plan, who))]
    volunteer = board.plan.crew.get(who)
    if volunteer is None:
        lines.append(Line("in the logbook, but not in crew.toml", "warning"))
    else:
        lines += _standing(board, volunteer)
        lines += [GAP, *_certificates(volunteer, board.at.date())]
        lines += [GAP, *_days(board, who)]
    return [*lines, GAP, *_months(board, who, plain), GAP, *_tasks(board, who)]


def _standing(board: Board, volunteer: Volunteer) -> Iterator[Line]:
    day = board.at.date()
    here = next((visit for visit in board.present if visit.who == volunteer.id), None)
    if here is not None:
        yield Line(f"since {here.since:%H:%M}", "safe", 0, "here:")
    if volunteer.lead:
        yield Line("may sign what a lead has to sign", "plain", 0, "lead:")
    if volunteer.minor_on(day):
        until = f"until {day_in_words(volunteer.eighteen_on)}" if volunteer.eighteen_on else ""
        yield Line(until or "no power-driven woodworking", "caution", 0, "under 18:")
    if volunteer.needs_beside:
        yield Line(person(board.plan, volunteer.needs_beside), "caution", 0, "works only with:")
    if volunteer.skills:
        yield Line(listed(volunteer.skills), "plain", 0, "skills:")
    if volunteer.joined:
        left = f", left {day_in_words(volunteer.left)}" if volunteer.left else ""
        yield Line(f"since {day_in_words(volunteer.joined)}{left}", "faint", 0, "with the crew:")
    elif volunteer.left:
        yield Line(day_in_words(volunteer.left), "faint", 0, "left:")
    for away in volunteer.away:
        if away.each_year or away.until >= day:
            every = " each year" if away.each_year else ""
            why = f": {away.why}" if away.why else ""
            says = f"{day_in_words(away.since)} to {day_in_words(away.until)}{every}{why}"
            yield Line(says, "caution" if away.holds_on(day) else "faint", 0, "away:")
    if volunteer.note.strip():
        yield Line(volunteer.note.strip(), "faint", 0, "note:")


def _certificates(volunteer: Volunteer, day: date) -> Iterator[Line]:
    yield title("Certificates")
    if not volunteer.certificates:
        yield Line("none", "faint", 2)
    for certificate in volunteer.certificates:
        yield certificate_line(certificate, day)


def _days(board: Board, who: str) -> Iterator[Line]:
    yield title("Next work days")
    days = list(islice(board.plan.vehicle.work_days.coming(board.at.date()), _DAYS))
    if not days:
        yield Line("none planned", "faint", 2)
    for day in days:
        answer = expected_on(board.logbook, day).get(who)
        word, tone = _ANSWERS[answer.coming if answer else None]
        note = f" ({answer.note})" if answer and answer.note else ""
        times = f", {times_in_words(answer)}" if answer and times_in_words(answer) else ""
        yield Line(f"{day_in_words(day)}{times}{note}", tone, 2, f"{word}:")


def _months(board: Board, who: str, plain: bool) -> Iterator[Line]:
    hours_of = totals(board.plan, board.logbook, board.at).get(who, Totals())
    yield title(f"Hours, on {how_many(hours_of.days, 'day')}")
    yield Line(hours_in_words(hours_of, board.at.date()), indent=2)
    most = max(hours_of.months.values(), default=0.0)
    year = ""
    for month in sorted(hours_of.months, reverse=True):
        if month[:4] != year:
            year = month[:4]
            yield Line(f"{hours_of.years[int(year)]:.10g} h", "plain", 2, year)
        hours = hours_of.months[month]
        length = drawn_bar(hours / most if most else 0.0, _BAR, plain=plain)
        yield Line(f"{hours:7.10g} h  {length}", "faint", 4, month)


def _tasks(board: Board, who: str) -> Iterator[Line]:
    hours: dict[WorkedOn, float] = {}
    for line in worked(board.plan, board.logbook, board.at):
        if line.who == who:
            hours[line.on] = hours.get(line.on, 0.0) + line.hours
    yield title("Hours by task")
    ranked = sorted(hours.items(), key=lambda pair: -pair[1])
    for on, spent in ranked[:_TASKS]:
        name = on_in_words(board.plan, on)
        yield Line(name, "faint", 2, f"{spent:6.10g} h")
    if len(ranked) > _TASKS:
        yield Line(f"and {how_many(len(ranked) - _TASKS, 'task')} more", "faint", 2)
    if not ranked:
        yield Line("none yet", "faint", 2)
