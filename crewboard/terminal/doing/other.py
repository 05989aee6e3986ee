"""Write a note; and what is done with a task less often: reopen it, set it aside, say what is left,
an accident."""

from __future__ import annotations

from crewboard.logbook.acts import (
    GuestHours,
    HazardRuledOut,
    HoursLeft,
    Incident,
    Noted,
    PieceFailed,
    Reopened,
    SetAside,
    Stopped,
    TookPlace,
)
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.logbook.visits import guest_visits
from crewboard.order.said import task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.entry_form import write_entry
from crewboard.terminal.doing.stop import stop


async def note(app: BoardApp, task_id: str) -> None:
    """Ask for the note and write it."""
    on = f'on "{task_title(app.board.plan, task_id)}"' if task_id else "on the day"
    text = await app.push_screen_wait(AskLine("Note", on))
    if text and (await app.keep([Noted(text, task_id)])).kept:
        app.tell("noted")


async def other(app: BoardApp, task_id: str) -> None:
    """Offer what fits the task as it stands, and do what is picked."""
    kinds = {kind.word: kind for kind in KINDS_OF_ENTRY.values() if _fits(app, kind, task_id)}
    left = [kind for kind in kinds.values() if kind.act in (Stopped, HoursLeft)]
    rest = [kind for kind in kinds.values() if kind not in left]
    rest.sort(key=lambda kind: kind.act is not Incident)  # help is wanted in a hurry
    choices = [*map(_choice, left), *_for_task(app, task_id), *map(_choice, rest)]
    answer = await app.push_screen_wait(PickOne("Other", choices))
    match answer:
        case None:
            return
        case "stopped":
            await stop(app, task_id)
        case "reopen":
            await _reopen(app, task_id)
        case "aside":
            await _set_aside(app, task_id)
        case "back":
            if (await app.keep([SetAside(task_id, back=True)])).kept:
                app.tell("taken up again")
        case _:
            await _write(app, kinds[answer], task_id)


def _for_task(app: BoardApp, task_id: str) -> list[Choice]:
    if task_id not in app.board.standings:
        return []
    standing = app.board[task_id]
    if standing.work_done:
        return [Choice("reopen", "reopen", "it has to be worked on again")]
    if standing.state == "set aside":
        return [Choice("back", "take up again", "it was set aside")]
    return [Choice("aside", "set aside", "not to be done for now")]


def _fits(app: BoardApp, kind: KindOfEntry, task_id: str) -> bool:
    """Whether the kind is written by hand, and can be of the task."""
    if not kind.menu:
        return False
    if kind.act is HoursLeft:
        known = task_id in app.board.standings
        return (
            known and not app.board[task_id].work_done and app.board[task_id].state != "set aside"
        )
    if kind.act is GuestHours:
        return any(guest_visits(app.board.logbook.days.get(app.board.at.date())))
    if kind.act is Stopped:
        standing = app.board.standings.get(task_id)
        open_work = standing is not None and standing.begun and not standing.work_done
        return bool(open_work) and app.board[task_id].stopped is None
    if kind.act in (PieceFailed, TookPlace):
        return bool(app.board.plan.pieces)
    if kind.act is HazardRuledOut:
        from crewboard.order.safety.unnamed import unanswered  # reads the words of every sheet

        task = app.board.plan.tasks.get(task_id)
        return task is not None and any(unanswered(app.board, [task]))
    return bool(task_id) or not _needs_a_task(kind)


def _needs_a_task(kind: KindOfEntry) -> bool:
    return any(field.needed and field.kind == "task" for field in kind.fields)


def _choice(kind: KindOfEntry) -> Choice:
    return Choice(kind.word, kind.title.lower(), kind.menu)


async def _write(app: BoardApp, kind: KindOfEntry, task_id: str) -> None:
    """The form of the kind, on the task where it has room for one."""
    on_task = task_id and any(field.name == "task" for field in kind.fields)
    named = task_title(app.board.plan, task_id)
    title = f"{kind.title}: {named}" if on_task and kind.act is not Incident else ""
    intro = _first_help(app) if kind.act is Incident else ""
    if await write_entry(app, kind, {"task": task_id} if on_task else {}, title, intro):
        app.tell("kept in the logbook")


def _first_help(app: BoardApp) -> str:
    shop = app.board.plan.vehicle.shop
    call = f"Help first, and call: {shop.emergency}." if shop.emergency else "Help first."
    hospital = f" Hospital: {shop.hospital}." if shop.hospital else ""
    return f"{call}{hospital} What the law may ask to be reported: crewboard report incidents."


async def _reopen(app: BoardApp, task_id: str) -> None:
    title = task_title(app.board.plan, task_id)
    why = await app.push_screen_wait(
        AskLine(f"Reopen: {title}", "why; what its finish started is void", needed=False)
    )
    if why is not None and (await app.keep([Reopened(task_id, why)])).kept:
        app.tell(f"reopened: {title}")


async def _set_aside(app: BoardApp, task_id: str) -> None:
    title = task_title(app.board.plan, task_id)
    why = await app.push_screen_wait(AskLine(f"Set aside: {title}", "why"))
    if why and (await app.keep([SetAside(task_id, why)])).kept:
        app.tell(f"set aside: {title}")
