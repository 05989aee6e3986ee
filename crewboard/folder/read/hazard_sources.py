"""The table of sources that come with the hazard sheets."""

import os
from functools import cache

from crewboard.folder.toml.decode import parse_toml
from crewboard.folder.toml.text import BrokenText
from crewboard.plan.source import SourceKind

_CREWBOARD = os.path.dirname(os.path.dirname(os.path.dirname(__file__)))
_TABLE = os.path.join(_CREWBOARD, "hazards", "sources", "sources.toml")


@cache
def source_kinds() -> tuple[SourceKind, ...]:
    """The kinds in the order of the table. Raises OSError where the program is not whole."""
    with open(_TABLE, "rb") as file:
        values = parse_toml(file.read())
    if isinstance(values, BrokenText):
        raise ValueError(f"sources.toml: {values.line}:{values.column} {values.sentence}")
    return tuple(
        SourceKind(kind, row["says"], row["takes"], tuple(row["sources"]))
        for kind, row in values.items()
    )
