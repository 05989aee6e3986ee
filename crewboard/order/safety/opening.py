"""The shop is opened first: what is signed before the day's dangerous work, and the first-aider."""

from collections.abc import Iterator
from typing import NamedTuple

from crewboard.logbook.acts import CheckSigned
from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of_the_day
from crewboard.order.safety.signatures import signatures
from crewboard.order.said import how_many, listed, person

FIRST_AID = "first aid"  # the certificate a first-aider holds


def unopened(board: Board) -> list[Asked]:
    """The opening checks of the day that nobody has signed."""
    return [asked for asked in checks_of_the_day(board, "before") if asked.open]


def unopened_in_words(board: Board) -> str:
    """For the first screen: what is still to sign before dangerous work; empty for nothing."""
    still = unopened(board)
    if not still:
        return ""
    count = how_many(len(still), "opening check")
    return f"{count} to sign before any work with hazards"


class FirstAid(NamedTuple):
    """The first-aiders named today who are `here`, those who are `gone`, and `why` there is nobody
    where the opening could name none."""

    here: tuple[str, ...]
    gone: tuple[str, ...]
    why: str


def first_aid(board: Board) -> FirstAid:
    """Who was named as first-aider today."""
    named: list[str] = []
    why = ""
    for signature in _naming(board):
        named += signature.named
        why = "" if signature.named else signature.why
    here = {visit.who for visit in board.present}
    order = dict.fromkeys(named)
    gone = tuple(who for who in order if who not in here)
    return FirstAid(tuple(who for who in order if who in here), gone, why)


def _naming(board: Board) -> Iterator[CheckSigned]:
    """Today's signatures that name the first-aider, in order of time."""
    for asked in checks_of_the_day(board, "before"):
        if asked.check.names == FIRST_AID:
            day = board.at.date()
            for entry in signatures(board).signed_on(day, asked.hazard, asked.check, ""):
                assert isinstance(entry.act, CheckSigned)
                yield entry.act


def first_aider_in_words(board: Board) -> str:
    """The first-aider; who it was and has left; or why there is nobody. Empty before it is said."""
    here, gone, why = first_aid(board)
    if here:
        return listed(person(board.plan, who) for who in here)
    if gone:
        names = listed(person(board.plan, who) for who in gone)
        return f"nobody any more: {names} has left" if len(gone) == 1 else f"nobody: {names} left"
    return f"nobody ({why})" if why else ""


def without_first_aider(board: Board) -> str:
    """The word to be said once the last named first-aider has left while others are here."""
    here, gone, _ = first_aid(board)
    if here or not gone or not board.present:
        return ""
    names = listed(person(board.plan, who) for who in gone)
    return f"{names} left: nobody here is named as first-aider; sign again who it is"
