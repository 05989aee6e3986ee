"""Sign people in and out: one list, marks changed at once."""

from __future__ import annotations

from datetime import datetime

from crewboard.logbook.acts import Act, GuestCame, GuestLeft, SignIn, SignOut
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.visits import GuestVisit, same_name
from crewboard.order.board import Board
from crewboard.order.presence import expected_on
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.dialogs.who_is_here import WhoIsHere
from crewboard.terminal.doing.ages import ask_ages
from crewboard.terminal.doing.entry_form import write_entry
from crewboard.terminal.entry_lines import entry_text

_GUEST = "guest:"
_GUESTS = "Of several who come together: their names with commas between."


async def sign_in(app: BoardApp, at: datetime | None = None, *, who: str = "") -> None:
    """The whole crew, those here marked, the cursor on `who`; what is changed is written, as of
    `at`, the time that is typed, or now. Guests are signed in and times corrected from the same
    list."""
    while True:
        board = app.board if at is None else app.workbench.board(at)
        here = [visit.who for visit in board.present]
        guests = {f"{_GUEST}{visit.name}": visit for visit in board.guests}
        dialog = WhoIsHere(
            [*_choices(board), *(_guest(row, visit) for row, visit in guests.items())],
            marked=[*here, *guests],
            intro="Mark who is here, unmark who is not. For an earlier time type it: 10:05.",
            now=board.at,
            cursor=who,
        )
        picked = await app.push_screen_wait(dialog)
        if picked is None:
            return
        if dialog.wish == "guest":
            kind, clock = KINDS_OF_ENTRY[GuestCame], dialog.clock
            await write_entry(
                app, kind, {}, intro=_GUESTS, spread=_each_guest, when="signed in at", clock=clock
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
            note, rank = f"signed out {gone[choice.id]:%H:%M}", 2
        elif not note and word is not None:
            note, rank = ("expected", 1) if word.coming else ("not coming", 4)
        ranked.append((rank, choice._replace(note=note)))
    return [choice for _, choice in sorted(ranked, key=lambda pair: pair[0])]
