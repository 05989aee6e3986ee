"""A hazard sheet, each number with its source and mark."""

from collections.abc import Iterable, Iterator, Mapping

from crewboard.order.said import day_in_words, listed
from crewboard.plan.hazard import CAUTION, EVERY_IN_WORDS, Check, Hazard, Law, Number
from crewboard.telling.line import GAP, Line, Tone, title

_READ = ("verified", "second-hand")  # marks of what somebody looked up


def hazard_lines(hazard: Hazard, sheets: Mapping[str, Hazard]) -> Iterator[Line]:
    """The whole sheet; `sheets` are all, by which it names the others."""
    yield title(hazard.name, "warning")._replace(handle=hazard.id)
    yield Line(CAUTION, "faint")
    yield from _chapter("Risks", map(hazard.told, hazard.harm))
    for when in ("before", "during", "after"):
        checks = [check for check in hazard.checks if check.when == when]
        if checks:
            yield from (GAP, title(f"{when.capitalize()} the work"))
            yield from (_check(hazard, check) for check in checks)
    yield GAP
    yield from limits(hazard, sheets)
    yield from _chapter("If it goes wrong", map(hazard.told, hazard.if_wrong))
    yield from numbers(hazard)
    yield from _chapter("Law", (_law(hazard, law) for law in hazard.laws))


def _chapter(heading: str, texts: Iterable[str]) -> Iterator[Line]:
    points = [_point(text) for text in texts]
    if points:
        yield from (GAP, title(heading), *points)


def _point(text: str, tone: Tone = "plain") -> Line:
    return Line(text, tone, 2, "-")


def limits(hazard: Hazard, sheets: Mapping[str, Hazard]) -> Iterator[Line]:
    """Gear, people, certificates, clocks, what may not happen near it, and what prevails."""
    clocks = [(c.kind, rule) for c in hazard.clocks if (rule := hazard.ruling(c)) is not None]
    facts: tuple[tuple[str, str, Tone], ...] = (
        ("gear", listed(map(hazard.told, hazard.gear)), "must"),
        ("least people", str(hazard.people) if hazard.people > 1 else "", "must"),
        ("watched by", f"a {hazard.watch}, on nothing else" if hazard.watch else "", "must"),
        ("certificates", listed(f"{c.kind} ({c.who})" for c in hazard.certificates), "must"),
        ("clocks", listed(f"{kind} {rule.amount}" for kind, rule in clocks), "warning"),
        ("not near", _named(hazard.not_near, sheets), "danger"),
        ("not after", _named(hazard.not_after, sheets), "danger"),
        ("under 18", "" if hazard.under_18 else _no_minors(hazard), "danger"),
        ("overrides this sheet", "; ".join(hazard.prevail), "strong"),
    )
    yield from (Line(text, tone, 0, f"{name}:") for name, text, tone in facts if text)
    for change in hazard.weakened:
        on = f" on {day_in_words(change.on)}" if change.on else ""
        yield Line(change.what, "warning", 0, "less than the usual:")
        yield Line(f"decided by {change.decided_by}{on}: {change.why}", indent=2)


def _named(ids: Iterable[str], sheets: Mapping[str, Hazard]) -> str:
    return listed(sheets[i].short if i in sheets else i.replace("-", " ") for i in ids)


def _no_minors(hazard: Hazard) -> str:
    why = hazard.told(hazard.under_18_why)
    says = f"not allowed: {why}" if why else "not allowed"
    return f"{says.rstrip('.')}, unless a lead records it as training." if hazard.training else says


def if_it_goes_wrong(hazard: Hazard) -> Iterator[Line]:
    """What to do then."""
    if hazard.if_wrong:
        yield Line("If it goes wrong:", "strong")
        yield from (_point(hazard.told(text)) for text in hazard.if_wrong)


def numbers(hazard: Hazard) -> Iterator[Line]:
    """Where the sheet's numbers come from."""
    if hazard.numbers:
        yield Line("numbers:")
        yield from (_point(number_in_words(hazard, number), "faint") for number in hazard.numbers)


def number_in_words(hazard: Hazard, number: Number) -> str:
    """ "the fire watch stays at least 60 min after the work (source, edition, where, read on ...;
    verified)"."""
    was_read = number.read if number.mark in _READ else None  # a rule of one's own is not read
    read = f", read {day_in_words(was_read)}" if was_read else ""
    source = f"{number.source}, {number.edition}" if number.edition else number.source
    mark = _mark(number.mark)
    return f"{hazard.sentence(number)} ({source}, {number.where}{read}; {mark})"


def _mark(mark: str) -> str:
    return "unverified: from memory" if mark == "from memory" else mark


def _check(hazard: Hazard, check: Check) -> Line:
    signs = {"anyone": "", "lead": ", by a lead"}.get(check.signs, f', with "{check.signs}"')
    text = f"{check.short}: {hazard.told(check.text)} (signed {EVERY_IN_WORDS[check.every]}{signs})"
    return _point(text)


def _law(hazard: Hazard, law: Law) -> str:
    return f"{law.where}: {hazard.told(law.says)} ({law.source}, {law.edition}; {_mark(law.mark)})"
