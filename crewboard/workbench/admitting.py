"""Which entries may be written: each is checked against what is so with those before it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime

from crewboard.folder.read.own_file import wrong_file
from crewboard.folder.toml.append import SystemDice, new_id
from crewboard.logbook.acts import HOURS, Act, Found, Pictured, TakenBack, TookIn
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry, Said, written_down
from crewboard.logbook.fields import has_own_reason, named_by
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.operations import UNDONE
from crewboard.order.admit.doubts import doubts
from crewboard.order.admit.refusal import Refusal
from crewboard.order.admit.rules import refusals
from crewboard.order.board import Board
from crewboard.order.hours.elsewhere import DayElsewhere
from crewboard.order.safety.went_on import with_its_dangers
from crewboard.plan.plan import Plan
from crewboard.workbench.outcome import NotAdmitted

# What is checked here of one entry hangs on none of these before it.
_CHANGE_NOTHING = (*HOURS, TookIn, Pictured, Found)


def admitted(
    lines: Sequence[Said],
    by: str,
    now: datetime,
    *,
    root: str,
    logbook: Logbook,
    plan: Plan,
    assessed: Callable[[Logbook, datetime], Board],
    put_down: datetime,
    elsewhere: Callable[[date], Sequence[DayElsewhere]],
) -> list[tuple[date, Entry]]:
    """The entries with their ids, each checked against a board that knows those before it.

    `root` is the folder, whose own files alone are named as pictures. `assessed` gives the board
    of a logbook at a moment; `put_down` is when they are written, by the clock on the wall. Raises
    `NotAdmitted` where any of them is refused.
    """
    for writer in {by, *(one.by for one in lines)} - {"", *plan.crew}:
        raise NotAdmitted([Refusal("unknown-person", f'there is no person "{writer}"')])
    # Who tries an example out lives on in it: its entries may lie up to the real clock.
    lived_until = now if plan.vehicle.shown_at is None else max(now, put_down)
    entries: list[tuple[date, Entry]] = []
    board: Board | None = None
    for place, one in enumerate(lines):
        writer = one.by or by
        before = logbook.days.get(one.file_day, Day(one.file_day))
        before_it = logbook.without(one.replaces)
        if board is None or board.at != one.at or one.replaces:
            board = assessed(before_it, one.at)
        corrected = logbook.find(one.replaces) if one.replaces else None
        entry = Entry(
            new_id(SystemDice(), before.ids),
            one.at.replace(microsecond=0),
            with_its_dangers(board, one.insisted, corrected[1].act if corrected else None),
            writer,
            written_down(one.at, put_down),
            one.replaces,
        )
        against = refusals(board, entry.act, writer, lived_until)
        against += _not_here(root, entry.act, corrected[1].act if corrected else None)
        if all(refusal.yields for refusal in against):  # what cannot be is not doubted as well
            against += doubts(board, before_it, entry.act, lived_until, elsewhere)
        if all(refusal.yields for refusal in against):
            against += _undermined(logbook, one.file_day, entry, now, assessed)
        who, day, reason = plan.crew.get(writer), one.at.date(), _reason(one)
        refused = [r for r in against if not (reason and r.overruled_by(who, day))]
        if refused:
            raise NotAdmitted(refused, place)
        if against and not has_own_reason(entry.act):
            entry = entry._replace(despite=one.reason)
        entries.append((one.file_day, entry))
        logbook = logbook.with_entry(one.file_day, entry)
        if not isinstance(one.act, _CHANGE_NOTHING):
            board = None
    return entries


def _not_here(root: str, act: Act, before: Act | None) -> Iterator[Refusal]:
    """The files that an act names and that are not in the folder; what a corrected line named
    already was admitted then."""
    named = dict.fromkeys(one.id for one in named_by(act) if one.thing == "picture")
    known = {one.id for one in named_by(before) if one.thing == "picture"} if before else ()
    for name in named:
        if name not in known and (wrong := wrong_file(root, name)) is not None:
            yield Refusal("picture", *wrong)


def _undermined(
    logbook: Logbook,
    day: date,
    entry: Entry,
    now: datetime,
    assessed: Callable[[Logbook, datetime], Board],
) -> list[Refusal]:
    """What a line that speaks of earlier hours would take from dangerous work that goes on now."""
    from crewboard.order.safety.rests_on_it import speaks_of_before, undermined

    if not speaks_of_before(entry, now):
        return []
    after = logbook.with_entry(day, entry)
    return undermined(lambda at: assessed(logbook, at), lambda at: assessed(after, at), now)


def _reason(one: Said) -> str:
    """Why it is written all the same; of a line taken back, why it is taken back."""
    why = one.act.why if isinstance(one.act, TakenBack) else ""
    return one.reason or (why.strip() if why != UNDONE else "")
