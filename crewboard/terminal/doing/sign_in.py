"""Sign people in and out, and say who is expected: one list, marks changed at once."""

from __future__ import annotations

from datetime import date, datetime, time
from itertools import islice

from crewboard.logbook.acts import Act, Expected, GuestCame, GuestLeft, SignIn, SignOut
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.visits import GuestVisit, same_name
from crewboard.order.board import Board
from crewboard.order.presence import expected_on
from crewboard.order.said import day_in_words, listed, person
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickSeveral
from crewboard.terminal.dialogs.who_is_here import WhoIsHere
from crewboard.terminal.doing.ages import ask_ages
from crewboard.terminal.doing.entry_form import write_entry
from crewboard.terminal.entry_lines import entry_text
from crewboard.workbench import Said

_DAYS_AHEAD = 6
_GUEST = "guest:"
_GUESTS = "Of several who come together: their names with commas between."
Times = tuple[time | None, time | None]


async def sign_in(app: BoardApp, at: datetime | None = None) -> None:
    """The whole crew, those here marked; what is changed is written, as of `at`, the time that is
    typed, or now. Guests are signed in and times corrected from the same list."""
    while True:
        board = app.board if at is None else app.workbench.board(at)
        here = [visit.who for visit in board.present]
        guests = {f"{_GUEST}{visit.name}": visit for visit in board.guests}
        dialog = WhoIsHere(
            [*_choices(board), *(_guest(row, visit) for row, visit in guests.items())],
            marked=[*here, *guests],
            intro="Mark who comes, unmark who goes. At an earlier time: type it, such as 10:05.",
            now=board.at,
        )
        picked = await app.push_screen_wait(dialog)
        if picked is None:
            return
        if dialog.wish == "guest":
            kind, clock = KINDS_OF_ENTRY[GuestCame], dialog.clock
            await write_entry(
                app, kind, {}, intro=_GUESTS, spread=_each_guest, when="came at", clock=clock
            )
        elif dialog.wish == "times":
            await _correct_times(app, board, dialog.about)
        else:
            break
    at = dialog.at or at
    marked = [who for who in picked if who not in guests]
    await ask_ages(app, [who for who in marked if who not in here])
    came: list[Act] = [SignIn(who) for who in marked if who not in here]
    went: list[Act] = [SignOut(who) for who in here if who not in marked]
    went += [GuestLeft(visit.name) for row, visit in guests.items() if row not in picked]
    if not came and not went:
        return
    outcome = await app.keep([*came, *went], at)
    if outcome.kept:
        changes = [f"{len(came)} signed in"] if came else []
        changes += [f"{len(went)} signed out"] if went else []
        app.tell("; ".join([", ".join(changes), *outcome.remarks]), warning=bool(outcome.remarks))


async def _correct_times(app: BoardApp, board: Board, row: str) -> None:
    """Correct when somebody came or went on the board's day."""
    day = board.logbook.days.get(board.at.date())
    lines = {
        entry.id: entry
        for entry in (day.counting if day else ())
        if isinstance(entry.act, SignIn | SignOut | GuestCame | GuestLeft)
        and _row_of(entry.act) == same_name(row)
    }
    if day is None or not lines:
        app.tell("nothing is written of them on this day", warning=True)
        return
    last = next(reversed(lines))
    choices = [Choice(i, f"{e.at:%H:%M} {entry_text(board, e, day)}") for i, e in lines.items()]
    ask = PickOne("Correct which time?", choices, at=last)
    picked = last if len(lines) == 1 else await app.push_screen_wait(ask)
    if picked:
        await _correct_time(app, day, lines[picked])


async def _correct_time(app: BoardApp, day: Day, entry: Entry) -> None:
    def odd(typed: str) -> str | None:
        try:
            as_typed.clock(typed)
        except Unread as unread:
            return str(unread)
        return None

    intro = f"{entry_text(app.board, entry, day)} at {entry.at:%H:%M}"
    ask = AskLine("When was it?", "the right time", intro=intro, hint="10:05", check=odd)
    typed = await app.push_screen_wait(ask)
    if typed:
        at = datetime.combine(day.date, as_typed.clock(typed))
        act, now = day.wording(entry).act, app.now()
        app.do(
            lambda: app.workbench.correct(entry.id, act, at, by=app.by, now=now),
            lambda outcome: app.tell("corrected with a new entry") if outcome.kept else None,
        )


def _row_of(act: SignIn | SignOut | GuestCame | GuestLeft) -> str:
    return same_name(act.who if isinstance(act, SignIn | SignOut) else f"{_GUEST}{act.name}")


def _each_guest(came: Act) -> list[Act]:
    assert isinstance(came, GuestCame)
    return [came._replace(name=name) for name in as_typed.names(came.name) or (came.name,)]


def _guest(row: str, visit: GuestVisit) -> Choice:
    return Choice(row, visit.name, f"guest since {visit.since:%H:%M}", "strong")


def _choices(board: Board) -> list[Choice]:
    """Who is here, then who is expected, then the rest."""
    expected = expected_on(board.logbook, board.at.date())
    gone = {v.who: v.until for v in board.history.visits if v.until is not None}
    ranked: list[tuple[int, Choice]] = []
    for choice in crew_choices(board):
        word = expected.get(choice.id)
        note, rank = choice.note, 0 if choice.note else 3
        if not note and choice.id in gone:
            note, rank = f"left {gone[choice.id]:%H:%M}", 2
        elif not note and word is not None:
            note, rank = ("expected", 1) if word.coming else ("not coming", 4)
        ranked.append((rank, choice._replace(note=note)))
    return [choice for _, choice in sorted(ranked, key=lambda pair: pair[0])]


async def expect(app: BoardApp) -> None:
    """Say who comes on a work day."""
    board = app.board
    days = list(islice(board.plan.vehicle.work_days.coming(board.at.date()), _DAYS_AHEAD))
    choices = [
        Choice(d.isoformat(), day_in_words(d), f"{_coming(board, d)} expected") for d in days
    ]
    picked = await app.push_screen_wait(
        PickOne("Who comes, on which day?", choices, empty="no work day is planned")
    )
    if picked is None:
        return
    day = date.fromisoformat(picked)
    before = {w for w, e in expected_on(app.board.logbook, day).items() if e.coming}
    crew = [c._replace(note="expected" if c.id in before else "") for c in crew_choices(app.board)]
    marked = await app.push_screen_wait(
        PickSeveral(f"Who comes on {day_in_words(day)}", crew, marked=before, none_too=True)
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


def _coming(board: Board, day: date) -> int:
    return sum(e.coming for e in expected_on(board.logbook, day).values())
