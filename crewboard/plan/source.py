"""Sources that are quoted, by what it takes to verify what they say."""

from collections.abc import Iterable
from typing import NamedTuple


class SourceKind(NamedTuple):
    """Sources of one kind, each by the words that its name begins with."""

    id: str
    says: str  # what they are: "laws, free to read"
    takes: str  # what it would take to verify what they are quoted for
    sources: tuple[str, ...] = ()


UNKNOWN = SourceKind("other", "other sources", "look where the sheet says that it stands")


def kind_of(source: str, kinds: Iterable[SourceKind]) -> SourceKind:
    """The kind whose name fits the source best; `UNKNOWN` where none does."""
    fitting = ((len(s), k) for k in kinds for s in k.sources if source.startswith(s))
    return max(fitting, key=lambda pair: pair[0], default=(0, UNKNOWN))[1]
