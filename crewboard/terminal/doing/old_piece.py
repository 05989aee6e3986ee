"""Ask where an old piece lies now: a place named before by one key more, or put on the list."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.fabric.unplaced import Unplaced, places_used, unplaced
from crewboard.logbook.acts import Act, Gone, Stored
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.record.done import HOW_GONE
from crewboard.telling.fabric import unplaced_in_words
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOrName
from crewboard.terminal.doing.entry_form import write_entry

_LATER, OTHER = "~later", "~other"
NEW_PLACE = "a new place"
_MOST = 12  # places offered: more than that are typed


async def place_old_pieces(app: BoardApp, tasks: Iterable[str]) -> None:
    """After work on pieces: of each old one that lies nobody knows where, ask."""
    plan = app.board.plan
    pieces = [piece for task in tasks for piece in plan.tasks[task].pieces]
    if not pieces:
        return
    for one in list(unplaced(app.workbench.fabric(app.now()), pieces)):
        if not await place_old_piece(app, one):
            return


async def place_old_piece(app: BoardApp, one: Unplaced) -> bool:
    """Ask of one; False where the person left the question, so that no more are put."""
    name = unplaced_in_words(app.board.plan, one)
    title = f"Where is {name} now?"
    choices = [
        *place_choices(app),
        *(Choice(how, how) for how in HOW_GONE),
        Choice(_LATER, "not known yet", "it stays on the list of gaps"),
    ]
    answer = await app.push_screen_wait(PickOrName(title, choices, new=NEW_PLACE))
    match answer:
        case None:
            return False
        case "~later":
            return True
        case "~other":
            place = await type_place(app, title)
            return place is not None and await _keep(app, Stored(one.piece, place, one.old))
        case "given away" | "discarded" | "lost":
            kind = KINDS_OF_ENTRY[Gone]
            preset = {"piece": one.piece, "how": answer, "old": one.old}
            return await write_entry(app, kind, preset, f"{name}: {answer}")
    return await _keep(app, Stored(one.piece, answer, one.old))


def place_choices(app: BoardApp) -> list[Choice]:
    """The places where things lie already, the last one named first, and one to be typed."""
    places = places_used(app.workbench.fabric(app.now()))[:_MOST]
    return [*(Choice(place, place) for place in places), Choice(OTHER, "another place", "type it")]


async def type_place(app: BoardApp, title: str) -> str | None:
    """Ask for a place in words."""
    return await app.push_screen_wait(AskLine(title, hint="shelf 3"))


async def _keep(app: BoardApp, act: Act) -> bool:
    outcome = await app.keep([act])
    if outcome.kept:
        app.tell("saved where it lies")
    return outcome.kept
