"""How far something is, as a bar of characters."""

from __future__ import annotations

from crewboard.telling.row import percent


def bar(share: float | None, width: int = 10, *, plain: bool = False) -> str:
    """ "██████░░░░  60 %", or "[######----]  60 %" for ASCII; blank where there is no clock."""
    if share is None:
        return ""
    # Full only at the end: a bar must not say that something is over before it is.
    filled = width if share >= 1 else min(width - 1, int(share * width))
    if plain:
        return f"[{'#' * filled}{'-' * (width - filled)}] {percent(share):3} %"
    return f"{'█' * filled}{'░' * (width - filled)} {percent(share):3} %"
