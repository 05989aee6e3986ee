"""What the record lacks, in words: one sentence for each gap, which says what would close it."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from crewboard.fabric.fabric import Fabric
from crewboard.fabric.gaps import Gap
from crewboard.logbook.entry import Entry
from crewboard.order.admit.contradicted import doing
from crewboard.order.said import day_in_words, how_many, piece_name
from crewboard.telling.line import GAP, Line, title

NOTHING_TREATED = "Nothing was done to any piece yet, so nothing is missing."
NOTHING_MISSING = "Of every piece to which something was done, all that is asked is on record."


def gap_lines(
    fabric: Fabric, lists: Mapping[str, Iterable[Gap]], *, any_treated: bool
) -> list[Line]:
    """The gaps piece by piece, in the order that is handed in."""
    if not lists:
        return [Line(NOTHING_MISSING if any_treated else NOTHING_TREATED)]
    lines = list[Line]()
    for piece, of_it in lists.items():
        sentences = [gap_in_words(fabric, gap) for gap in of_it]
        name = piece_name(fabric.plan, piece)
        heading = f"{name}: {how_many(len(sentences), 'gap')}"
        lines.append(title(heading)._replace(handle=piece))
        lines += [Line(sentence, "plain", 2, "-") for sentence in sentences]
        lines.append(GAP)
    return lines[:-1]


def file_lines(amiss: Iterable[tuple[str, str]]) -> list[Line]:
    """Files that were taken in and are not as they were, each with what mends it."""
    lines = [Line(f"{says}: {mend}.", "warning", 2, "-") for says, mend in amiss]
    return [GAP, title(f"Files that were taken in: {len(lines)}"), *lines] if lines else []


def gap_in_words(fabric: Fabric, gap: Gap) -> str:
    """What would close the gap, in one sentence."""
    return SENTENCES[gap.code].format(
        did=doing(gap.entry) if gap.entry else "changed",
        when=_when(fabric, gap.entry),
        old="the old " if gap.thing < fabric.pieces[gap.piece].current.number else "",
        piece=gap.piece,
        named=piece_name(fabric.plan, gap.piece),
        what=gap.words,
    )


SENTENCES = {
    "as found": "Say how it was found: what was seen, or its condition.",
    "who": "Say who did it: {did} {when}.",
    "why": "Give the reason: {did} {when}.",
    "before": "Find a picture of it from before it was {did} {when}.",
    "hidden": "Find a picture of it while it could be seen: it was closed in {when}.",
    "after": "Take a picture of it as it is now: it was {did} {when}.",
    "materials": 'Say what was put in, or "none": {did} {when}.',
    "batch": "Say from whom and of which batch: {what}, {did} {when}.",
    "share": "Say how much of the old was kept: {did} {when}.",
    "how replaced": "Say whether the new one is in kind, in other material or a copy, and of what "
    "evidence: {did} {when}.",
    "grade": "Say how well the copy is borne out, A to E: {did} {when}.",
    "evidence": "Name the findings, photographs or papers that bear the copy out: {did} {when}.",
    "mark": "Mark the new part, and say where and how: {did} {when}.",
    "where": "Say where {old}{named} is: {did} {when}.",
    "cut out": "Say where the part is that was cut out of {named}: {did} {when}.",
    "agreed": "Say which two agreed to it: {did} {when}.",
    "to whom": "Say to whom it was given: {did} {when}.",
}


def _when(fabric: Fabric, entry: Entry | None) -> str:
    moment: datetime = entry.at if entry else fabric.at
    return f"on {day_in_words(moment)}"
