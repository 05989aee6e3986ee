"""What nobody has verified in the hazard sheets, by what it would take to verify it."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from crewboard.order.said import how_many
from crewboard.plan.hazard import Hazard, Mark
from crewboard.plan.source import SourceKind, kind_of
from crewboard.telling.line import GAP, Line, title

_VERIFIED: tuple[Mark, ...] = ("verified", "crew's rule")  # a rule of one's own has no other source


class Unverified(NamedTuple):
    """A sentence that waits for somebody to look its source up."""

    kind: SourceKind
    source: str
    edition: str
    hazard: Hazard
    says: str
    mark: Mark


def unverified(hazards: Iterable[Hazard], kinds: Sequence[SourceKind]) -> list[Unverified]:
    """Every number, law, duty to report and first aid that is not verified, in the order of the
    kinds; those sources first for which most waits."""
    practice = next((kind for kind in kinds if kind.id == "practice"), None)
    found = []
    for hazard in hazards:
        for source, edition, says, mark in _quoted(hazard):
            if mark not in _VERIFIED:
                kind = practice if mark == "common practice" else None
                kind = kind or kind_of(source, kinds)
                found.append(Unverified(kind, source, edition, hazard, says, mark))
    order = {kind.id: place for place, kind in enumerate(kinds)}
    waiting: dict[str, int] = {}
    for each in found:
        waiting[each.source] = waiting.get(each.source, 0) + 1
    last = len(order)
    return sorted(
        found, key=lambda e: (order.get(e.kind.id, last), -waiting[e.source], e.source, e.edition)
    )


def _quoted(hazard: Hazard) -> Iterator[tuple[str, str, str, Mark]]:
    for number in hazard.numbers:
        yield number.source, number.edition, hazard.sentence(number), number.mark
    for law in (*hazard.laws, *hazard.reporting, *hazard.first_aid):
        yield law.source, law.edition, hazard.told(law.says), law.mark


def unverified_lines(found: Sequence[Unverified]) -> Iterator[Line]:
    """Kind by kind and source by source, each sentence with its sheet and its mark."""
    if not found:
        yield Line("Everything the sheets quote was looked up where it stands.")
    sources = how_many(len({each.source for each in found}), "source")
    if found:
        yield Line(f"{how_many(len(found), 'sentence')} from {sources} wait to be verified.")
    kind = source = ""
    for each in found:
        if each.kind.id != kind:
            kind, source = each.kind.id, ""
            says = each.kind.says[:1].upper() + each.kind.says[1:]
            yield from (GAP, title(says), Line(f"{each.kind.takes}.", "faint", 2, "to verify:"))
        if (stands := f"{each.source}, {each.edition}".rstrip(", ")) != source:
            source = stands
            yield Line(source, "strong", 2, bold=True)
        yield Line(f"{each.hazard.short}: {each.says} ({each.mark})", "plain", 4, "-")
