"""Say what pictures and recordings show: for what they are, of which piece, in words."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.logbook.acts import Pictured
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.logbook.record.seen import PICTURE_KINDS, RECORDINGS, Found
from crewboard.order.board import Board
from crewboard.order.said import component_name, how_many
from crewboard.telling.sorting import shown_in_words
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.entry_form import write_entry

_VEHICLE = "vehicle:"
# What a picture of each kind is for, in a list to pick from.
_MEANS = {
    "before": "as it was before work on it",
    "during": "while it is worked on",
    "hidden now": "what will be closed up again",
    "after": "when it is done",
    "evidence": "what tells how it was built, painted or mended",
    "measured": "a tape is in view",
    "recording": "spoken, or a walk round the vehicle",
    "of no use": "looked at, and of no use",
}


async def sort_files(
    app: BoardApp, files: Sequence[str], shows: str, last: Pictured | None
) -> Pictured | None:
    """Ask what the files are of and for words, and write it of each; what was said, None when left.

    `shows` is their kind, asked for where it is empty; `last` what was said before this, whose
    piece or component is offered first. Of what is of no use nothing is asked.
    """
    shows = shows or await _ask_kind(app, files) or ""
    if not shows:
        return None
    said = Pictured(files[0], shows)
    if shows != "of no use":
        of = await app.push_screen_wait(_ask_of(app.board, f"{_named(files)}: {shows}", last))
        if of is None:
            return None
        said = _of(said, of)
        title = f"{_named(files)}: {shown_in_words(app.board, said)}"
        words = await app.push_screen_wait(AskLine(title, _WORDS, needed=False))
        if words is None:
            return None
        said = said._replace(words=words)
    return said if await sorted_as(app, files, said) else None


_WORDS = "in words (may be left empty)"


async def sorted_as(app: BoardApp, files: Sequence[str], said: Pictured) -> bool:
    """Say the same of each of the files; whether it was kept."""
    outcome = await app.keep([said._replace(file=file) for file in files])
    if outcome.kept:
        app.tell(f"{_named(files)}: {shown_in_words(app.board, said)}")
    return outcome.kept


async def found_on(app: BoardApp, files: Sequence[str]) -> bool:
    """Write a finding that cites the pictures or the recording; whether it was kept."""
    pictures = tuple(file for file in files if not file.startswith(RECORDINGS))
    recordings = [file for file in files if file not in pictures]
    if len(recordings) > 1:
        app.tell("a finding cites one recording: mark only one", warning=True)
        return False
    preset = {"pictures": pictures} if pictures else {}
    preset |= {"recording": recordings[0]} if recordings else {}  # type: ignore[dict-item]
    kind = KINDS_OF_ENTRY[Found]
    kept = await write_entry(app, kind, preset, f"{kind.title}: {_named(files)}")
    if kept:
        app.tell("saved in the logbook")
    return kept


async def _ask_kind(app: BoardApp, files: Sequence[str]) -> str | None:
    """Ask for the kind; of recordings alone the usual one stands ready."""
    spoken = all(file.startswith(RECORDINGS) for file in files)
    choices = [Choice(kind, kind, _MEANS[kind]) for kind in PICTURE_KINDS]
    at = "recording" if spoken else PICTURE_KINDS[0]
    return await app.push_screen_wait(PickOne(f"{_named(files)}: for what?", choices, at=at))


def _named(files: Sequence[str]) -> str:
    return files[0].rpartition("/")[2] if len(files) == 1 else how_many(len(files), "file")


def _ask_of(board: Board, title: str, last: Pictured | None) -> PickOne:
    """All pieces and components, the one that was named last under the cursor."""
    plan = board.plan
    pieces = [
        Choice(f"piece:{p.id}", p.name, component_name(plan, p.component), find=p.id)
        for p in plan.pieces.values()
    ]
    components = [
        Choice(f"component:{c.id}", c.name, "component" if not c.part_of else "part", find=c.id)
        for c in plan.components.values()
    ]
    whole = Choice(_VEHICLE, "the vehicle as a whole")
    return PickOne(title, [whole, *components, *pieces], at=_id_of(last) or _VEHICLE)


def _id_of(last: Pictured | None) -> str:
    if last is None:
        return ""
    if last.pieces:
        return f"piece:{last.pieces[0]}"
    return f"component:{last.component}" if last.component else ""


def _of(said: Pictured, picked: str) -> Pictured:
    thing, _, some_id = picked.partition(":")
    match thing:
        case "piece":
            return said._replace(pieces=(some_id,))
        case "component":
            return said._replace(component=some_id)
    return said
