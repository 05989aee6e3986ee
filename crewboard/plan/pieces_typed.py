"""Pieces as they are typed at the bench: "ribs 1 to 9, ridge, 7 arches + 1 spare"."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.piece import MOST_OF_A_KIND

AS_TYPED = "9 ribs, ridge, 7 arches + 1 spare"
"""An example of every way to type them."""

_SPARES = r"(?:\s*[+,]\s*|\s+and\s+|\s+)(\d{1,4})\s+spares?"
_COUNTED = rf"(\d{{1,4}})\s*[x×]?\s+(\S.*?)(?:{_SPARES})?"
_NUMBERED = rf"(\S.*?)\s+(\d{{1,4}})(?:\s*(?:to|-|–)\s*(\d{{1,4}}))?(?:{_SPARES})?"
# The endings of words for several, and what one of them ends in.
_PLURALS = (("ies", "y"), ("sses", "ss"), ("shes", "sh"), ("ches", "ch"), ("xes", "x"), ("s", ""))
_NOT_PLURAL = ("ss", "us", "is")


class TypedPieces(NamedTuple):
    """What was typed of one kind. `name` as typed, `first` to `last` their numbers; a single piece
    has `last` 0. `spares` stand behind the last number."""

    name: str
    first: int = 1
    last: int = 0
    spares: int = 0

    @property
    def of_one(self) -> str:
        """The name of one of them, with a capital: "Rib" for "ribs"."""
        name = _singular(self.name) if self.last else self.name
        return name[:1].upper() + name[1:]


def pieces_typed(text: str) -> list[TypedPieces]:
    """The kinds of pieces in a line, with commas between. Raises Unread."""
    kinds = list(map(_read, _parts(text)))
    if not kinds:
        raise Unread("nothing is written here", f"write {AS_TYPED}")
    names = [kind.name.casefold() for kind in kinds]
    for name in names:
        if names.count(name) > 1:
            raise Unread(f'"{name}" is written twice', "write each kind once")
    return kinds


def _parts(text: str) -> Iterator[str]:
    """What stands between the commas; spares after a comma belong to what stands before it."""
    part = ""
    for piece in text.split(","):
        if part and re.fullmatch(r"\s*\d{1,4}\s+spares?\s*", piece, re.IGNORECASE):
            piece, part = f"{part},{piece}", ""
        if part:
            yield part
        part = piece.strip()
    if part:
        yield part


def _read(part: str) -> TypedPieces:
    if counted := re.fullmatch(_COUNTED, part, re.IGNORECASE):
        count, name, spares = counted.groups()
        return _checked(part, TypedPieces(name, 1, int(count), int(spares or 0)))
    if numbered := re.fullmatch(_NUMBERED, part, re.IGNORECASE):
        name, one, last, spares = numbered.groups()
        first = int(one) if last else 1
        return _checked(part, TypedPieces(name, first, int(last or one), int(spares or 0)))
    if re.search(r"\w", part) is None or part[:1].isdigit():
        raise Unread(f'"{part}" names no piece', f"write {AS_TYPED}")
    return TypedPieces(part)


def _checked(part: str, kind: TypedPieces) -> TypedPieces:
    if re.search(r"\w", kind.name) is None or kind.name[:1].isdigit():
        raise Unread(f'"{part}" names no piece', f"write {AS_TYPED}")
    if not 1 <= kind.first <= kind.last or kind.last + kind.spares > MOST_OF_A_KIND:
        raise Unread(f'"{part}" is no number of pieces', f"write 1 to {MOST_OF_A_KIND} of a kind")
    return kind


def _singular(name: str) -> str:
    for many, one in _PLURALS:
        if name.casefold().endswith(many) and not name.casefold().endswith(_NOT_PLURAL):
            return name[: -len(many)] + one
    return name
