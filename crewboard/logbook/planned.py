"""What the logbook says of a plan of a day that was taken over: who is to be on what, and when."""

from datetime import time
from typing import Annotated, NamedTuple

from crewboard.logbook.fields import EntryField, Note, People, TaskId
from crewboard.logbook.kinds import entry


@entry(
    "planned",
    "{people} planned on {task|what}, {begins} to {ends}[, {watch} to watch]"
    "[, {learning} to learn it]{look:, after a look at what is on hold|}",
    title="Planned",
    ahead=True,
)
class Planned(NamedTuple):
    """One task of a plan of the day that was taken over, or a small job of the shop's own list.

    It authorises nothing, and says nothing of where the work stands. `people` are all of them,
    `watch` those who watch and do not work, `learning` those who learn it. With `look` somebody has
    to look at a hold and release it first. `taking` is the plan of the day to which it belongs,
    as the program writes it down ("2 10:58 ada"): of several the one taken over last counts.
    """

    people: People
    begins: Annotated[time | None, EntryField("time", "from", option="from")]
    ends: Annotated[time | None, EntryField("time", "until", option="until")]
    task: TaskId = ""
    what: Annotated[
        str, EntryField("text", "small job", "a small job, where it is none of the tasks")
    ] = ""
    watch: Annotated[
        tuple[str, ...], EntryField("people", "who watches", "watcher or mate, on nothing else")
    ] = ()
    learning: Annotated[
        tuple[str, ...], EntryField("people", "who learns it", "beside somebody who can")
    ] = ()
    look: Annotated[
        bool, EntryField("flag", "a look first", "a hold is looked at and released first")
    ] = False
    finishes: Annotated[bool, EntryField("flag", help="it is to be finished by then")] = False
    note: Note = ""
    taking: Annotated[str, EntryField("kept")] = ""
