"""Reckon for a task, a piece or a component: which kind, what is given, the answer, kept."""

from __future__ import annotations

from crewboard.logbook.acts import Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.reckoning.asked import For, kept_for
from crewboard.order.reckoning.known import facts_of, kinds_for, known_for
from crewboard.order.said import day_in_words
from crewboard.plan.as_typed import Unread
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.numbered import PickNumbered
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.doing.reckon_kept import keep, other_with
from crewboard.terminal.doing.reckon_worked import Reckoner, ToReckon, named, title, typed_before
from crewboard.terminal.forms.reckon_form import ReckonForm
from crewboard.trade.kinds import KINDS, kind_named

__all__ = ["For", "reckon"]

_ANEW = "~"  # before the id of a kept answer among the choices


async def reckon(app: BoardApp, of: For) -> bool:
    """Ask what is to be reckoned and what is given, show the answer; whether it was kept."""
    asked = await _which(app, of)
    if asked is None:
        return False
    try:
        typed = typed_before(asked)
    except Unread as unread:
        app.tell(f"what was given cannot be read any more: {unread.sentence}", warning=True)
        typed = {}
    while True:
        worked = Reckoner(app.board, asked, typed)
        known = known_for(asked.kind, facts_of(app.board, *of))
        form = ReckonForm(title(app.board, asked), asked.kind, known, typed, worked.take)
        if not await app.push_screen_wait(form):
            return False
        word = await _shown(app, worked)
        if word != "edit":
            return word == "kept"
        typed = worked.given.typed


async def _shown(app: BoardApp, worked: Reckoner) -> str:
    """The card, till it is left, kept or to be edited: what is begun from it and given up comes
    back to it."""
    while True:
        card = worked.card()
        word = await app.push_screen_wait(card)
        worked.looked |= card.looked
        match word:
            case "keep" | "begin":
                if await keep(app, worked, clock=word == "begin"):
                    return "kept"
            case "other":
                if await other_with(app, worked):
                    return "kept"
            case _:
                return word or ""


async def _which(app: BoardApp, of: For) -> ToReckon | None:
    """The kinds that fit first, then what is kept, then all others."""
    board = app.board
    fitting = kinds_for(board, of.task or of.component)
    kept = {f"{_ANEW}{entry.id}": entry for entry in kept_for(board, of)}
    choices = [
        *(Choice(name, KINDS[name].says, tone="safe", find=name) for name in fitting),
        *(Choice(some_id, _kept(entry)) for some_id, entry in kept.items()),
        *(Choice(n, kind.says, find=n) for n, kind in KINDS.items() if n not in fitting),
    ]
    name = named(board, of)
    again = _last(app)
    heading = f"Reckon: {name}" if name else "Reckon"
    picked = await app.push_screen_wait(PickNumbered(heading, choices, again=again))
    if picked is None:
        return None
    if picked in kept:
        entry = kept[picked]
        assert isinstance(entry.act, Reckoned)
        if entry.act.about not in KINDS:
            app.tell("this is not reckoned any more", warning=True)
            return None
        return ToReckon(kind_named(entry.act.about), of, entry)
    app.last_reckoned = picked
    return ToReckon(kind_named(picked), of)


def _last(app: BoardApp) -> Choice | None:
    name = app.last_reckoned
    return Choice(name, f"again: {KINDS[name].says}") if name else None


def _kept(entry: Entry) -> str:
    assert isinstance(entry.act, Reckoned)
    return f"anew, of {day_in_words(entry.at.date())}: {entry.act.answer}"
