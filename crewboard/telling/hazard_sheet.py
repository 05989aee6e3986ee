"""A hazard sheet, each number with its source and mark."""

from collections.abc import Iterable, Iterator, Mapping

from crewboard.order.said import day_in_words, listed
from crewboard.plan.hazard import ANYWHERE, CAUTION, EVERY_IN_WORDS, Check, Hazard, Law, Number
from crewboard.telling.bench_card import card_lines
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.report import Chapter

_CAUTION = Line(CAUTION, "faint")
_NUMBERS = Line("", word="numbers:")
_READ = ("verified", "second-hand")  # marks of what somebody looked up


def hazard_lines(hazard: Hazard, sheets: Mapping[str, Hazard]) -> Iterator[Line]:
    """The whole sheet; `sheets` are all, by which it names the others."""
    yield title(hazard.name, "warning")
    if hazard.card or hazard.do_not_use:
        yield from card_lines(hazard, named=False)
        yield from (GAP, title("The whole sheet"))
    yield _CAUTION
    yield from _chapter("Risks", map(hazard.told, hazard.harm))
    for when in ("before", "during", "after"):
        checks = [check for check in hazard.checks if check.when == when]
        if checks:
            yield from (GAP, title(f"{when.capitalize()} the work"))
            yield from (_check(hazard, check) for check in checks)
    yield from (GAP, title("Gear, people, limits"))
    yield from limits(hazard, sheets)
    yield from _chapter("If it goes wrong", map(hazard.told, hazard.if_wrong))
    yield from _chapter("First aid", (_said(hazard, advice) for advice in hazard.first_aid))
    yield from laws(hazard)
    yield GAP
    yield from numbers(hazard)


def hazard_chapter(hazard: Hazard, sheets: Mapping[str, Hazard]) -> Chapter:
    """The whole sheet to print, without the caution: what its headings head as parts."""
    parts: list[tuple[str, list[Line]]] = []
    for line in list(hazard_lines(hazard, sheets))[1:]:
        if line.bold or line == _NUMBERS:
            parts.append((line.text or line.word.rstrip(":").capitalize(), []))
        elif line not in (GAP, _CAUTION):
            if not parts:
                parts.append(("", []))
            parts[-1][1].append(line)
    return Chapter(hazard.name, parts=tuple(Chapter(h, tuple(points)) for h, points in parts))


def laws(hazard: Hazard) -> Iterator[Line]:
    """What the law says, that of the folder's jurisdiction first."""
    if not hazard.here:
        yield from _chapter("Law", (_said(hazard, law) for law in hazard.laws))
        if hazard.laws:
            yield Line(_WHOSE, "faint", 2)
        return
    yield from (GAP, title(f"Law, {hazard.here}"))
    if not any(law.where == hazard.here for law in hazard.laws):
        yield Line(nothing_written(hazard.here), "warning", 2)
    yield from (_point(_said(hazard, law)) for law in hazard.laws_here)
    yield from _chapter("Law elsewhere", (_said(hazard, law) for law in hazard.laws_elsewhere))


_WHOSE = "Whose law is yours? jurisdiction in vehicle.toml says it, and it then stands first."


def nothing_written(where: str) -> str:
    """That the sheets quote no law of this jurisdiction."""
    return f"Nothing is written here for {where}: look up what its law asks."


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
        yield _NUMBERS
        elsewhere = (hazard.here, ANYWHERE) if hazard.here else ()
        here = sorted(hazard.numbers, key=lambda n: bool(elsewhere) and n.where not in elsewhere)
        yield from (_point(number_in_words(hazard, number), "faint") for number in here)


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


def _said(hazard: Hazard, law: Law) -> str:
    """What a law or an advice says, whose it is, where it stands and how surely that is known."""
    source = ", ".join(filter(None, (law.source, law.edition)))
    read = f", read {day_in_words(law.read)}" if law.read and law.mark in _READ else ""
    borrowed = f"; borrowed as practice: written for {law.borrowed}" if law.borrowed else ""
    whose = "" if law.where == ANYWHERE else f"{law.where}: "
    return f"{whose}{hazard.told(law.says)} ({source}{read}; {_mark(law.mark)}{borrowed})"
