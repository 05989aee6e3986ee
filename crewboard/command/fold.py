"""`crewboard fold`: copies of day files that a sync tool left."""

from __future__ import annotations

import os

from crewboard.command.exits import Exit
from crewboard.command.opened import DIR, Refused, must_be_ours_to_write
from crewboard.command.typed import Call, Command, Option
from crewboard.folder.edit.fold import FoldedCopy, copies_to_fold, fold_all
from crewboard.order.said import how_many, listed


def _fold(call: Call) -> Exit:
    root = call.word("DIR")
    if not os.path.isdir(root):
        raise Refused(f'there is no folder "{root}"')
    doing = call.given("do-it")
    if doing:
        must_be_ours_to_write(root)
    found = _done(root) if doing else copies_to_fold(root)
    for each in found:
        call.out.line(_in_words(each, doing))
    if not found:
        call.out.talk("There is no copy to fold in.")
    elif not doing:
        call.out.talk("Nothing was changed. To fold them in: --do-it")
    return Exit.FINE if all(each.goes for each in found) else Exit.REFUSED


def _done(root: str) -> list[FoldedCopy]:
    from crewboard.folder.cannot import ChangedMeanwhile, NotKept
    from crewboard.folder.disk.lock import folder_lock

    try:
        with folder_lock(root):
            return fold_all(root)
    except NotKept as error:
        raise Refused(error.sentence, error.hint, Exit.DISK) from None
    except ChangedMeanwhile as error:
        raise Refused(f"{error.path} is being changed by another program", "try again") from None


def _in_words(each: FoldedCopy, done: bool) -> str:
    if each.cannot:
        return f"{each.path}: stays, {each.cannot}"
    new = how_many(len(each.added), "entry").replace("entrys", "entries")
    says = f"{each.path}: {new} that {each.original} {'had' if done else 'has'} not"
    if each.clashing:
        return f"{says}; stays, since both say otherwise of {listed(each.clashing)}"
    return f"{says}; {'taken away' if done else 'then it is taken away'}"


fold = Command(
    _fold,
    "Shows the copies of day files that a sync tool left beside them, and with --do-it adds to "
    "each day's file what only its copy has, entry by entry. A copy is taken away only when all "
    "of it stands in the day's file; where both say something else of one entry, both stay.",
    (DIR,),
    (Option("do-it", "fold them in"),),
    ("crewboard fold .", "crewboard fold . --do-it"),
)
