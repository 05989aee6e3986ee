"""What the logbook says of tasks: their course, their holds, the checks signed for them."""

from typing import Annotated, NamedTuple

from crewboard.logbook.fields import (
    CheckId,
    Clocks,
    Dangers,
    Despite,
    EntryField,
    FindingId,
    Flag,
    HazardId,
    HoldId,
    Moment,
    Note,
    Person,
    Place,
    Span,
    TaskId,
    Why,
)
from crewboard.logbook.kinds import ByCommand, entry
from crewboard.logbook.state import NOT_YET
from crewboard.plan.duration import Duration
from crewboard.plan.hold import KINDS


@entry(
    "begun",
    "{task} begun[ by {crew}][, watched by {watch}][, {adult} beside]",
    title="Begin",
    command=ByCommand(
        "begin",
        "work on a task begins",
        "Begins work on a task. It is refused, with the reason, while something stands against "
        "it: earlier work, a hold, an unsigned check, a lapsed certificate, too few people.",
        ("task",),
        "",
        (
            "crewboard begin . bell-cord --who mirela",
            'crewboard begin . front-glue --who mirela --despite "dry run only" --by mirela',
        ),
        of_series=(("ready",),),
    ),
)
class Begun(NamedTuple):
    """Work on a task began. `crew` are the people on it, `watch` the fire watcher or mate who does
    nothing else meanwhile, `adult` who stays beside the under-18s on it."""

    task: TaskId
    crew: Annotated[
        tuple[str, ...], EntryField("people", help="the people on it", option="who")
    ] = ()
    despite: Despite = ""  # why it was begun although something stood against it
    note: Note = ""
    watch: Annotated[
        tuple[str, ...], EntryField("people", "who watches", "watcher or mate, on nothing else")
    ] = ()
    adult: Annotated[
        str, EntryField("person", "adult beside", "the adult who stays beside the under-18s")
    ] = ""
    dangers: Dangers = ()
    clocks: Clocks = ()
    place: Place = ""

    @property
    def people(self) -> tuple[str, ...]:
        """Everybody on it: who works, who is beside, who watches."""
        return tuple(dict.fromkeys((*self.crew, *filter(None, (self.adult,)), *self.watch)))


@entry(
    "finished",
    "{task} finished[ by {crew}][, clock from {clock}]",
    title="Finish",
    command=ByCommand(
        "finish",
        "the work of a task is done; its hold starts",
        "Says that the work of a task is done. The hold that the plan foresees starts now, or at "
        "--clock.",
        ("task",),
        "",
        (
            "crewboard finish . clean-lamps",
            "crewboard finish . strip-sashes --clock 08:55",
        ),
        of_series=(("under way",), ("ready", *NOT_YET)),
    ),
)
class Finished(NamedTuple):
    """The work of a task is done; its hold starts now, or at `clock`.

    `crew` and `began` say who did it and since when, where nobody had written that it began.
    """

    task: TaskId
    clock: Annotated[
        Moment,
        EntryField("moment", "clock starts", "when its hold started, where that was earlier"),
    ] = None
    note: Note = ""
    crew: Annotated[
        tuple[str, ...], EntryField("people", "who did it", "the people who did it", option="who")
    ] = ()
    began: Annotated[
        Moment, EntryField("moment", "it began", "when it began, where nobody wrote that")
    ] = None
    dangers: Dangers = ()
    clocks: Clocks = ()
    place: Place = ""


@entry(
    "stopped",
    "{task} stopped for the day, to go on another day",
    title="Stop for today",
    menu="it goes on another day; nobody is on it any more",
    command=ByCommand(
        "stop",
        "work under way goes on another day",
        "Says that work under way stops for the day and goes on another day: nobody is on it any "
        "more, and the clocks of its hazards run as after a finish. Its hold does not start. Who "
        "goes on with it begins it again.",
        ("task",),
        "task",
        ('crewboard stop . run-loom --note "the last three clips are missing" --by kwame',),
        of_series=(("under way",),),
    ),
)
class Stopped(NamedTuple):
    """Work under way stops, unfinished, and goes on another day: nobody is on it any more."""

    task: TaskId
    note: Annotated[
        str,
        EntryField("text", help="what is left, what to mind when it goes on", tail=" ({})"),
    ] = ""


