"""What a reckoning comes to: the result, how it came, on whose word, what it takes for granted."""

from collections.abc import Mapping
from typing import NamedTuple

from crewboard.plan.hazard import Mark
from crewboard.trade.boards.drawn import DrawnBoard


class Source(NamedTuple):
    """On whose word a formula or a number rests; one from memory is shown as unverified."""

    says: str
    where: str
    mark: Mark

    @property
    def in_words(self) -> str:
        """ "board feet are T x W x L / 144 (timber trade; common practice, no source)"."""
        mark = _MARKS.get(self.mark, self.mark)
        return f"{self.says} ({f'{self.where}; ' if self.where else ''}{mark})"


_MARKS: dict[Mark, str] = {
    "from memory": "unverified: from memory",
    "common practice": "common practice, no source",
}


def geometry(says: str) -> Source:
    """What follows from geometry or arithmetic alone: whoever doubts it can work it out again."""
    return Source(says, "worked out here", "verified")


class Reckoning(NamedTuple):
    """The first line of `result` is the answer in one line, the rest belongs to it; `further` are
    other answers than the one that was asked for.

    `cautions` are words for the worker, `dangers` those of them by which somebody is hurt: the
    safety talk says them too. `hazards` name sheets that have more to say. `laid` are boards side
    by side, which `boards/drawn.py` draws to scale. The same given and known gives the same answer.
    """

    result: tuple[str, ...]
    how: tuple[str, ...] = ()
    sources: tuple[Source, ...] = ()
    assumes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    figures: Mapping[str, object] = {}  # named with their unit: {"radius_mm": 2590.8}
    laid: tuple[DrawnBoard, ...] = ()
    dangers: tuple[str, ...] = ()
    further: tuple[str, ...] = ()
