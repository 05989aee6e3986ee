"""A morning sheet that was filled in by hand, read as entries of the logbook at the moments that
stand on it.
"""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from datetime import date, datetime
from functools import partial
from typing import NamedTuple, TypeVar

from crewboard.logbook.acts import (
    Act,
    Begun,
    CheckSigned,
    Extended,
    Finished,
    GuestCame,
    GuestLeft,
    Noted,
    Reading,
    Released,
    SignIn,
    SignOut,
    Stopped,
)
from crewboard.logbook.entry import Said
from crewboard.order.board import Board
from crewboard.order.hours.guests import guest_names
from crewboard.order.presence import closing_time
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Today, Unread
from crewboard.plan.units import as_kept
from crewboard.telling.as_on_paper import begin_of, hours_of, on_job, task_of, whom
from crewboard.telling.morning_parts import MorningRow

AFTER = "after"  # what stands before a check that comes after the work
DURING = "during"  # and before one that comes round while it goes on
_WHEN_SIGNED = "say when it was signed"
T = TypeVar("T")

# What goes first of one minute: who comes is here for all that follows, and who leaves goes last;
# last of all who signs that the shop is closed and everybody else is out.
_CAME, _READ, _LOOKED, _CHECKED, _BEGUN, _CAME_ROUND = range(6)
_WORKED, _ENDED, _CHECKED_AFTER, _NOTED, _LEFT, _CLOSED, _LEFT_LAST = range(6, 13)
_RANK_OF_CHECK = {AFTER: _CHECKED_AFTER, DURING: _CAME_ROUND}


class Filled(NamedTuple):
    """A row with what was typed into its blanks, by their keys; `place` is its place in the
    form."""

    place: int
    row: MorningRow
    texts: Mapping[str, str]

    def text(self, key: str) -> str:
        return self.texts.get(key, "").strip()

    @property
    def empty(self) -> bool:
        return not any(text.strip() for text in self.texts.values())


class FromSheet(NamedTuple):
    """An entry, and the place of the row that it was read from."""

    place: int
    said: Said


class WrongRow(NamedTuple):
    """A blank that cannot be read: which, and a sentence that says why."""

    place: int
    key: str
    sentence: str


class ReadSheet(NamedTuple):
    """All entries in the order in which they happened; what cannot be read."""

    entries: tuple[FromSheet, ...]
    wrong: tuple[WrongRow, ...]


class _NotRead(Exception):
    def __init__(self, key: str, sentence: str) -> None:
        super().__init__(sentence)
        self.key, self.sentence = key, sentence


class _Step(NamedTuple):
    """An entry with its rank among those of the same minute."""

    rank: int
    at: datetime
    act: Act
    by: str = ""

    @property
    def closes(self) -> bool:
        """Whether it is a check that closes the shop."""
        return self.rank == _CLOSED

    def in_its_place(self, close: Collection[tuple[datetime, str]]) -> "_Step":
        """The same; last where somebody leaves who signs at that moment what closes the shop."""
        last = isinstance(self.act, SignOut) and (self.at, self.act.who) in close
        return self._replace(rank=_LEFT_LAST) if last else self


def read_sheet(board: Board, day: date, filled: Sequence[Filled]) -> ReadSheet:
    """The entries of a sheet of that day; `board` is that of the moment at which it is typed."""
    sheet = _Sheet(board, day, filled)
    steps: list[tuple[_Step, int]] = []
    wrong: list[WrongRow] = []
    for row in filled:
        try:
            steps += [(step, row.place) for step in (() if row.empty else sheet.steps(row))]
        except _NotRead as unread:
            wrong.append(WrongRow(row.place, unread.key, unread.sentence))
    close = {(s.at, s.act.who) for s, _ in steps if isinstance(s.act, CheckSigned) and s.closes}
    steps = [(step.in_its_place(close), place) for step, place in steps]
    steps.sort(key=lambda pair: (pair[0].at, pair[0].rank, pair[1]))
    said = (FromSheet(place, Said(step.act, step.at, by=step.by)) for step, place in steps)
    return ReadSheet(tuple(said), tuple(wrong))


