"""Closing a work day: today, or a past one that was left open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime
from functools import partial

from crewboard.logbook.acts import ClosedDay, HoursWorked, SignOut
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.may.in_one_go import half_done
from crewboard.order.may.on_it import under_way_now
from crewboard.order.safety.checks import Asked
from crewboard.order.safety.closing import (
    after_checks,
    close_refusals,
    closing_acts,
    closing_clocks,
    end_in_words,
)
from crewboard.order.safety.left_open import (
    LeftOpen,
    days_left_open,
    end_of,
    left_open_in_words,
)
from crewboard.order.said import day_in_words, listed, person, quoted_title
from crewboard.telling.closing_page import closing_lines
from crewboard.telling.line import GAP, Line, title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.closing import ClosingDialog
from crewboard.terminal.dialogs.dialog import Panel
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.others import Other, one_of
from crewboard.terminal.doing.sign_checks import sign_these
from crewboard.terminal.doing.sign_in import sign_in
from crewboard.terminal.doing.stop import stop_several
from crewboard.terminal.doing.type_in_sheet import type_in_sheet


async def close_day(app: BoardApp) -> None:
    """Close today, or a past day that was left open: which one is asked where there is one."""
    days = days_left_open(app.board.plan, app.board.logbook, app.board.at.date())
    if not days:
        await _close(app)
        return
    today = app.board.at.date().isoformat()
    choices = [_choice(app.board, open_day) for open_day in days]
    choices.append(Choice(today, day_in_words(app.board.at), "today"))
    at = choices[-1].id if app.board.history.visits else choices[0].id
    picked = await app.push_screen_wait(PickOne("Close which day?", choices, at=at))
    left_open = next((open_day for open_day in days if open_day.day.isoformat() == picked), None)
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
        lines, in_the_way = list(_closing_lines(board())), bool(close_refusals(board()))
        dialog = ClosingDialog(lines, name, in_the_way=in_the_way)
        word = await app.push_screen_wait(dialog)
        if word == "close":
            break
        if word == "in_or_out":
            await sign_in(app, at)
        elif word == "other":
            await _other(app, board(), at)
        elif word == "checks":
            await sign_these(app, "Checks after the work", after_checks, at=at)
        else:
            return
    stays = await _who_stays(app, board()) if at is None else ""
    if stays is None:
        return
    if (await app.keep(closing_acts(board(), ClosedDay(stays=stays)), at)).kept:
        app.tell("the day is closed" if at is None else f"{day_in_words(at)} is closed")
        _show_day_end(app, at or app.now())


async def _other(app: BoardApp, board: Board, at: datetime | None) -> None:
    others = (
        Other("goes on another day", "what is under way", partial(stop_several, app, at)),
        Other(
            "filled sheet",
            "type in a morning sheet filled by hand",
            partial(type_in_sheet, app, board.at.date()),
        ),
    )
    await one_of(app, others)


def _show_day_end(app: BoardApp, at: datetime) -> None:
    """The page at the end of the day: read out before everybody goes home."""
    opens = app.board.plan.vehicle.work_days.next_after(at)
    lines = closing_lines(app.workbench.board(at), app.workbench.board(opens) if opens else None)
    app.push_screen(Panel("The end of the day", lines))


async def _who_stays(app: BoardApp, board: Board) -> str | None:
    """Inside a clock: which adult stays until it is out; empty where none runs, None when left."""
    clocks = closing_clocks(board)
    if not clocks:
        return ""
    until = listed(dict.fromkeys(f"the {end_in_words(board, clock)}" for clock in clocks))
    adults = [
        choice
        for choice in crew_choices(board, only={visit.who for visit in board.present})
        if board.plan.crew[choice.id].adult_on(board.at.date())
    ]
    pick = PickOne(
        "Who stays?",
        adults,
        intro=f"{until[:1].upper()}{until[1:]}.",
        empty="nobody here is known to be 18: crew.toml says adult = true",
    )
    return await app.push_screen_wait(pick)


def _closing_lines(board: Board) -> Iterator[Line]:
    against = close_refusals(board)
    if against:
        yield title(f"In the way ({len(against)})", "danger")
        yield from _in_the_way(board, against)
        mend = "c signs checks; a clock runs out by itself; or close with a name and a reason."
        yield Line(mend, "must")
    else:
        yield Line("Nothing stands in the way of closing the day.", "safe")
    yield GAP
    going = [quoted_title(board.plan, task) for task in under_way_now(board)]
    if going:
        yield Line(f"{listed(going)}: o says what goes on another day", "must", 0, "under way:")
    if unfinished := half_done(board):
        titles = listed(quoted_title(board.plan, task) for task in unfinished)
        yield Line(titles, "danger", 0, "must not be left half done:")
    without = without_hours(board)
    if without:
        names = listed(person(board.plan, who) for who in without)
        yield Line(f"{names}: h logs them", "warning", 0, "no hours yet:")
    if board.present:
        people = listed(person(board.plan, visit.who) for visit in board.present)
        yield Line(f"{people}: signed out when the day is closed", "faint", 0, "still here:")
    yield Line("o types in a morning sheet that was filled by hand", "faint", 0, "paper:")


def _in_the_way(board: Board, against: Iterable[Refusal]) -> Iterator[Line]:
    """What is no check in its sentence, and all checks in one: their words stand where they are
    signed."""
    for refusal in against:
        if refusal.code != "unsigned":
            yield Line(refusal.says, "danger", 2, "-")
    unsigned = [asked for asked in after_checks(board) if asked.open]
    if unsigned:
        titles = "; ".join(dict.fromkeys(_check_and_task(board, asked) for asked in unsigned))
        yield Line(f"not signed: {titles}", "danger", 2, "-")


def _check_and_task(board: Board, asked: Asked) -> str:
    of_task = f" ({quoted_title(board.plan, asked.task)})" if asked.task else ""
    return asked.check.short + of_task


def without_hours(board: Board) -> list[str]:
    """Who was in the shop today and has no hours in the logbook."""
    day = board.logbook.days.get(board.at.date())
    logged = {e.act.who for e in day.counting if isinstance(e.act, HoursWorked)} if day else set()
    return [who for who in dict.fromkeys(v.who for v in board.history.visits) if who not in logged]
