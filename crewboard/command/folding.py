"""`crewboard fold`: files that are not where they are read from are brought there."""

from __future__ import annotations

from crewboard.command.exits import Exit, WrongCall
from crewboard.command.keeping import refused_by_the_disk
from crewboard.command.opened import DIR, folder_of, must_be_ours_to_write, parse_moment
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.folder.disk.lock import folder_lock
from crewboard.folder.edit.fold import copies_to_fold, fold_all
from crewboard.folder.edit.fold_steps import ASIDE, FoldAsked, FoldedCopy
from crewboard.folder.read.files import DAYS
from crewboard.order.said import how_many, listed

_WAYS = "name it with --instead to put it in that one's place, with --aside to set it aside"
_SHOWN = 6  # how many keys in which two files differ are said


def _fold(call: Call) -> Exit:
    root = folder_of(call)
    doing = call.given("do-it")
    if doing:
        must_be_ours_to_write(root)
    asked = _asked(call)
    with refused_by_the_disk():
        copies = _done(root, asked) if doing else copies_to_fold(root, asked)
    lines = [_in_words(copy, doing) for copy in copies]
    if doing and any(copy.added or copy.goes for copy in copies):
        call.out.keeps(lines)
    else:
        call.out.lines(lines)
    if not copies:
        call.out.talk("Every file is where it is read from: there is nothing to fold in.")
    elif not doing:
        call.out.talk("Nothing was changed. To do it: --do-it")
    return Exit.FINE if all(copy.goes for copy in copies) else Exit.REFUSED


def _asked(call: Call) -> FoldAsked:
    """What is asked for of the one file that is named. Raises `WrongCall`."""
    day = parse_moment(f"{call.option('day')}T00:00", None).date() if call.given("day") else None
    file = call.word("FILE")
    asked = FoldAsked(file, call.given("instead"), call.given("aside"), call.option("as"), day)
    if asked != FoldAsked(file) and not file:
        raise WrongCall("say which file", 'crewboard fold . "components/deck (1).toml" --aside')
    return asked


def _done(root: str, asked: FoldAsked) -> list[FoldedCopy]:
    with folder_lock(root):
        return fold_all(root, asked)


_BECOMES = {
    "moved": "becomes {original}",
    "the same": "says the same as {original}; then it is deleted",
    "instead": "takes the place of {original}, which is set aside in {aside}",
    "aside": "is set aside: {original}",
    "dated": "its date becomes that of its name",
}
_BECAME = {
    "moved": "is now {original}",
    "the same": "said the same as {original}; deleted",
    "instead": "took the place of {original}, which is set aside in {aside}",
    "aside": "is set aside: {original}",
    "dated": "its date is now that of its name",
}


def _in_words(copy: FoldedCopy, done: bool) -> str:
    if copy.cannot:
        return f"{copy.path}: stays, {copy.cannot}; {_WAYS}"
    if copy.does:
        words = (_BECAME if done else _BECOMES)[copy.does]
        return f"{copy.path}: {words.format(original=copy.original, aside=ASIDE)}"
    if copy.clashing and not copy.original.startswith(DAYS):
        return _stays(copy)
    new = how_many(len(copy.added), "entry").replace("entrys", "entries")
    sentence = f"{copy.path}: {new} that {copy.original} {'had' if done else 'has'} not"
    if copy.clashing:
        return f"{sentence}; stays, since both say otherwise of {listed(copy.clashing)}"
    return f"{sentence}; {'deleted' if done else 'then it is deleted'}"


def _stays(copy: FoldedCopy) -> str:
    """A copy of a file of the plan that says something else: a person has to say which counts."""
    more = len(copy.clashing) - _SHOWN
    keys = ", ".join(copy.clashing[:_SHOWN]) + (f" and {more} more" if more > 0 else "")
    return f"{copy.path}: stays, it says otherwise than {copy.original} of {keys}; {_WAYS}"


fold = Command(
    _fold,
    "Shows the files that are not where they are read from, and with --do-it brings them there: "
    "copies that a sync tool left, days in the wrong folder, names in capitals. What only the copy "
    "of a day has is added to the day's file, entry by entry; a copy that says the same is "
    "deleted. Where both say something else, both stay until you name the file and say which "
    "counts. What is set aside lies in .crewboard/aside.",
    (DIR, Word("FILE", "one file only, by its path from the folder", optional=True)),
    (
        Option("do-it", "fold them in"),
        Option("instead", "the copy takes the place of the file; that one is set aside"),
        Option("aside", "the file is set aside, where nothing reads it"),
        Option("as", "the file is a component of its own, by this short name", "NAME"),
        Option("day", "the file is that of this day", "DATE"),
    ),
    (
        "crewboard fold .",
        "crewboard fold . --do-it",
    ),
)