class JobOfSheet(NamedTuple):
    """A task that was begun by the sheet, by whom, and whether its work `ended` that day."""

    task: str
    people: tuple[str, ...]
    ended: bool


def work_begun(entries: Sequence[FromSheet]) -> list[JobOfSheet]:
    """The tasks that the sheet says were begun."""
    acts = [entry.said.act for entry in entries]
    ended = {act.task for act in acts if isinstance(act, Finished | Stopped)}
    begun = [act for act in acts if isinstance(act, Begun)]
    return [JobOfSheet(act.task, act.people, act.task in ended) for act in begun]


class _Sheet:
    """Reads the rows. An empty name or time of a check is that of the check above it, in the same
    part of the sheet."""

    def __init__(self, board: Board, day: date, filled: Sequence[Filled]) -> None:
        self.board, self.plan, self.day = board, board.plan, day
        closes = closing_time(board.plan, board.logbook, day)
        self.latest = min(board.at, closes) if board.at.date() == day else closes
        self.guests = {name: name for name in guest_names(board.logbook).values()}
        self.left: dict[str, datetime] = {}
        self._above: dict[tuple[str, str], str] = {}
        self._learn(row for row in filled if row.row.part == "who is here" and not row.empty)

    def _learn(self, visits: Iterator[Filled]) -> None:
        """Who came as a guest, and when everybody left: hours of no other time are of then."""
        for row in visits:
            try:
                who, guest = self._visitor(row)
                left = self._at(row, "left")
            except _NotRead:
                continue  # told when the row itself is read
            self.guests |= {guest: guest} if guest else {}
            self.left |= {who or guest: left} if left else {}

    def steps(self, row: Filled) -> Iterator[_Step]:
        match row.row.part:
            case "due for a look":
                return self._look(row)
            case "who is here":
                return self._visit(row)
            case "checks" | "to close":
                return self._check(row)
            case "first jobs":
                return self._job(row)
        return self._shop(row)

    # --- what a blank says --------------------------------------------------------------------

    def _read(self, row: Filled, key: str, read: Callable[[str], T]) -> T:
        try:
            return read(row.text(key))
        except Unread as unread:
            raise _NotRead(key, str(unread)) from None

    def _at(self, row: Filled, key: str = "at") -> datetime | None:
        if not row.text(key):
            return None
        return datetime.combine(self.day, self._read(row, key, as_typed.clock))

    def _must_at(self, row: Filled, key: str, otherwise: str) -> datetime:
        at = self._at(row, key)
        if at is None:
            raise _NotRead(key, otherwise)
        return at

    def _who(self, row: Filled, key: str) -> str:
        """Somebody of the crew."""
        if not row.text(key):
            raise _NotRead(key, "say who")
        return self._read(row, key, partial(whom, self.plan))

    # --- the parts ----------------------------------------------------------------------------

    def _look(self, row: Filled) -> Iterator[_Step]:
        released, until, why = (row.text(key) for key in ("released", "until", "why"))
        if bool(released) == bool(until):
            raise _NotRead("released", "mark it as released, or say until when it stays")
        who = self._who(row, "who")
        at = self._must_at(row, "at", "say when it was looked at")
        act: Released | Extended = Released(row.row.about, why)
        if until:
            today = Today(self.day, self.plan.vehicle.work_days)
            end = self._read(row, "until", partial(as_typed.moment, today=today))
            act = Extended(row.row.about, None, end, why)
        yield _Step(_LOOKED, at, act, who)

    def _visitor(self, row: Filled) -> tuple[str, str]:
        """The id of somebody of the crew, else a guest's name."""
        typed = row.row.about or row.text("name")
        if not typed:
            raise _NotRead("name", "say who it was")
        before, word, _ = typed.casefold().rpartition("guest")
        if word and typed.casefold().endswith("guest") and before.strip(" ,("):
            return "", typed[: len(before)].strip(" ,(")
        if row.row.about or typed in self.guests:
            return ("", typed) if typed in self.guests else (typed, "")
        try:
            return whom(self.plan, typed), ""
        except Unread as unread:
            raise _NotRead("name", f'{unread}; of a guest write "{typed}, guest"') from None

    def _visit(self, row: Filled) -> Iterator[_Step]:
        who, guest = self._visitor(row)
        came, left = self._at(row, "came"), self._at(row, "left")
        if came is None and left is None:
            raise _NotRead("came", "say when they signed in")
        if came is not None and left is not None and left < came:
            raise _NotRead("left", "they would have signed out before they signed in")
        if came is not None:
            yield _Step(_CAME, came, SignIn(who) if who else GuestCame(guest))
        if left is not None:
            yield _Step(_LEFT, left, SignOut(who) if who else GuestLeft(guest))

    def _check(self, row: Filled) -> Iterator[_Step]:
        comes_round = row.row.first == DURING  # at times of its own
        for key in ("who",) if comes_round else ("who", "at"):
            above = row.row.part, key
            self._above[above] = row.text(key) or self._above.get(above, "")
            row = row._replace(texts={**row.texts, key: self._above[above]})
        who = self._who(row, "who")
        times = self._times(row) if comes_round else [self._must_at(row, "at", _WHEN_SIGNED)]
        hazard, _, check = row.row.about.partition("/")
        concerns = row.row.concerns
        if any(blank.key == "concerns" for blank in row.row.blanks):
            concerns = self._who(row, "concerns")
        named, why = self._named(row)
        signed = CheckSigned(hazard, check, who, row.row.task, True, why, concerns, named)
        for at in times:
            rank = _RANK_OF_CHECK.get(row.row.first, _CHECKED)
            yield _Step(_CLOSED if row.row.part == "to close" else rank, at, signed)

    def _times(self, row: Filled) -> list[datetime]:
        """ "10:00, 10:30"."""
        typed = as_typed.names(row.text("at")) or ("",)
        return [self._must_at(row._replace(texts={"at": one}), "at", _WHEN_SIGNED) for one in typed]

    def _named(self, row: Filled) -> tuple[tuple[str, ...], str]:
        """Whom a signing names, else why there is nobody."""
        nobody, _, why = row.text("named").partition(":")
        if nobody.strip().casefold() == "nobody":
            return (), why.strip()
        return self._read(row, "named", self._people), ""

    def _people(self, typed: str) -> tuple[str, ...]:
        return tuple(whom(self.plan, name) for name in as_typed.names(typed))

    def _job(self, row: Filled) -> Iterator[_Step]:
        task = row.row.about or self._read(row, "task", partial(task_of, self.plan))
        people = self._read(row, "on it", partial(on_job, self.plan, self.guests))
        begun, ended, stopped = (self._at(row, key) for key in ("begun", "finished", "stopped"))
        note, end = row.text("note"), ended or stopped
        if ended is not None and stopped is not None:
            raise _NotRead("stopped", "it was finished, or it goes on another day")
        if begun is not None and end is not None and end < begun:
            raise _NotRead("begun", "it would have ended before it began")
        if begun is not None:
            yield _Step(_BEGUN, begun, begin_of(task, people))
        for one in people:
            if one.hours:
                at = end or self.left.get(one.who or one.guest, self.latest)
                yield _Step(_WORKED, at, hours_of(task, one))
        if end is not None:
            finished = ended is not None
            act = Finished(task, None, note) if finished else Stopped(task, note)
            yield _Step(_ENDED, end, act)
        elif note:
            yield _Step(_NOTED, begun or self.latest, Noted(note, task))

    def _shop(self, row: Filled) -> Iterator[_Step]:
        if row.row.about == "note":
            yield _Step(_NOTED, self.latest, Noted(row.text("note")))
            return
        at = self._must_at(row, "at", "say when it was read")
        units = self.plan.vehicle.units
        celsius = humidity = None
        if row.text("temperature"):
            celsius = self._read(row, "temperature", partial(as_kept, kept="°C", units=units))
        if row.text("humidity"):
            humidity = self._read(row, "humidity", partial(as_kept, kept="%", units=units))
        yield _Step(_READ, at, Reading(celsius, humidity))
