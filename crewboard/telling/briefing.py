"""The day's safety talk, to be read out, printed or hung up."""

from collections.abc import Iterator

from crewboard.order.safety.briefing import Briefing, Danger, ToSign
from crewboard.order.said import day_in_words, listed
from crewboard.plan.hazard import CAUTION
from crewboard.telling.line import Line, Tone
from crewboard.telling.report import Chapter, Sheet, points

_NOBODY = "nobody"
_MISSING = "not written down: add it to vehicle.toml"
# What weighs most in what is said of a hazard: what must be done, and what may not.
_TONES: dict[str, Tone] = {
    "gear": "must",
    "needs": "must",
    "not allowed": "danger",
    "keep away from": "danger",
}


def briefing_sheet(talk: Briefing) -> Sheet:
    """The whole talk: whom to call, who is here, what must end when, then each hazard."""
    chapters = (*_of_the_day(talk), *(_of_a_hazard(danger) for danger in talk.dangers))
    name = f"Safety talk, {day_in_words(talk.day)}: {talk.vehicle}"
    return Sheet(name, CAUTION, tuple(chapter for chapter in chapters if chapter.points))


def _of_the_day(talk: Briefing) -> Iterator[Chapter]:
    yield Chapter("In an emergency", _facts(emergency(talk)), "must")
    yield Chapter("People", _facts(_people(talk)))
    yield Chapter("What must end when", points(talk.must_end), "warning")
    yield Chapter("Still running", points(talk.running), "warning")
    yield Chapter("Leave alone", points(talk.leave_alone), "danger")
    yield Chapter("Today's work", points(_work(talk)))
    yield Chapter("Reckoned for it", points(talk.reckoned, "warning"), "warning")


def _facts(facts: Iterator[tuple[str, str]]) -> tuple[Line, ...]:
    return tuple(Line(fact, _TONES.get(word, "plain"), 0, f"{word}:") for word, fact in facts)


def emergency(talk: Briefing) -> Iterator[tuple[str, str]]:
    """Whom to call, where to meet, who gives first aid: each with its word."""
    shop = talk.shop
    yield "call", shop.emergency or _MISSING
    yield "hospital", shop.hospital or _MISSING
    yield "say where", shop.address or _MISSING
    yield "meet at", shop.meeting_place or _MISSING
    yield "first-aid kit", shop.first_aid or _MISSING
    yield "first-aiders", listed(talk.first_aiders) or _NOBODY
    yield "first-aider today", talk.first_aider or "not named yet: sign the opening checks"


def _people(talk: Briefing) -> Iterator[tuple[str, str]]:
    yield "here" if talk.here else "in the crew", listed(talk.people) or _NOBODY
    if talk.expected:
        yield "expected", listed(talk.expected)
    yield "leads", listed(talk.leads) or _NOBODY
    if talk.under_18:
        yield "under 18", listed(talk.under_18)
    if talk.openings:
        yield "the shop is open", listed(map(str, talk.openings))


def _work(talk: Briefing) -> Iterator[str]:
    """Dangerous work first, each on its line; the rest together."""
    quiet = []
    for name, place, dangers in talk.work:
        where = f"{name} ({place})" if place else name
        if dangers:
            yield f"{where}: {dangers}"
        else:
            quiet.append(where)
    if quiet:
        yield f"no hazards listed for: {'; '.join(quiet)}"


def _of_a_hazard(danger: Danger) -> Chapter:
    parts = (_checks(danger, when) for when in ("before", "during", "after"))
    asked = tuple(part for part in parts if part.points)
    return Chapter(danger.hazard.name, _facts(_hazard(danger)), parts=asked)


def _checks(danger: Danger, when: str) -> Chapter:
    to_sign = (asking for asking in danger.to_sign if asking.check.when == when)
    return Chapter(f"{when} the work", points(map(_check, to_sign)))


def _hazard(danger: Danger) -> Iterator[tuple[str, str]]:
    if danger.hazard.concerns == "minors":
        yield "work", "all that somebody under 18 takes part in"
    else:
        yield "work", listed(f'"{name}"' for name in danger.tasks)
    yield "risks", " ".join(danger.harm)
    if danger.gear:
        yield "gear", "; ".join(danger.gear)
    if danger.needs:
        yield "needs", "; ".join(danger.needs)
    yield "may do it", listed(danger.may) or _NOBODY
    if danger.may_not:
        yield "not allowed", "; ".join(f"{name} ({why})" for name, why in danger.may_not)
    if danger.keep_away:
        yield "keep away from", "; ".join(danger.keep_away)
    if danger.if_wrong:
        yield "if it goes wrong", " ".join(danger.if_wrong)
    for change in danger.hazard.weakened:
        yield "less than the usual", f"{change.what}; decided by {change.decided_by}: {change.why}"
    if danger.hazard.prevail:
        yield "overrides this sheet", "; ".join(danger.hazard.prevail)


def _check(to_sign: ToSign) -> str:
    if to_sign.check.signs == "anyone":
        return to_sign.says
    return f"{to_sign.says} ({to_sign.rule}: {listed(to_sign.able) or _NOBODY})"
