"""What was done to a piece is read of the days that name it; the others are not read for it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, timedelta
from random import Random

from crewboard.fabric.trace import joined_by_wood, of_pieces, of_the_vehicle
from crewboard.folder.read.day_file import entry_fields
from crewboard.folder.read.usual_day import usual_day
from crewboard.folder.toml.append import entry_line, new_day
from crewboard.logbook.acts import Act, DoneTo, Found, Reused, Stored, TakenBack
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.done import DONE
from tests.long_form import LONG

PIECES = [f"frame/ribs/{number}" for number in range(1, 12)]


def act_on(chance: Random, day: int, before: list[str]) -> Act:
    piece, other = chance.sample(PIECES, 2)
    kinds: list[Callable[[], Act]] = [
        lambda: Found("soft", piece=piece),
        lambda: DoneTo(piece, chance.choice(("cleaned", "spliced"))),
        lambda: Stored(piece, f"shelf {day}"),
        lambda: Reused(piece, other, "a part"),
        lambda: TakenBack(chance.choice(before)) if before else Found("soft", piece=piece),
    ]
    return chance.choices(kinds, (6, 3, 3, 1, 1))[0]()


def test_the_same_as_if_every_day_were_read() -> None:
    spared = 0
    for seed in range(3000 if LONG else 60):
        chance = Random(seed)
        logbook, whole = a_logbook(chance), a_logbook(Random(seed))
        every = of_the_vehicle(whole, datetime.max)
        piece = chance.choice(PIECES)
        joined = joined_by_wood(every, [piece])
        known, entries = of_pieces(logbook, [piece])
        assert known == joined
        meant = [e for e in every if isinstance(e.act, DONE) and e.act.piece in joined]
        assert [e for e in entries if getattr(e.act, "piece", "") in joined] == meant
        spared += sum(day.put_off is not None for day in logbook.days.values())
    assert spared, "some days were not read"


def a_logbook(chance: Random) -> Logbook:
    days = {}
    for number in range(8):
        day = date(2026, 1, 3) + timedelta(days=7 * number)
        text, written = new_day(day), list[str]()
        for line in range(chance.randrange(1, 4)):
            entry_id = f"d{number}x{line}"
            at = datetime(day.year, day.month, day.day, 9, line)
            entry = Entry(entry_id, at, act_on(chance, number, written), "ada")
            text += entry_line(entry.id, entry_fields(entry)).encode() + b"\n"
            written.append(entry_id)
        read = usual_day(day, text)
        assert read is not None
        days[day] = read
    return Logbook(days)
