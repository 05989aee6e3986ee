"""Close a work day: what is in the way, who is still here, then the entries."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from crewboard.logbook.acts import ClosedDay, HoursWorked, SignOut
from crewboard.order.board import Board
from crewboard.order.safety.closing import after_checks, close_refusals, closing_acts
from crewboard.order.safety.left_open import (
    LeftOpen,
    days_left_open,
    end_of,
    left_open_in_words,
)
from crewboard.order.said import day_in_words, how_many, listed, person
from crewboard.telling.line import GAP, Line, title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.closing import ClosingDialog
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.sign_checks import sign_these
from crewboard.terminal.doing.sign_in import sign_in


async def close_day(app: BoardApp) -> None:
    """Close today, or a past day that was left open: which one is asked where there is one."""
    days = days_left_open(app.board.plan, app.board.logbook, app.board.at.date())
    if not days:
        await _close(app)
        return
    today = app.board.at.date().isoformat()
    choices = [_choice(app.board, each) for each in days]
    choices.append(Choice(today, day_in_words(app.board.at), "today"))
    at = choices[-1].id if app.board.history.visits else choices[0].id
    picked = await app.push_screen_wait(PickOne("Close which day?", choices, at=at))
    left_open = next((each for each in days if each.day.isoformat() == picked), None)
    if left_open is not None and left_open.closed:
        await _sign_out_the_left(app, left_open)
    elif picked:
        await _close(app, _end(app, left_open))


def _choice(board: Board, left_open: LeftOpen) -> Choice:
    facts = left_open_in_words(board.plan, left_open)[-1:]
    return Choice(left_open.day.isoformat(), day_in_words(left_open.day), "; ".join(facts))


def _end(app: BoardApp, left_open: LeftOpen | None) -> datetime | None:
    if left_open is None:
        return None
    return end_of(app.board.plan, app.board.logbook, left_open.day)


async def _sign_out_the_left(app: BoardApp, left_open: LeftOpen) -> None:
    """A day that was closed with somebody in: they left when it ended."""
    at = _end(app, left_open)
    if (await app.keep([SignOut(who) for who in left_open.never_left], at)).kept:
        app.tell(f"signed out on {day_in_words(left_open.day)}: {len(left_open.never_left)}")


async def _close(app: BoardApp, at: datetime | None = None) -> None:
    """Show what stands in the way and sign it from there; then close, with a reason if need be.

    `at` is when a past day ended; without it the day is closed now.
    """

    def board() -> Board:
        return app.board if at is None else app.workbench.board(at)

    name = "Close the day" if at is None else f"Close {day_in_words(at)}"
    while True:
        against = bool(close_refusals(board()))
        dialog = ClosingDialog(list(_closing_lines(board())), name, in_the_way=against)
        word = await app.push_screen_wait(dialog)
        if word == "close":
            break
        if word == "leave":
            await sign_in(app, at)
        elif word == "sign":
            await sign_these(app, "Checks after the work", after_checks, at=at)
        else:
            return
    if (await app.keep(closing_acts(board(), ClosedDay()), at)).kept:
        app.tell("the day is closed" if at is None else f"{day_in_words(at)} is closed")


def _closing_lines(board: Board) -> Iterator[Line]:
    against = close_refusals(board)
    if against:
        yield title(f"In the way ({len(against)})", "danger")
        for refusal in against:
            yield Line(refusal.says, "danger", 2, "-")
        mend = "c signs checks; a clock runs out by itself; or close with a name and a reason."
        yield Line(mend, "must")
    else:
        yield Line("Nothing stands in the way of closing the day.", "safe")
    yield GAP
    going = [s.task.title for s in board.in_state("under way")]
    if going:
        yield Line(listed(going), "faint", 0, "stays under way:")
    without = without_hours(board)
    if without:
        names = listed(person(board.plan, who) for who in without)
        yield Line(f"{names}: h logs them", "warning", 0, "no hours yet:")
    if board.present:
        people = how_many(len(board.present), "person")
        yield Line(f"{people}, who will be signed out", "faint", 0, "still here:")


def without_hours(board: Board) -> list[str]:
    """Who was in the shop today and has no hours in the logbook."""
    day = board.logbook.days.get(board.at.date())
    logged = {e.act.who for e in day.counting if isinstance(e.act, HoursWorked)} if day else set()
    return [who for who in dict.fromkeys(v.who for v in board.history.visits) if who not in logged]
