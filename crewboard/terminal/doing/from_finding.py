"""What comes of a finding, which names it: a task, a hold, a piece kept for ever, an order."""

from __future__ import annotations

from crewboard.folder.edit.from_finding import home_of, kept_from, task_from
from crewboard.logbook.acts import Found, HoldStarted, Ordered
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.numbered import PickNumbered
from crewboard.terminal.dialogs.pick import Choice, PickOne, with_key
from crewboard.terminal.doing.entry_form import write_entry
from crewboard.terminal.letters import COMES_OF_IT
from crewboard.terminal.planning import choices
from crewboard.terminal.planning.written import change_here

_WAYS = (
    Choice("task", "a task", "it is done to its piece, in its component"),
    Choice("hold", "a hold", "a decision or an approval that is awaited, something that sets"),
    Choice("keep", "kept for ever", "the piece stays as it is"),
    Choice("order", "an order", "a supply that was ordered for it"),
)


async def from_finding(app: BoardApp, entry: Entry, answer: str | None = "") -> bool:
    """Ask what comes of it, unless that is known, and write that; whether it was kept."""
    act = entry.act
    if not isinstance(act, Found):
        return False
    on_piece = act.piece in app.board.plan.pieces
    ways = [with_key(way, COMES_OF_IT) for way in _WAYS if on_piece or way.id != "keep"]
    if answer == "keep" and not on_piece:
        app.tell("it is of no piece: only a piece is kept for ever", warning=True)
        return False
    if not answer:
        answer = await app.push_screen_wait(PickNumbered("What comes of it", ways, intro=act.seen))
    match answer:
        case "task":
            return await _task(app, entry, act)
        case "hold":
            preset = {
                "finding": entry.id,
                "piece": act.piece,
                "component": "" if act.piece else act.component,
                "task": "",
            }
            return await write_entry(app, KINDS_OF_ENTRY[HoldStarted], preset)
        case "order":
            return await write_entry(app, KINDS_OF_ENTRY[Ordered], {"finding": entry.id})
        case "keep":
            refused = change_here(app, kept_from(app.board.plan, entry), "a piece kept for ever")
            if refused:
                app.tell(refused[0].says, warning=True)
            return not refused
    return False


async def _task(app: BoardApp, entry: Entry, act: Found) -> bool:
    home = home_of(app.board.plan, act)
    if not home:
        picked = await app.push_screen_wait(
            PickOne("In which component?", choices.home_choices(app.board))
        )
        if picked is None:
            return False
        home = picked
    title = await app.push_screen_wait(AskLine("A task from the finding", "title", intro=act.seen))
    if not title:
        return False
    refused = change_here(app, [task_from(app.board.plan, entry, title, home)], f'"{title}"')
    app.tell(refused[0].says if refused else f'"{title}" is in the plan', warning=bool(refused))
    return not refused
