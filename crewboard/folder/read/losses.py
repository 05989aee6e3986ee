"""What stood in the folder before and is gone: files, and entries of days that are still there."""

from collections.abc import Collection
from typing import NamedTuple

from crewboard.folder.disk.known import StoodHere
from crewboard.folder.read.fault import Fault
from crewboard.folder.read.files import day_of, role_of, stem_of
from crewboard.logbook.acts import LetGo
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import listed

GONE, LOST_LINES = "gone", "lost-lines"
MEANT = 'if it was meant to go: crewboard meant DIR --why "..." --by WHO'
_HINT = f"bring it back (crewboard copies lists the copies), or, {MEANT}"


class Loss(NamedTuple):
    """A file that is gone, or (`whole` False) entries of a day's file that are, or tasks of a
    component's file that the logbook names; their ids.

    `who` is what knew of it: "at the last look", "in the copy of Sat 25 Apr 2026".
    """

    path: str
    entries: frozenset[str]
    whole: bool
    who: str

    @property
    def fault(self) -> Fault:
        count = len(self.entries)
        entries = "1 entry" if count == 1 else f"{count} entries"
        if not self.whole:
            is_gone = "is gone" if count == 1 else "are gone"
            what = entries if day_of(self.path) else f"{listed(sorted(self.entries))}, worked on,"
            sentence = f"{what} that stood here {self.who} {is_gone}"
            return Fault(self.path, 1, 1, LOST_LINES, sentence, _HINT)
        had = f", with {entries}" if count and day_of(self.path) else ""
        sentence = f"this file was here {self.who}{had}, and is gone"
        return Fault(self.path, 1, 1, GONE, sentence, _HINT)


def let_go_by(logbook: Logbook) -> set[str]:
    """The files and entries of which somebody said that they may be gone."""
    acts = (entry.act for day in logbook.days.values() for entry in day.counting)
    return {what for act in acts if isinstance(act, LetGo) for what in act.what}


def losses(
    known: StoodHere, now: StoodHere, there: Collection[str], logbook: Logbook, who: str
) -> tuple[Loss, ...]:
    """What is gone of what was known. `now` is what stands in the files that can be read, `there`
    are the paths of all files, read or not.

    A day that was moved or folded into another is none: its entries stand there.
    """
    gone = [
        path
        for path, names in known.written.items()
        if path not in there
        or (path in now and names != now.written[path] and not known[path] <= now[path])
    ]
    if not gone:
        return ()
    let_go = let_go_by(logbook)
    of_days = (now[path] for path in now if role_of(path) == "day")
    found = let_go.union(*of_days)
    worked_on = _tasks_in(logbook) - let_go
    lost = (_lost(path, known, now, found, worked_on, who) for path in gone if path not in let_go)
    return tuple(loss for loss in lost if loss is not None and (loss.whole or loss.entries))


def _tasks_in(logbook: Logbook) -> set[str]:
    """The tasks that the logbook names: those nobody takes out of the plan, as the tool sees to."""
    acts = (entry.act for day in logbook.days.values() for entry in day.counting)
    return {task for act in acts if (task := getattr(act, "task", ""))}


def _lost(
    path: str,
    known: StoodHere,
    now: StoodHere,
    found: Collection[str],
    worked_on: Collection[str],
    who: str,
) -> Loss | None:
    """What is missed of one file; None where all of it is elsewhere."""
    gone, names = path not in now, known[path]
    if role_of(path) == "day":
        entries = names.difference(found)
        return Loss(path, entries, gone, who) if entries else None
    if not gone:
        stem = stem_of(path)
        tasks = frozenset(f"{stem}/{name}" for name in names - now[path]) & frozenset(worked_on)
        return Loss(path, tasks, False, who) if tasks else None
    if role_of(path) == "component" and _moved(names, known, now):
        return None
    return Loss(path, frozenset(), True, who)


def _moved(names: frozenset[str], known: StoodHere, now: StoodHere) -> bool:
    """Whether a component of another name, that was not known, has most of what this one had."""
    new = (now[path] for path in now if role_of(path) == "component" and path not in known)
    return bool(names) and any(2 * len(names & others) >= len(names) for others in new)
