"""Close the work day: what is in the way, who is still here, then the entry."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.logbook.acts import Act, ClosedDay, HoursWorked, SignOut
from crewboard.order.board import Board
from crewboard.order.safety.closing import after_checks, close_refusals
from crewboard.order.said import how_many, listed, person
from crewboard.telling.line import GAP, Line, title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.closing import ClosingDialog
from crewboard.terminal.doing.sign_checks import sign_these


async def close_day(app: BoardApp) -> None:
    """Show what stands in the way and sign it from there; then close, with a reason if need be."""
    while True:
        against = bool(close_refusals(app.board))
        word = await app.push_screen_wait(ClosingDialog(list(_told(app.board)), in_the_way=against))
        if word == "close":
            break
        if word != "sign":
            return
        await sign_these(app, "Checks after the work", after_checks)
    leaving: list[Act] = [SignOut(visit.who) for visit in app.board.present]
    if (await app.keep([ClosedDay()])).kept:
        if leaving:
            await app.keep(leaving)
        app.tell("the day is closed")


def _told(board: Board) -> Iterator[Line]:
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
