"""Write a note; and what is done with a task less often: reopen it, set it aside, say what is left,
an accident."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.logbook.acts import (
    Act,
    GuestHours,
    HazardRuledOut,
    HoursLeft,
    Incident,
    Noted,
    PieceFailed,
    Reopened,
    SetAside,
    Steamed,
    Stopped,
    TookPlace,
)
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.logbook.on_several import on_tasks
from crewboard.logbook.state import STATES
from crewboard.logbook.visits import guest_visits
from crewboard.order.said import component_name, piece_name
from crewboard.order.steam import bends
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.note import About, NoteDialog, NoteText
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.entry_form import write_entry
from crewboard.terminal.doing.others import Other, as_choice
from crewboard.terminal.doing.stop import stop
from crewboard.terminal.doing.type_in_sheet import type_in_sheet
from crewboard.terminal.doing.which import TO_DO, named, which
from crewboard.terminal.meant import Meant


async def note(app: BoardApp, meant: Meant) -> bool:
    """Ask for the note and write it on each of the tasks, or on the day."""
    tasks = await which(app, meant, "Note on which", STATES) if meant.tasks else ()
    if meant.tasks and not tasks:
        return False
    has_pictures = (app.workbench.folder.root / "pictures").is_dir()
    abouts, written = _abouts(app, tasks), None
    while True:
        dialog = NoteDialog(abouts, pictures=has_pictures, refused=written)
        written = await app.push_screen_wait(dialog)
        if written is None:
            return False
        if (await app.keep(_noted(written))).kept:
            break
    app.tell("noted")
    return True


def _noted(written: NoteText) -> list[Act]:
    about = written.about
    return [
        Noted(written.text, task, about.component, about.piece, written.pictures)
        for task in about.tasks or ("",)
    ]


def _abouts(app: BoardApp, tasks: Sequence[str]) -> list[About]:
    """What a note can be about: the tasks, their pieces, their components, the day."""
    plan = app.board.plan
    abouts = [About(f"the task {named(app.board, tasks)}", tuple(tasks))] if tasks else []
    pieces = dict.fromkeys(p for task in tasks for p in plan.tasks[task].pieces)
    if len(pieces) == 1:
        (piece,) = pieces
        abouts.append(About(piece_name(plan, piece), piece=piece))
    components = dict.fromkeys(plan.tasks[task].component for task in tasks)
    abouts += [About(f"the whole of {component_name(plan, c)}", component=c) for c in components]
    return [*abouts, About("the day")]


async def other(
    app: BoardApp, meant: Meant, *, first: Sequence[Other] = (), last: Sequence[Other] = ()
) -> bool:
    """Offer what fits the tasks as they stand, `first` and `last` what the page itself has, and do
    what is picked; whether it was kept."""
    kinds = {kind.word: kind for kind in KINDS_OF_ENTRY.values() if _fits(app, kind, meant.tasks)}
    left = [kind for kind in kinds.values() if kind.act in (Stopped, HoursLeft)]
    rest = [kind for kind in kinds.values() if kind not in left]
    rest.sort(key=lambda kind: kind.act is not Incident)  # help is wanted in a hurry
    of_piece = [kind for kind in rest if kind.act in (PieceFailed, TookPlace)]
    if any(app.board.plan.tasks[task].pieces for task in meant.tasks):
        rest = [*of_piece, *(kind for kind in rest if kind not in of_piece)]
    choices = [*map(_choice, left), *_for_tasks(app, meant.tasks), *map(_choice, rest)]
    choices.append(Choice("sheet", "filled sheet", "type in a morning sheet filled by hand"))
    choices += _PICTURES
    own = {deed.word: deed for deed in (*first, *last)}
    choices = [*map(as_choice, first), *choices, *map(as_choice, last)]
    answer = await app.push_screen_wait(PickOne("Other", choices))
    if answer in own:
        return bool(await own[answer].do())
    match answer:
        case None:
            return False
        case "stopped":
            tasks = await which(app, meant, "Stop which", ("under way",))
            return bool(tasks) and await stop(app, tasks)
        case "reopen":
            return await _reopen(app, meant)
        case "aside":
            return await _set_aside(app, meant)
        case "back":
            return await _take_up_again(app, meant)
        case "sheet":
            return await type_in_sheet(app)
        case "sort" | "take in" | "paste":
            return await _of_pictures(app, answer)
    kind = kinds[answer]
    if kind.act in (PieceFailed, TookPlace):
        from crewboard.terminal.doing.pieces import spare_for_tasks, tasks_piece_failed

        return await (tasks_piece_failed if kind.act is PieceFailed else spare_for_tasks)(
            app, meant
        )
    if kind.act is HoursLeft:
        tasks = await which(app, meant, "Hours left of which", TO_DO)
        return bool(tasks) and await _write(app, kind, tasks)
    return await _write(app, kind, meant.tasks if len(meant.tasks) == 1 else ())


_PICTURES = (
    Choice("sort", "pictures to sort", "say what pictures and recordings show"),
    Choice("take in", "take in pictures", "from a phone, a camera or a stick"),
    Choice("paste", "paste findings", "a dictated text, a finding a line"),
)


async def _of_pictures(app: BoardApp, what: str) -> bool:
    """What was dictated, photographed or recorded elsewhere."""
    from crewboard.terminal.doing.dictated import paste_findings
    from crewboard.terminal.doing.take_in import take_in

    if what == "sort":
        from crewboard.terminal.screens.sorting import SortingPage

        app.push_screen(SortingPage())
        return False
    return await (take_in if what == "take in" else paste_findings)(app)


def _for_tasks(app: BoardApp, tasks: Sequence[str]) -> list[Choice]:
    standings = [app.board[task] for task in tasks if task in app.board.standings]
    choices = []
    if any(standing.work_done for standing in standings):
        choices.append(Choice("reopen", "reopen", "it has to be worked on again"))
    if any(standing.state == "set aside" for standing in standings):
        choices.append(Choice("back", "pick up again", "it was set aside"))
    if any(not s.work_done and s.state != "set aside" for s in standings):
        choices.append(Choice("aside", "set aside", "not to be done for now"))
    return choices


def _fits(app: BoardApp, kind: KindOfEntry, tasks: Sequence[str]) -> bool:
    """Whether the kind is written by hand, and can be of the tasks."""
    if not kind.menu:
        return False
    known = [app.board[task] for task in tasks if task in app.board.standings]
    if kind.act is HoursLeft:
        return any(not s.work_done and s.state != "set aside" for s in known)
    if kind.act is GuestHours:
        return any(guest_visits(app.board.logbook.days.get(app.board.at.date())))
    if kind.act is Steamed:
        return any(
            s.begun and not s.work_done and s.stopped is None and bends(s.task) for s in known
        )
    if kind.act is Stopped:
        return any(s.begun and not s.work_done and s.stopped is None for s in known)
    if kind.act in (PieceFailed, TookPlace):
        return bool(app.board.plan.pieces)
    if kind.act is HazardRuledOut:
        from crewboard.order.safety.unnamed import unanswered  # reads the words of every sheet

        return len(known) == 1 and any(unanswered(app.board, [known[0].task]))
    return len(known) == 1 or not _needs_a_task(kind)


def _needs_a_task(kind: KindOfEntry) -> bool:
    return any(field.needed and field.kind == "task" for field in kind.fields)


def _choice(kind: KindOfEntry) -> Choice:
    return Choice(kind.word, kind.title.lower(), kind.menu)


async def _write(app: BoardApp, kind: KindOfEntry, tasks: Sequence[str]) -> bool:
    """The form of the kind, on the tasks where it has room for one; hours that are said of several
    are divided equally."""
    on_task = bool(tasks) and any(field.name == "task" for field in kind.fields)
    title = (
        f"{kind.title}: {named(app.board, tasks)}" if on_task and kind.act is not Incident else ""
    )
    intro = _first_help(app) if kind.act is Incident else ""
    if len(tasks) > 1:
        intro = f"Divided equally over {len(tasks)} tasks."

    def on_each(act: Act) -> Sequence[Act]:
        return on_tasks(act, tasks) if on_task else [act]

    preset = {"task": tasks[0]} if on_task else {}
    kept = await write_entry(app, kind, preset, title, intro, spread=on_each)
    if kept:
        app.tell("saved in the logbook")
    return kept


def _first_help(app: BoardApp) -> str:
    shop = app.board.plan.vehicle.shop
    call = f"Help first, and call: {shop.emergency}." if shop.emergency else "Help first."
    hospital = f" Hospital: {shop.hospital}." if shop.hospital else ""
    return f"{call}{hospital} What the law may ask to be reported: crewboard report incidents."


async def _reopen(app: BoardApp, meant: Meant) -> bool:
    tasks = await which(app, meant, "Reopen which", ("finished",))
    if not tasks:
        return False
    title = named(app.board, tasks)
    why = await app.push_screen_wait(
        AskLine(f"Reopen: {title}", "why; what its finish started is void", needed=False)
    )
    return why is not None and await _kept(
        app, [Reopened(task, why) for task in tasks], f"reopened: {title}"
    )


async def _set_aside(app: BoardApp, meant: Meant) -> bool:
    tasks = await which(app, meant, "Set aside which", TO_DO)
    if not tasks:
        return False
    title = named(app.board, tasks)
    why = await app.push_screen_wait(AskLine(f"Set aside: {title}", "why"))
    return bool(why) and await _kept(
        app, [SetAside(task, why or "") for task in tasks], f"set aside: {title}"
    )


async def _take_up_again(app: BoardApp, meant: Meant) -> bool:
    tasks = await which(app, meant, "Pick up which", ("set aside",))
    acts = [SetAside(task, back=True) for task in tasks]
    return bool(acts) and await _kept(app, acts, f"picked up again: {named(app.board, tasks)}")


async def _kept(app: BoardApp, acts: Sequence[Act], sentence: str) -> bool:
    outcome = await app.keep(acts)
    if outcome.kept:
        app.tell(sentence)
    return outcome.kept
