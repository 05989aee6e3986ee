"""The day's safety talk on paper: to be read out, one page on a usual day."""

from crewboard.order.safety.briefing import briefing, todays_work
from crewboard.telling.report import Request, Sheet
from crewboard.telling.short_talk import short_talk_sheet

_LOOSE = 520  # words that fit on a page in the usual letters; more is set closer


def report(request: Request) -> Sheet:
    """The short talk for what is under way and goes first. Nothing of it is ever left out."""
    board = request.board
    sheet = short_talk_sheet(briefing(board, todays_work(board)))
    words = sum(len(line.text.split()) for chapter in sheet.chapters for line in chapter.points)
    return sheet._replace(signatures=("the talk was given by", "at"), close=words > _LOOSE)
