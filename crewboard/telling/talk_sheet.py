"""The day's safety talk on paper: to be read out, one page on a usual day."""

from crewboard.order.safety.briefing import briefing, todays_work
from crewboard.telling.report import Request, Sheet
from crewboard.telling.short_talk import short_talk_sheet

_LOOSE = 380  # words that fit on a page in the usual letters; more is set closer
_LARGE = 520  # words that fit when set closer in letters to read from at arm's length


def report(request: Request) -> Sheet:
    """The short talk for what is under way and goes first. Nothing of it is ever left out."""
    board = request.board
    return as_printed(short_talk_sheet(briefing(board, todays_work(board))))


def as_printed(talk: Sheet) -> Sheet:
    """The talk with room to sign, set closer where it would be more than a page."""
    words = sum(len(line.text.split()) for chapter in talk.chapters for line in chapter.points)
    signed = ("the talk was given by", "at")
    return talk._replace(signatures=signed, close=words > _LOOSE, large=words <= _LARGE)
