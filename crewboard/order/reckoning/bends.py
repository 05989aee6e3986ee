"""The bends that the shop made, from the logbook."""

from datetime import datetime

from crewboard.logbook.acts import Bent
from crewboard.logbook.logbook import Logbook
from crewboard.plan.as_typed import Unread
from crewboard.plan.length import Length, length
from crewboard.trade.springback import Bend


def own_bends(logbook: Logbook, at: datetime) -> tuple[Bend, ...]:
    """The shop's own bends up to a moment, in order of time; one with a length that is none is left
    out, and told by `check`. Of a piece measured again later the last counts: it is one bend."""
    kept = sorted((e for e in logbook.record() if e.at <= at), key=lambda entry: entry.at)
    last: dict[tuple[str, ...], Bent] = {}
    for entry in kept:
        if isinstance(entry.act, Bent):
            one = _which(entry.act) if entry.act.piece else (entry.id,)
            last.pop(one, None)
            last[one] = entry.act
    bends = map(bend_in, last.values())
    return tuple(bend for bend in bends if bend is not None)


def _which(act: Bent) -> tuple[str, ...]:
    return act.piece, act.species, act.thickness, act.form, act.chord


def bend_in(act: Bent) -> Bend | None:
    """The bend that an entry tells; None where a length in it is none."""
    try:
        thickness, form, came_to = (length(t) for t in (act.thickness, act.form, act.came_to))
        chord: Length | None = length(act.chord) if act.chord else None
    except Unread:
        return None
    if not (thickness.mm and form.mm and came_to.mm) or (chord is not None and not chord.mm):
        return None
    days = None if act.days is None else round(act.days)
    species = act.species.replace(",", " ")
    return Bend(species, thickness, form, came_to, chord, round(act.plies or 1), days, act.stored)
