"""What may be written into the record of the vehicle: what cannot be is refused; discarding, a copy
without evidence and what is kept for ever ask for two people, or a lead."""

import re
from collections.abc import Iterator

from crewboard.fabric.fabric import Fabric, PieceRecord, fabric_of
from crewboard.fabric.pictured import shown_before
from crewboard.fabric.place import Contradiction
from crewboard.logbook.acts import (
    Act,
    DoneTo,
    EarlierRepair,
    Found,
    Gone,
    Layers,
    Measured,
    Reckoned,
    Reused,
    TakenOff,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.done import DONE, NEW_PART, PEOPLE_WHO_AGREE, REPLACED
from crewboard.order.admit.contradicted import (
    contradicted_by,
    contradiction_in_words,
    doing,
)
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.said import day_in_words, piece_name
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan

# Minutes and seconds, or hours before them; "12" is minute 12.
_MINUTE = re.compile(r"[0-9]{1,3}(?::[0-5][0-9]){0,2}")
_NEW = "~"  # the id of the entry that is asked about, while it has none


def record_refusals(board: Board, act: Act, by: str = "") -> list[Refusal]:
    """What stands against an entry of the record that `by` writes; its pieces are known."""
    empty = [_empty(field) for field in fields_of(type(act)) if _is_empty(act, field)]
    if empty:
        return empty
    if isinstance(act, Reckoned) and act.way and not by:
        return [
            Refusal("who", "say who chose among the ways", "a person of the crew answers for it")
        ]
    against = [*_names_of_no_entry(board, act), *_discard(board, act), *_conjecture(board, act)]
    against += [*_kept_for_ever(board, act), *_approval_awaited(board, act), *_minute(act)]
    asked = _new_contradictions(board, board.logbook, act)
    return against + [_refused(board, odd) for odd in asked if _is_new(odd) and not odd.yields]


def record_doubts(board: Board, logbook: Logbook, act: Act) -> list[Refusal]:
    """What hardly can be of an entry of the record; each yields to a named person's reason."""
    doubted = [
        _refused(board, odd)._replace(yields=True)
        for odd in _new_contradictions(board, logbook, act)
        if odd.yields or not _is_new(odd)
    ]
    if isinstance(act, DoneTo) and act.action == "copied on evidence" and not act.grade:
        sentence = f"nobody said how well the copy of {_name(board, act.piece)} is borne out"
        doubted.append(Refusal("grade", sentence, "say the evidence, A to E, or why not", True))
    return [*doubted, *_which_one(board, logbook, act), *_of_another_time(board, logbook, act)]


# --- fields --------------------------------------------------------------------------------------


def _is_empty(act: Act, field: EntryField) -> bool:
    value = getattr(act, field.name)
    blank = not value.strip() if isinstance(value, str) else value == ()
    return field.needed and field.kind in ("text", "texts") and blank


def _minute(act: Act) -> Iterator[Refusal]:
    """Where in a recording it is said: of a recording that is named, as 12:30 or 1:02:30."""
    if not isinstance(act, Found) or not act.minute:
        return
    if not act.recording:
        yield Refusal("minute", f"no recording is named for minute {act.minute}", "name its file")
    elif not _MINUTE.fullmatch(act.minute):
        mend = "write minutes and seconds, such as 12:30"
        yield Refusal("minute", f'"{act.minute}" is no place in a recording', mend)


def _empty(field: EntryField) -> Refusal:
    return Refusal("empty", f"say {field.asked}", field.help)


def _names_of_no_entry(board: Board, act: Act) -> Iterator[Refusal]:
    """Findings, papers and temporary things that are named by the id of their entry."""
    for field in fields_of(type(act)):
        if field.names != "entry":
            continue
        value = getattr(act, field.name)
        for entry_id in value if field.many else (value,) * bool(value):
            place = board.logbook.find(entry_id)
            if place is None:
                yield Refusal(
                    "no-entry", f'there is no entry "{entry_id}"', "look it up in the log"
                )
            elif field.kind == "finding" and not isinstance(place[1].act, Found):
                yield Refusal("no-finding", f'"{entry_id}" is no finding')


# --- who has to say so ---------------------------------------------------------------------------


def _discard(board: Board, act: Act) -> Iterator[Refusal]:
    if isinstance(act, Gone) and act.how == "discarded" and len(set(act.agreed)) < PEOPLE_WHO_AGREE:
        sentence = f"two people agree before {_name(board, act.piece)} is discarded"
        yield Refusal("agree", sentence, "name both who agree", True, lead=True)


def _conjecture(board: Board, act: Act) -> Iterator[Refusal]:
    if isinstance(act, DoneTo) and act.grade == "E":
        sentence = f"nothing bears out the copy of {_name(board, act.piece)}: it is conjecture"
        mend = "look for evidence; it will show as conjecture for ever"
        yield Refusal("conjecture", sentence, mend, True, lead=True)


def _kept_for_ever(board: Board, act: Act) -> Iterator[Refusal]:
    """A kept piece is what was found there: what took its place long ago is not kept."""
    changed = (*NEW_PART, "repaired in place")
    alters = isinstance(act, (Gone, Reused)) or (isinstance(act, DoneTo) and act.action in changed)
    if not alters:
        return
    piece = board.plan.pieces[act.piece]  # type: ignore[union-attr]
    if piece.keep and _record_of(board, board.logbook, piece.id).current.number == 0:
        sentence = (
            f"{piece.name} is kept for ever as it is: it is not {doing(_as_entry(board, act))}"
        )
        yield Refusal("kept", sentence, "leave it as it is", True, lead=True)


def _approval_awaited(board: Board, act: Act) -> Iterator[Refusal]:
    """What the owner or curator is asked about does not go before there is an answer."""
    goes = isinstance(act, (Gone, Reused)) or (isinstance(act, DoneTo) and act.action in NEW_PART)
    if not goes:
        return
    piece_id: str = act.piece  # type: ignore[union-attr]
    for hold in board.stopping():
        if hold.kind == "approval" and piece_id in hold.pieces and hold.keeps_pieces:
            said = "; ".join(filter(None, (hold.note, hold.refused)))
            asked = f" ({said})" if said else ""
            since = day_in_words(hold.since)
            sentence = f"{_name(board, piece_id)} awaits an approval since {since}{asked}"
            mend = "release the hold with the answer first"
            yield Refusal("approval", sentence, mend, True, lead=True)


# --- what cannot be ------------------------------------------------------------------------------


def _new_contradictions(board: Board, logbook: Logbook, act: Act) -> list[Contradiction]:
    if not isinstance(act, DONE):
        return []
    return contradicted_by(board.plan, logbook, _as_entry(board, act))


def _as_entry(board: Board, act: Act) -> Entry:
    return Entry(_NEW, board.at, act)


def _is_new(odd: Contradiction) -> bool:
    return odd.entry.id == _NEW


def _refused(board: Board, odd: Contradiction) -> Refusal:
    sentence, mend = contradiction_in_words(board.plan, odd)
    if not _is_new(odd):
        sentence = (
            f"then what was written for {day_in_words(odd.entry.at)} could not be: {sentence}"
        )
        mend = "write it right, or say why it is so"
    return Refusal(odd.code.replace(" ", "-"), sentence, mend, odd.yields)


def _which_one(board: Board, logbook: Logbook, act: Act) -> Iterator[Refusal]:
    """Where the one found is put away and a new one is made, it is seldom the new one that goes."""
    if not isinstance(act, Gone) or act.old:
        return
    record = _record_of(board, logbook, act.piece)
    newest = record.things[-1]
    if newest.number > record.current.number and newest.where in ("made", "put away"):
        name, where = _name(board, act.piece), record.current.whereabouts
        sentence = f"the new {name} would be {act.how}; the one before it is {where}"
        mend = "say that the old piece is meant (--old), or why the new one goes"
        yield Refusal("which-one", sentence, mend, True)


# --- other times ---------------------------------------------------------------------------------


def _of_another_time(board: Board, logbook: Logbook, act: Act) -> Iterator[Refusal]:
    """A feature of a time that the vehicle does not show is recorded before it goes."""
    goes = isinstance(act, (Gone, Reused, TakenOff))
    if not (goes or (isinstance(act, DoneTo) and act.action in REPLACED)):
        return
    piece_id: str = act.piece  # type: ignore[union-attr]
    of_time = other_time(board.plan, board.plan.pieces[piece_id])
    if not of_time:
        return
    record = _record_of(board, logbook, piece_id)
    if record.current.number == 0 and not _recorded(board, logbook, record):
        sentence = f"nothing of {record.piece.name} ({of_time}) is recorded before it goes"
        mend = "write a finding on it or sort a picture of before first, or say why not"
        yield Refusal("other-time", sentence, mend, True)


def other_time(plan: Plan, piece: Piece) -> str:
    """Of which other time a piece is than the vehicle shows, in words: "of the war years". Empty
    where it is of that time, or nobody said which is shown."""
    vehicle = plan.vehicle
    shown = vehicle.periods.get(vehicle.shows)
    if not vehicle.shows or piece.spare:
        return ""
    if piece.period:
        same = (vehicle.shows, shown.name if shown else "")
        return "" if piece.period in same else f"of {vehicle.time_in_words(piece.period)}"
    return (
        f"found as {piece.as_found}" if piece.as_found in ("later change", "earlier repair") else ""
    )


def _recorded(board: Board, logbook: Logbook, record: PieceRecord) -> bool:
    seen = (Found, EarlierRepair, Measured, Layers)
    if any(isinstance(entry.act, seen) for entry in record.entries):
        return True
    return shown_before(_fabric(board, logbook), record, board.at)


def _record_of(board: Board, logbook: Logbook, piece_id: str) -> PieceRecord:
    return _fabric(board, logbook).pieces[piece_id]


def _fabric(board: Board, logbook: Logbook) -> Fabric:
    """That of the board, but for what this very operation wrote before."""
    return board.fabric if logbook is board.logbook else fabric_of(board.plan, logbook, board.at)


def _name(board: Board, piece_id: str) -> str:
    return piece_name(board.plan, piece_id)