@entry(
    "reopened",
    "{task} reopened",
    title="Reopen",
    command=ByCommand(
        "reopen",
        "a finished task has to be worked on again",
        "Says that a finished task has to be worked on again. The hold its finish started is void.",
        ("task",),
        "",
        ('crewboard reopen . prime-hidden --why "the primer lifted"',),
        of_series=(("finished",),),
    ),
)
class Reopened(NamedTuple):
    """A finished task has to be worked on again; what its finish started is void."""

    task: TaskId
    why: Why = ""


@entry(
    "hours left",
    "{task}: {hours} left",
    title="Hours left",
    menu="a new estimate of what is to do",
    command=ByCommand(
        "hours-left",
        "a new estimate of what is still to do",
        "Gives a new estimate of the person-hours still to do on a task.",
        ("task", "hours"),
        "",
        ('crewboard hours-left . lay-boards 12 --why "two boards split"',),
    ),
)
class HoursLeft(NamedTuple):
    """A new estimate of the person-hours still to do on a task."""

    task: TaskId
    hours: Annotated[float, EntryField("hours", "person-hours", "still to do, such as 6")]
    why: Why = ""


@entry(
    "set aside",
    "{task} {back:picked up again|set aside}",
    title="Set aside",
    command=ByCommand(
        "set-aside",
        "a task is put off, or picked up again",
        "Puts a task off, with the reason, or picks it up again.",
        ("task",),
        "",
        (
            'crewboard set-aside . awning-rail --why "the old pictures are still out"',
            "crewboard set-aside . awning-rail --back",
        ),
    ),
)
class SetAside(NamedTuple):
    """A task is put off, or (back True) taken up again."""

    task: TaskId
    why: Why = ""
    back: Annotated[bool, EntryField("flag", "picked up again", "pick it up again")] = False


@entry(
    "hold",
    "hold started: {hold}[ for {lasts}] on {task|piece|component}",
    title="Start a hold",
    command=ByCommand(
        "hold",
        "start a hold by hand",
        "Starts a hold by hand, on a task, on a whole component or on one piece. What comes after "
        "waits until it is released, or over. While something sets, dries or burns, the component "
        "it is on is left alone too; an inspection, a decision, a delivery or the weather keeps "
        "only what comes after, and the work on the component itself goes on, unless --leave-alone "
        "says otherwise. On a piece it keeps the work on that piece and what comes after; the "
        f"other pieces go on. Kinds: {', '.join(KINDS)}.",
        ("hold",),
        "",
        (
            'crewboard hold . glue --task front-glue --lasts "24 hours"',
            'crewboard hold . inspection --component running-gear --why "they come in June"',
            'crewboard hold . clamp --piece rods/2 --lasts "1 day" --why "the eye was cracked"',
        ),
        of_series=(("under way", "ready", *NOT_YET), ("finished",)),
    ),
)
class HoldStarted(NamedTuple):
    """A hold started by hand, on a task, on a whole component or on one piece."""

    hold: Annotated[
        str, EntryField("one of", "kind", "what kind of hold; put two words in quotes", words=KINDS)
    ]
    task: Annotated[str, EntryField("task", help="the task it is on")] = ""
    component: Annotated[str, EntryField("component", help="or the component it is on")] = ""
    lasts: Span = None
    # Empty for what is usual for the kind.
    release: Annotated[
        str,
        EntryField("one of", "ends", "what ends it: time, or look", words=("time", "look")),
    ] = ""
    leave_alone: Annotated[bool, EntryField("flag", help="the whole component is left alone")] = (
        False
    )
    why: Why = ""
    piece: Annotated[str, EntryField("piece", help="or the piece it is on")] = ""
    finding: FindingId = ""


