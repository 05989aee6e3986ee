"""Say what pictures and recordings show: for what they are, of which piece, in words."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from crewboard.logbook.acts import Pictured
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.record.seen import PICTURE_KINDS, RECORDINGS, Found
from crewboard.order.said import component_name, how_many, listed, piece_name
from crewboard.telling.sorting import shown_in_words
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.numbered import PickNumbered
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.doing.entry_form import write_entry

# What is picked may be the whole vehicle, a component, a piece, or what was named last.
_VEHICLE, _COMPONENT, _PIECE, _AGAIN = "vehicle", "component:", "piece:", "again"
# What a picture of each kind is for, in a list to pick from.
_MEANS = {
    "before": "as it was before work on it",
    "during": "while it is worked on",
    "hidden now": "what will be closed up again",
    "after": "when it is done",
    "evidence": "how it was built, painted or mended",
    "measured": "a tape is in view",
    "recording": "spoken, or a walk round the vehicle",
    "of no use": "looked at, and of no use",
}


async def sort_files(app: BoardApp, files: Sequence[str], last: Pictured | None) -> Pictured | None:
    """Ask what the files are for, what they are of and for words, and write it of each; what was
    said, None when left.

    `last` is what was said before this: all of it can be said again by one key, and its pieces or
    component are offered first. Of what is of no use nothing more is asked.
    """
    shows = await _ask_kind(app, files, last)
    if not shows:
        return None
    if shows == _AGAIN and last is not None:
        said = last
    else:
        said = Pictured(files[0], shows)
        if shows != "of no use":
            on = await _ask_of(app, f"{_named(files)}: {shows}", said, last)
            if on is None:
                return None
            title = f"{_named(files)}: {shown_in_words(app.board, on)}"
            words = await app.push_screen_wait(AskLine(title, _WORDS, needed=False))
            if words is None:
                return None
            said = on._replace(words=words)
    return said if await sorted_as(app, files, said) else None


_WORDS = "in words (may be left empty)"


async def sorted_as(app: BoardApp, files: Sequence[str], said: Pictured) -> bool:
    """Say the same of each of the files; whether it was kept."""
    outcome = await app.keep([said._replace(file=file) for file in files])
    if outcome.kept:
        app.tell(f"{_named(files)}: {shown_in_words(app.board, said)}")
    return outcome.kept


async def caption(app: BoardApp, files: Sequence[str], said: Pictured) -> bool:
    """Ask for what the files are and for words; of what they are stands in `said`."""
    shows = await _ask_kind(app, files, None)
    if not shows:
        return False
    said = said._replace(shows=shows)
    title = f"{_named(files)}: {shown_in_words(app.board, said)}"
    words = await app.push_screen_wait(AskLine(title, _WORDS, needed=False))
    return words is not None and await sorted_as(app, files, said._replace(words=words))


async def found_on(app: BoardApp, files: Sequence[str]) -> bool:
    """Write a finding that cites the pictures, or findings of one recording after the other until
    it is left; whether any was kept."""
    pictures = tuple(file for file in files if not file.startswith(RECORDINGS))
    recordings = [file for file in files if file not in pictures]
    if len(recordings) > 1:
        app.tell("a finding cites one recording: mark only one", warning=True)
        return False
    preset = {"pictures": pictures} if pictures else {}
    preset |= {"recording": recordings[0]} if recordings else {}  # type: ignore[dict-item]
    kind = KINDS_OF_ENTRY[Found]
    title, count = f"{kind.title}: {_named(files)}", 0
    while await write_entry(app, kind, preset, title):
        count += 1
        title = f"{kind.title}: {_named(files)}, the next ({how_many(count, 'finding')} so far)"
        app.tell("saved in the logbook")
        if not recordings:
            break
    return count > 0


async def _ask_kind(app: BoardApp, files: Sequence[str], last: Pictured | None) -> str | None:
    """Ask for the kind; of recordings alone the usual one stands ready."""
    spoken = all(file.startswith(RECORDINGS) for file in files)
    choices = [Choice(kind, kind, _MEANS[kind]) for kind in PICTURE_KINDS]
    again = None if last is None else Choice(_AGAIN, "again", shown_in_words(app.board, last))
    at = "recording" if spoken else PICTURE_KINDS[0]
    asking = PickNumbered(
        f"{_named(files)}: for what?", choices, again=again, at=at, shows=partial(_show, app, files)
    )
    return await app.push_screen_wait(asking)


def _show(app: BoardApp, files: Sequence[str]) -> None:
    """The files that are asked about, over the question."""
    from crewboard.telling.pictures import pictures_told
    from crewboard.terminal.dialogs.pictures import PicturesDialog

    told = pictures_told(app.board, app.workbench.fabric(app.board.at), files)
    app.push_screen(PicturesDialog(told, str(app.workbench.folder.root)))


def _named(files: Sequence[str]) -> str:
    return files[0].rpartition("/")[2] if len(files) == 1 else how_many(len(files), "file")


async def _ask_of(
    app: BoardApp, title: str, said: Pictured, last: Pictured | None
) -> Pictured | None:
    """Ask what it is of, one component or some pieces; what was named last is under the cursor."""
    plan, at = app.board.plan, _of_last(last)
    pieces = [
        Choice(f"{_PIECE}{p.id}", p.name, component_name(plan, p.component), find=p.id)
        for p in plan.pieces.values()
    ]
    components = [
        Choice(f"{_COMPONENT}{c.id}", c.name, "component" if not c.part_of else "part", find=c.id)
        for c in plan.components.values()
    ]
    choices = [Choice(_VEHICLE, "the vehicle as a whole"), *components, *pieces]
    if at == _AGAIN and last is not None:  # several, offered as one
        names = listed(piece_name(plan, piece) for piece in last.pieces)
        choices.insert(0, Choice(_AGAIN, names, "again"))
    marked: tuple[str, ...] = ()
    while True:
        asking = PickSeveral(title, choices, at=at, marked=marked)
        picked = await app.push_screen_wait(asking)
        if picked is None:
            return None
        if picked == (_AGAIN,) and last is not None:
            return said._replace(pieces=last.pieces)
        if all(one.startswith(_PIECE) for one in picked):
            return said._replace(pieces=tuple(one.removeprefix(_PIECE) for one in picked))
        if len(picked) == 1:
            component = picked[0].removeprefix(_COMPONENT)
            return said if picked == (_VEHICLE,) else said._replace(component=component)
        app.tell("it is of some pieces, or of one component", warning=True)
        at, marked = picked[0], picked


def _of_last(last: Pictured | None) -> str:
    """The choice under the cursor: what was named last."""
    if last is None:
        return _VEHICLE
    if len(last.pieces) > 1:
        return _AGAIN
    if last.pieces:
        return f"{_PIECE}{last.pieces[0]}"
    return f"{_COMPONENT}{last.component}" if last.component else _VEHICLE
