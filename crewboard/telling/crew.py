"""The crew: who is here, who is expected, hours, and certificates: whether good, and until when."""

from datetime import date, timedelta

from crewboard.order.board import Board
from crewboard.order.hours.worked import Totals, totals
from crewboard.order.may.needs import looked_at_until
from crewboard.order.presence import expected_on, times_in_words
from crewboard.order.safety.certificates import lapses
from crewboard.order.said import day_in_words, listed, person
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.telling.line import Line, Tone
from crewboard.telling.row import Row, heading

# The groups in the order in which they stand, with their tones.
_GROUPS: dict[str, Tone] = {
    "Here": "safe",
    "Expected today": "must",
    "Was here today": "faint",
    "Not here": "faint",
    "Not with the crew now": "faint",
    "In the logbook, not in crew.toml": "faint",
}
_NOTHING = Totals()
SOON = timedelta(days=60)  # about four work days of a crew that meets twice a month
ENDING = ("LAPSED", "lapses soon", "look at it")  # the states that are said beside a name


def crew_rows(board: Board, *, full: bool = False) -> list[Row]:
    """Who is here first, then who is expected today, who went again, the others.

    `full` with the hours in words and all skills and certificates below each.
    """
    hours = totals(board.plan, board.logbook, board.at)
    groups: dict[str, list[Row]] = {name: [] for name in _GROUPS}
    for volunteer in board.plan.crew.values():
        group, word, tone = _where(board, volunteer)
        row = _row(board, volunteer, word, tone, hours.get(volunteer.id, _NOTHING), full=full)
        groups[group].append(row)
    groups["In the logbook, not in crew.toml"] = [
        Row(who, ("unknown", who, *_cells(hours[who], board.at.date(), full=full)), "warning")
        for who in hours
        if who not in board.plan.crew
    ]
    rows: list[Row] = []
    for name, members in groups.items():
        if members:
            rows += [heading(f"{name} ({len(members)})", _GROUPS[name]), *members]
    return rows


def lapse_lines(board: Board) -> list[Line]:
    """The certificates that lapse before work that needs them."""
    return [Line(lapse.says, "warning", 2, "-") for lapse in lapses(board)]


def _where(board: Board, volunteer: Volunteer) -> tuple[str, str, Tone]:
    """The group somebody stands in, the word for it and its tone."""
    who, day = volunteer.id, board.at.date()
    visit = next((v for v in reversed(board.history.visits) if v.who == who), None)
    if visit is not None and visit.until is None:
        return "Here", f"since {visit.since:%H:%M}", "safe"
    if not volunteer.with_us_on(day):
        return "Not with the crew now", _gone(volunteer, day), "faint"
    if visit is not None and visit.until is not None:
        return "Was here today", f"out {visit.until:%H:%M}", "plain"
    answer = expected_on(board.logbook, day).get(who)
    if answer is None:
        return "Not here", "not here", "faint"
    if not answer.coming:
        return "Not here", "not coming", "faint"
    return "Expected today", times_in_words(answer) or "expected", "must"


def _gone(volunteer: Volunteer, day: date) -> str:
    if volunteer.joined is not None and day < volunteer.joined:
        return "joins later"
    return f"left {volunteer.left:%m/%Y}" if volunteer.left else "left"


def _row(
    board: Board, volunteer: Volunteer, word: str, tone: Tone, hours: Totals, *, full: bool
) -> Row:
    day = board.at.date()
    marks = ["lead"] if volunteer.lead else []
    marks += ["under 18"] if volunteer.minor_on(day) else []
    name = f"{volunteer.name} ({', '.join(marks)})" if marks else volunteer.name
    beside = volunteer.needs_beside
    below = [f"works only with {person(board.plan, beside)}"] if beside else []
    below += _known(volunteer, hours, day) if full else _lapsing(volunteer, day)
    find = " ".join((*volunteer.skills, *(c.kind for c in volunteer.certificates), volunteer.id))
    cells = (word, name, *_cells(hours, day, full=full))
    row = Row(volunteer.id, cells, tone, tuple(below), find=find, handle=volunteer.id)
    return row._replace(below_tone="faint" if full else _worst(volunteer, day))


def _cells(hours: Totals, day: date, *, full: bool) -> tuple[str, ...]:
    """Hours of the month, of the year and in all, in three columns; in words elsewhere."""
    return () if full else tuple(f"{h:.10g} h" if h else "-" for h in hours.around(day))


def _lapsing(volunteer: Volunteer, day: date) -> list[str]:
    """The certificates of who is with the crew that have lapsed or will within two months."""
    held = volunteer.certificates if volunteer.with_us_on(day) else ()
    ending = [paper for paper in held if certificate_state(paper, day)[0] in ENDING]
    return [certificate_in_words(paper, day) for paper in ending]


def _worst(volunteer: Volunteer, day: date) -> Tone:
    """The tone of what has lapsed, or soon will."""
    tones = [tone for _, tone, _ in (certificate_state(c, day) for c in volunteer.certificates)]
    return "danger" if "danger" in tones else "warning" if "warning" in tones else "faint"


def _known(volunteer: Volunteer, hours: Totals, day: date) -> list[str]:
    known = [hours_in_words(hours, day)]
    if volunteer.skills:
        known.append(skills_in_words(volunteer))
    return [
        *known,
        *(certificate_in_words(paper, day) for paper in volunteer.certificates),
    ]


def hours_in_words(hours: Totals, day: date) -> str:
    """ "12 h this month, 40 h this year, 400 h in all"."""
    month, year, in_all = hours.around(day)
    return f"{month:.10g} h this month, {year:.10g} h this year, {in_all:.10g} h in all"


def skills_in_words(volunteer: Volunteer) -> str:
    """ "skills: joinery and metalwork"."""
    return f"skills: {listed(volunteer.skills)}"


def certificate_state(certificate: Certificate, day: date) -> tuple[str, Tone, str]:
    """The word of its state on that day, the tone of that, and until when it is good."""
    until = certificate.until
    if certificate.since is not None and day < certificate.since:
        return "not yet", "faint", f"good from {day_in_words(certificate.since)}"
    if until is None:
        return _without_end(certificate, day)
    if until < day:
        return "LAPSED", "danger", f"was good until {day_in_words(until)}"
    if until <= day + SOON:
        return "lapses soon", "warning", f"good until {day_in_words(until)}"
    return "good", "safe", f"until {day_in_words(until)}"


def _without_end(certificate: Certificate, day: date) -> tuple[str, Tone, str]:
    """A paper that bears no end is looked at each year."""
    until = looked_at_until(certificate)
    if until is None:
        return "look at it", "warning", "it has no date, and nobody said when it was seen"
    word = "good until a look on" if day <= until else "was to be looked at after"
    tone: Tone = "safe" if day <= until else "warning"
    return "good" if day <= until else "look at it", tone, f"{word} {day_in_words(until)}"


def certificate_line(certificate: Certificate, day: date) -> Line:
    """The state as a word, then the certificate."""
    word, tone, until = certificate_state(certificate, day)
    note = f" ({certificate.note})" if certificate.note else ""
    return Line(f"{certificate.kind}, {until}{note}", tone, 2, f"{word}:")


def certificate_in_words(certificate: Certificate, day: date) -> str:
    """ "LAPSED: first aid, was good until Sat 11 Apr 2026"."""
    line = certificate_line(certificate, day)
    return f"{line.word} {line.text}"
