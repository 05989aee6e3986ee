"""The crew in plain lines."""

from __future__ import annotations

from crewboard.order.board import Board
from crewboard.order.said import day_in_words, listed, person
from crewboard.paper.hours import Totals, totals
from crewboard.paper.plain import Paper
from crewboard.plan.volunteer import Certificate, Volunteer

_NOTHING = Totals({}, {}, 0.0, 0)


def crew_lines(board: Board, width: int) -> list[str]:
    """Everybody with the crew on that day, and after them who has left."""
    from crewboard.order.safety.certificates import lapses

    paper = Paper(width)
    day = board.at.date()
    found = totals(board.logbook, board.at)
    ours = [each for each in board.plan.crew.values() if each.with_us_on(day)]
    for volunteer in ours:
        _volunteer(paper, board, volunteer, found.get(volunteer.id, _NOTHING))
    left = [each.name for each in board.plan.crew.values() if not each.with_us_on(day)]
    if left:
        paper.heading(f"Not with the crew on {day_in_words(day)}: {listed(left)}.")
    strangers = [who for who in found if who not in board.plan.crew]
    if strangers:
        paper.line(f"In the logbook, not in crew.toml: {listed(strangers)}.", hang=2)
    told = lapses(board)
    if told:
        paper.heading("Certificates")
        paper.items(each.says for each in told)
    return paper.lines


def _volunteer(paper: Paper, board: Board, volunteer: Volunteer, worked: Totals) -> None:
    day = board.at.date()
    here = next((v for v in board.present if v.who == volunteer.id), None)
    marks = [f"here since {here.since:%H:%M}"] if here else []
    marks += ["lead"] if volunteer.lead else []
    marks += ["under 18"] if volunteer.minor_on(day) else []
    if volunteer.needs_beside:
        marks.append(f"needs {person(board.plan, volunteer.needs_beside)} beside")
    said = f" ({', '.join(marks)})" if marks else ""
    paper.line(f"{volunteer.name}  [{volunteer.id}]{said}", hang=2)
    month = worked.months.get(f"{day:%Y-%m}", 0.0)
    year = worked.years.get(day.year, 0.0)
    paper.line(
        f"{month:g} h this month, {year:g} h this year, {worked.in_all:g} h in all", indent=4
    )
    if volunteer.skills:
        paper.line(f"skills: {listed(volunteer.skills)}", indent=4, hang=2)
    if volunteer.certificates:
        papers = listed(_paper(board, each) for each in volunteer.certificates)
        paper.line(f"certificates: {papers}", indent=4, hang=2)


def _paper(board: Board, certificate: Certificate) -> str:
    if certificate.until is None:
        return certificate.kind
    lapsed = "lapsed" if certificate.until < board.at.date() else "until"
    return f"{certificate.kind} ({lapsed} {day_in_words(certificate.until)})"
