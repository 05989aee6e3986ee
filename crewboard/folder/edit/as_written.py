"""What stands in a plan's file as it was written, before anything was made of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from crewboard.folder.edit.plan_edits import Key, Thing, address_of
from crewboard.folder.read.folder import Folder
from crewboard.folder.toml.decode import parse_toml
from crewboard.folder.toml.meant import exists, value_at
from crewboard.folder.toml.text import BrokenText
from crewboard.plan.plan import Plan


def written_table(folder: Folder, thing: Thing, some_id: str) -> dict[str, Any]:
    """The table of something in its file; empty where it cannot be read."""
    place = address_of(thing, some_id)
    values = parse_toml(folder.data(place.file))
    if isinstance(values, BrokenText) or not exists(values, place.path):
        return {}
    table = value_at(values, place.path)
    return table if isinstance(table, dict) else {}


def said_alone(
    folder: Folder, plan: Plan, piece_id: str, values: Mapping[Key, Any]
) -> dict[Key, Any]:
    """What a piece says by itself. For one of several: nothing where it is as its table says of
    all, and an empty word where what is so of all is not so of it. Others are given as they are."""
    piece = plan.pieces.get(piece_id)
    if piece is None or not piece.several:
        return dict(values)
    usual = written_table(folder, "piece", piece.several)
    return {key: _alone(str(key), value, usual.get(str(key))) for key, value in values.items()}


def _alone(key: str, value: object, usual: object) -> object:
    if value not in (None, ()):
        return None if value == usual else value
    if not usual:
        return None
    return {"as_found": "unknown", "keep": False}.get(key, "")