@entry(
    "extended",
    "{hold} extended[ to {until}][ by {lasts}]",
    title="Extend a hold",
    command=ByCommand(
        "extend",
        "make a running hold longer",
        "Makes a running hold longer, by a span or until a moment. The reason is needed.",
        ("hold",),
        "",
        ('crewboard extend . bend/arches/6 --by-span "1 week" --why "springs back" --by aiko',),
    ),
)
class Extended(NamedTuple):
    """A running hold made longer: by a span, or until a moment."""

    hold: HoldId  # the id of the entry that started it
    lasts: Annotated[
        Duration | None, EntryField("span", "by", 'how much longer: "2 days"', option="by-span")
    ] = None
    until: Annotated[Moment, EntryField("moment", help="or until when")] = None
    why: Why = ""


@entry(
    "released",
    "{hold} {refused:refused|released}",
    title="Release a hold",
    command=ByCommand(
        "release",
        "release a hold",
        "Releases a hold after a look. Before its time the reason is needed. That an approval was "
        "refused (--refused) is kept with the reason, and what waits for it goes on waiting.",
        ("hold",),
        "",
        (
            "crewboard release . bend/arches/3 --by mirela",
            'crewboard release . bend/arches/7 --why "the form is needed" --by mirela',
        ),
    ),
)
class Released(NamedTuple):
    """A hold let go, at its time after a look or earlier. An approval that was `refused` is not: it
    stands until another answer releases it."""

    hold: HoldId
    why: Why = ""
    refused: Annotated[
        bool, EntryField("flag", "refused", "of an approval: the answer was no, it goes on waiting")
    ] = False


@entry(
    "check",
    "{who} {applies:signed|found not to apply}[ for {task}][, for {concerns}][, naming {named}]: "
    "{check}",
    title="Sign",
)
class CheckSigned(NamedTuple):
    """A safety check signed by `who`, for a task where it is asked for each task.

    `applies` False means: looked at and found not to apply, with the reason in `why`. `concerns`
    is the person it was signed for (an under-18's consent, who was shown a machine), `named` whom
    the signing has to name: the first-aider of the day.
    """

    hazard: HazardId
    check: CheckId
    who: Person
    task: TaskId = ""
    applies: Flag = True
    why: Why = ""
    concerns: Annotated[
        str, EntryField("person", "for", "whom it was signed for", option="for")
    ] = ""
    named: Annotated[
        tuple[str, ...],
        EntryField("people", "named", "who is named by it, such as the first-aider"),
    ] = ()


@entry(
    "no hazard",
    '{who} found no hazard behind the word "{word}" in {task}',
    title="No such hazard",
    menu="a word of a task means no hazard: a lead says so",
    command=ByCommand(
        "no-hazard",
        "a word of a task means no hazard: a lead says so",
        "Signs, as a lead and with the reason, that a word in a task's title or method stands for "
        "no hazard. It is kept; a new word asks again.",
        ("task", "word"),
        "word",
        ('crewboard no-hazard . rear-brakes reline --who kwame --why "no asbestos in it"',),
    ),
)
class HazardRuledOut(NamedTuple):
    """A lead looked at what a word of the task's title or method points to, and found none."""

    task: TaskId
    word: Annotated[str, EntryField("text", help="the word that is asked about")]
    who: Annotated[str, EntryField("person", "lead", "the lead who signs it")]
    why: Why = ""


@entry(
    "training",
    "{lead} lets {who} take part for training[, {hazard}][ in {task}]",
    title="Training of an under-18",
    menu="a lead lets an under-18 take part",
    command=ByCommand(
        "training",
        "a lead lets an under-18 take part for training",
        "Lets an under-18 take part in what a sheet keeps for adults, for training: one hazard, or "
        "all of a task's. Only where the sheet allows that, only by a lead, with the reason; it is "
        "good for a year. An adult stays beside them all the same.",
        ("who",),
        "",
        (
            "crewboard training . jonas --hazard noise --lead mirela "
            '--why "shown the planer from the yellow line"',
        ),
    ),
)
class Training(NamedTuple):
    """A lead lets an under-18 take part for training in what the sheet keeps for adults."""

    who: Person
    lead: Annotated[str, EntryField("person", "lead", "the lead who decides it")]
    why: Annotated[
        str, EntryField("why", "why", "what is learnt, and how they are kept safe", tail=": {}")
    ]
    hazard: Annotated[str, EntryField("hazard", "danger", "the sheet it is about")] = ""
    task: Annotated[str, EntryField("task", help="or the task whose hazards it is about")] = ""
