"""The crew as rows: who is here, who is expected, hours, and papers that lapse."""

from __future__ import annotations

from datetime import date, timedelta

from crewboard.order.board import Board
from crewboard.order.expected import expected_on
from crewboard.order.said import day_in_words, person
from crewboard.paper.hours import Totals, totals
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.telling.line import Tone
from crewboard.telling.row import Row, heading
from crewboard.terminal.widgets.rows import Column

COLUMNS = (
    Column(13),
    Column(),
    Column(8, right=True),
    Column(8, right=True),
    Column(8, right=True),
)
HEADS = ("", "", "month", "year", "in all")
SOON = timedelta(days=60)  # about four work days of a crew that meets twice a month
NOTHING = Totals({}, {}, 0.0, 0)


def crew_rows(board: Board) -> list[Row]:
    """Who is here first, then who is expected today, who went again, the others."""
    day = board.at.date()
    worked = totals(board.logbook, board.at)
    here = {visit.who: visit for visit in board.present}
    left = {visit.who: visit.until for visit in board.history.visits if visit.until is not None}
    said = expected_on(board.logbook, day)
    groups: dict[str, list[Row]] = {}
    for volunteer in board.plan.crew.values():
        who, tone, word = volunteer.id, "plain", ""
        if who in here:
            group, tone, word = "Here", "safe", f"since {here[who].since:%H:%M}"
        elif not volunteer.with_us_on(day):
            group, tone, word = "Not with the crew now", "faint", _gone(volunteer, day)
        elif who in left:
            group, tone, word = "Was here today", "plain", f"left {left[who]:%H:%M}"
        elif who in said and said[who].coming:
            group, tone, word = "Expected today", "must", "expected"
        elif who in said:
            group, tone, word = "Not here", "faint", "not coming"
        else:
            group, tone, word = "Not here", "faint", "not here"
        row = _row(board, volunteer, word, tone, worked.get(who, NOTHING))
        groups.setdefault(group, []).append(row)
    strangers = [who for who in worked if who not in board.plan.crew]
    if strangers:
        groups["In the logbook, not in crew.toml"] = [
            Row(who, ("unknown", who, *_hours(worked[who], day)), "warning") for who in strangers
        ]
    rows: list[Row] = []
    tones = {"Here": "safe", "Expected today": "must"}
    for head in (
        "Here",
        "Expected today",
        "Was here today",
        "Not here",
        "Not with the crew now",
        *groups,
    ):
        if found := groups.pop(head, None):
            rows += [heading(f"{head} ({len(found)})", tones.get(head, "faint")), *found]
    return rows


def _row(board: Board, volunteer: Volunteer, word: str, tone: Tone, worked: Totals) -> Row:
    day = board.at.date()
    marks = ["lead"] if volunteer.lead else []
    marks += ["under 18"] if volunteer.minor_on(day) else []
    if volunteer.needs_beside:
        marks.append(f"{person(board.plan, volunteer.needs_beside)} beside")
    name = f"{volunteer.name} ({', '.join(marks)})" if marks else volunteer.name
    papers = [paper for c in volunteer.certificates if (paper := warned(c, day))]
    find = " ".join((*volunteer.skills, *(c.kind for c in volunteer.certificates), volunteer.id))
    below = tuple(papers) if volunteer.with_us_on(day) else ()
    return Row(volunteer.id, (word, name, *_hours(worked, day)), tone, below, find=find)


def _gone(volunteer: Volunteer, day: date) -> str:
    if volunteer.joined is not None and day < volunteer.joined:
        return "comes later"
    return f"left {volunteer.left:%m/%Y}" if volunteer.left else "left"


def _hours(worked: Totals, day: date) -> tuple[str, str, str]:
    month = worked.months.get(f"{day:%Y-%m}", 0.0)
    year = worked.years.get(day.year, 0.0)
    return tuple(f"{h:.10g} h" if h else "-" for h in (month, year, worked.in_all))  # type: ignore[return-value]


def warned(certificate: Certificate, day: date) -> str:
    """ "fit test LAPSED 11 Apr 2026", "first aid lapses ..."; empty while it is good for longer."""
    until = certificate.until
    if until is None or until > day + SOON:
        return ""
    if until < day:
        return f"{certificate.kind}: LAPSED {day_in_words(until)}"
    return f"{certificate.kind}: lapses soon, {day_in_words(until)}"
