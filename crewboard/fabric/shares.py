"""How much is original: by component and in all, each measure by itself, never mixed.

Shares are exact. Those of the sorts, with what nobody said, add up to one.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import NamedTuple

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.thing import NOWHERE, Makeup, Sort
from crewboard.plan.as_typed import Unread
from crewboard.plan.extent import ONE_PIECE, Basis, Extent, extent

ALL = ""  # in place of a component: the vehicle as a whole


class Share(NamedTuple):
    """How much of a component, or of all (`component` is empty), is of which sort.

    `amount` is counted in pieces, m, m² or m³, as `basis` says; `pieces` of them were counted.
    `sorts` are shares of it, at least so much of each; what they leave up to one is `open`. Of all
    at least `original` and at most `most_original` is original.
    """

    component: str
    basis: Basis
    amount: Fraction
    pieces: int
    sorts: Mapping[Sort, Fraction]
    most_original: Fraction

    @property
    def original(self) -> Fraction:
        return self.sorts.get("original", Fraction(0))

    @property
    def open(self) -> Fraction:
        return 1 - sum(self.sorts.values(), Fraction(0))


class Weighed(NamedTuple):
    """A piece as it is counted: how large, and what its place holds."""

    component: str
    extent: Extent
    makeup: Makeup


def shares(fabric: Fabric, only: Iterable[PieceRecord] | None = None) -> tuple[Share, ...]:
    """The shares by component in the order of the files, then of all; of `only` these pieces where
    they are named. Not counted are spares, made beside what the vehicle has, and later changes that
    were removed: nothing of the vehicle as it was built is missing there."""
    records = fabric.pieces.values() if only is None else only
    counted = [_counted(record) for record in records if _counts(record)]
    by_component: dict[tuple[str, Basis], list[Weighed]] = {}
    in_all: dict[tuple[str, Basis], list[Weighed]] = {}
    for one in counted:
        by_component.setdefault((one.component, one.extent.basis), []).append(one)
        in_all.setdefault((ALL, one.extent.basis), []).append(one)
    groups = (*by_component.items(), *in_all.items())
    return tuple(_share(component, basis, of_it) for (component, basis), of_it in groups)


def piece_extent(record: PieceRecord) -> Extent:
    """How large the piece is; one piece where nothing is said, or nothing that can be read."""
    try:
        size = extent(record.piece.extent) if record.piece.extent else ONE_PIECE
    except Unread:
        return ONE_PIECE
    return size if size.amount > 0 else ONE_PIECE


def makeup_of(record: PieceRecord) -> Makeup:
    """What the place holds now: what is gone and was not replaced is missing."""
    thing = record.current
    if thing.where in NOWHERE and thing.sort != "missing":
        return Makeup({"missing": Fraction(1)}, Fraction(0))
    return thing.makeup


def _counts(record: PieceRecord) -> bool:
    return not record.piece.spare and record.state != "later change, removed"


def _counted(record: PieceRecord) -> Weighed:
    return Weighed(record.piece.component, piece_extent(record), makeup_of(record))


def _share(component: str, basis: Basis, counted: list[Weighed]) -> Share:
    whole = sum((one.extent.amount for one in counted), Fraction(0))
    sorts: dict[Sort, Fraction] = {}
    most = Fraction(0)
    for one in counted:
        part = one.extent.amount / whole
        most += one.makeup.most_original * part
        for sort, share in one.makeup.least.items():
            sorts[sort] = sorts.get(sort, Fraction(0)) + share * part
    return Share(component, basis, whole, len(counted), sorts, most)
