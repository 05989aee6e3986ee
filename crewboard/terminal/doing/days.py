"""The work days to come: what could be done on them, who comes on one, and that one is called off
or takes place after all."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, time
from itertools import islice

from crewboard.folder.edit.plan_edits import CallOff
from crewboard.logbook.acts import Expected
from crewboard.order.board import Board
from crewboard.order.presence import expected_on
from crewboard.order.said import day_in_words, listed, person
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.telling.programme import programme_sheet
from crewboard.telling.report import sheet_lines
from crewboard.telling.unreadable import with_unreadable
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.dialog import Panel
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickSeveral
from crewboard.workbench import Said

_DAYS_AHEAD = 6  # work days for which people are expected
_CALLED_OFF_AHEAD = 12  # work days that can be called off
_COMES, _OFF, _PROGRAMME = "comes ", "off ", "programme"
Times = tuple[time | None, time | None]


async def days(app: BoardApp) -> None:
    """Read the programme, or pick a work day to come, to say who comes or to call it off."""
    comes, off = list(_comes(app.board)), list(_off(app.board))
    programme = Choice(_PROGRAMME, "What could be done on each, and by whom", "the programme")
    choices = [
        *([programme] if comes else ()),
        *([Choice("", "Who is coming?"), *comes] if comes else ()),
        *([Choice("", "Called off, or takes place after all"), *off] if off else ()),
    ]
    empty = "no work day is planned"
    picked = await app.push_screen_wait(PickOne("Work days to come", choices, empty=empty))
    if picked is None:
        return
    if picked == _PROGRAMME:
        await _programme(app)
        return
    day = date.fromisoformat(picked.rpartition(" ")[2])
    await (_expect if picked.startswith(_COMES) else _call_off)(app, day)


async def _programme(app: BoardApp) -> None:
    sheet = with_unreadable(programme_sheet(app.board), app.board)
    await app.push_screen_wait(Panel(sheet.title, list(sheet_lines(sheet))[1:]))


# --- who comes ---------------------------------------------------------------------------------


def _comes(board: Board) -> Iterable[Choice]:
    for day in islice(board.plan.vehicle.work_days.coming(board.at.date()), _DAYS_AHEAD):
        coming = sum(e.coming for e in expected_on(board.logbook, day).values())
        yield Choice(f"{_COMES}{day.isoformat()}", day_in_words(day), f"{coming} expected")


async def _expect(app: BoardApp, day: date) -> None:
    before = {w for w, e in expected_on(app.board.logbook, day).items() if e.coming}
    crew = [c._replace(note="expected" if c.id in before else "") for c in crew_choices(app.board)]
    marked = await app.push_screen_wait(
        PickSeveral(f"Who is coming on {day_in_words(day)}", crew, marked=before, none_too=True)
    )
    if marked is None:
        return
    newly = [who for who in marked if who not in before]
    times = await _ask_times(app, newly) if newly else None
    if times is None and newly:
        return
    arrives, leaves = times or (None, None)
    now = app.now()
    acts = [Said(Expected(who, True, arrives, leaves), now, "", day) for who in newly]
    acts += [Said(Expected(who, False), now, "", day) for who in before if who not in marked]
    if acts and (await app.keep(acts)).kept:
        app.tell(f"{len(marked)} expected on {day_in_words(day)}")


async def _ask_times(app: BoardApp, people: list[str]) -> Times | None:
    """From when until when they come; None where the question was left."""
    intro = f"{listed(person(app.board.plan, who) for who in people)}: empty for the whole day"
    typed = await app.push_screen_wait(
        AskLine(
            "From when until when?", intro=intro, hint="10:30 to 14:00", needed=False, check=_odd
        )
    )
    return None if typed is None else _times(typed)


def _times(typed: str) -> Times:
    """ "10:30 to 14:00", "10:30-14:00", "from 10:30" or "until 14:00". Raises Unread."""
    ends = f" {typed.strip().casefold().replace('-', ' to ').replace('until', ' to ')} "
    first, _, second = ends.replace("from", "").partition(" to ")
    arrives, leaves = (as_typed.clock(end) if end.strip() else None for end in (first, second))
    if arrives and leaves and leaves <= arrives:
        raise Unread(f'"{typed}" ends before it begins', "write 10:30 to 14:00")
    return arrives, leaves


def _odd(typed: str) -> str | None:
    try:
        _times(typed)
    except Unread as unread:
        return str(unread)
    return None


# --- called off --------------------------------------------------------------------------------


def _off(board: Board) -> Iterable[Choice]:
    """The days that can be called off, and those that were, with why."""
    work_days, today = board.plan.vehicle.work_days, board.at.date()
    notes = dict.fromkeys(islice(work_days.coming(today), _CALLED_OFF_AHEAD), "call off")
    notes |= {
        day: f"called off{f': {why}' if why else ''}"
        for day, why in work_days.closed
        if day >= today
    }
    for day in sorted(notes):
        yield Choice(f"{_OFF}{day.isoformat()}", day_in_words(day), notes[day])


async def _call_off(app: BoardApp, day: date) -> None:
    """Ask why, and call it off; a day that was called off takes place after all."""
    why: str | None = None
    if app.board.plan.vehicle.work_days.called_off(day) is None:
        why = await app.push_screen_wait(AskLine(f"Call off {day_in_words(day)}", "why"))
        if why is None:
            return
    edit = CallOff(day, why)
    word = "called off" if why is not None else "takes place after all"
    app.do(
        lambda: app.workbench.change(edit, says="a work day called off", today=app.board.at.date()),
        lambda outcome: app.tell(f"{word}: {day_in_words(day)}") if outcome.kept else None,
    )
