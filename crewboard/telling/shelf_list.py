"""The list that hangs at a shelf: which pieces lie there, since when, and when they went back."""

from crewboard.telling.piece_tags import shelf_list
from crewboard.telling.report import Request, Sheet


def report(request: Request) -> Sheet:
    """All pieces, or those of one component, by component."""
    return shelf_list(request)
