"""The day's safety talk on paper: as plain lines, and as a page to print."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.safety.briefing import Briefing, Danger, ToSign
from crewboard.order.said import day_in_words, listed
from crewboard.paper.page import html_page, points, section
from crewboard.paper.plain import Paper
from crewboard.plan.hazard import CAUTION

NOBODY = "nobody"


def briefing_lines(talk: Briefing, width: int = 80) -> list[str]:
    """The talk as lines of at most `width` columns."""
    paper = Paper(width)
    paper.line(_title(talk))
    paper.line(CAUTION)
    for heading, told in _chapters(talk):
        paper.heading(heading)
        paper.items(told)
    for danger in talk.dangers:
        paper.heading(danger.hazard.name)
        for name, says in _facts(danger):
            paper.line(f"{name}: {says}", indent=2, hang=2)
        for when in ("before", "during", "after"):
            checks = [each for each in danger.to_sign if each.check.when == when]
            if checks:
                paper.line(f"{when} the work:", indent=2)
                paper.items(map(_check, checks), indent=4)
    return paper.lines


def briefing_page(talk: Briefing) -> str:
    """The talk as one HTML page to print: no scripts, nothing fetched, every text escaped."""
    body = [section(heading, points(told)) for heading, told in _chapters(talk)]
    for danger in talk.dangers:
        told = points(f"{name}: {says}" for name, says in _facts(danger))
        for when in ("before", "during", "after"):
            checks = [each for each in danger.to_sign if each.check.when == when]
            if checks:
                told += section(f"{when.capitalize()} the work", points(map(_check, checks)), 3)
        body.append(section(danger.hazard.name, told))
    return html_page(_title(talk), CAUTION, "".join(body))


def _title(talk: Briefing) -> str:
    return f"Safety talk, {day_in_words(talk.day)}: {talk.vehicle}"


def _chapters(talk: Briefing) -> Iterator[tuple[str, list[str]]]:
    """Each heading with its points, those without any left out."""
    shop = talk.shop
    emergency = [
        ("call", shop.emergency or "not written down: add it to vehicle.toml"),
        ("say where", shop.address or "not written down: add it to vehicle.toml"),
        ("meet at", shop.meeting_place or "not written down: add it to vehicle.toml"),
        ("first-aid kit", shop.first_aid or "not written down: add it to vehicle.toml"),
        ("first-aiders", listed(talk.first_aiders) or NOBODY),
    ]
    yield "In an emergency", [f"{name}: {says}" for name, says in emergency]
    people = [("here" if talk.here else "of the crew", listed(talk.people) or NOBODY)]
    if talk.expected:
        people.append(("expected", listed(talk.expected)))
    people.append(("leads", listed(talk.leads) or NOBODY))
    if talk.under_18:
        people.append(("under 18", listed(talk.under_18)))
    if talk.openings:
        opened = listed(map(str, talk.openings))
        people.append(("the shop is open", opened))
    yield "People", [f"{name}: {says}" for name, says in people]
    others = (
        ("What must end when", list(talk.must_end)),
        ("Still running", list(talk.running)),
        ("Leave alone", list(talk.leave_alone)),
        ("Today's work", list(_work(talk))),
    )
    for heading, told in others:
        if told:
            yield heading, told


def _work(talk: Briefing) -> Iterator[str]:
    """Dangerous work first, each on its line; the rest together."""
    quiet = []
    for title, place, dangers in talk.work:
        where = f"{title} ({place})" if place else title
        if dangers:
            yield f"{where}: {dangers}"
        else:
            quiet.append(where)
    if quiet:
        yield f"no danger is named for: {'; '.join(quiet)}"


def _facts(danger: Danger) -> Iterator[tuple[str, str]]:
    if danger.hazard.concerns == "minors":
        yield "work", "all that somebody under 18 takes part in"
    else:
        yield "work", listed(f'"{title}"' for title in danger.tasks)
    yield "can happen", " ".join(danger.harm)
    if danger.gear:
        yield "gear", "; ".join(danger.gear)
    if danger.needs:
        yield "needs", "; ".join(danger.needs)
    yield "may do it", listed(danger.may) or NOBODY
    if danger.may_not:
        yield "may not", "; ".join(f"{name} ({why})" for name, why in danger.may_not)
    if danger.keep_away:
        yield "keep away from", "; ".join(danger.keep_away)
    if danger.if_wrong:
        yield "if it goes wrong", " ".join(danger.if_wrong)
    for each in danger.hazard.weakened:
        yield "less than the usual", f"{each.what}; decided by {each.decided_by}: {each.why}"
    if danger.hazard.prevail:
        yield "goes before this", "; ".join(danger.hazard.prevail)


def _check(each: ToSign) -> str:
    if each.check.signs == "anyone":
        return each.says
    return f"{each.says} ({each.rule}: {listed(each.able) or NOBODY})"
