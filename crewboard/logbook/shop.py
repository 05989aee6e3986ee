"""What the logbook says of people, of the shop and of the day."""

from datetime import time
from typing import Annotated, NamedTuple

from crewboard.logbook.fields import (
    Despite,
    EntryField,
    EntryId,
    Note,
    Person,
    Pictures,
    TimeOfDay,
    Why,
)
from crewboard.logbook.kinds import ByCommand, Tell, entry
from crewboard.logbook.state import NOT_YET


@entry(
    "sign-in",
    "{who} signed in",
    title="Sign in",
    command=ByCommand(
        "sign-in",
        "somebody signs in",
        "Signs people in.",
        ("who",),
        "who",
        (
            "crewboard sign-in . aiko kwame",
            "crewboard sign-in . aiko --at 2026-05-02T08:55 --by mirela",
        ),
    ),
)
class SignIn(NamedTuple):
    """Somebody came to the shop."""

    who: Person
    note: Note = ""


@entry(
    "sign-out",
    "{who} signed out",
    title="Sign out",
    command=ByCommand(
        "sign-out",
        "somebody signs out",
        "Signs people out.",
        ("who",),
        "who",
        ("crewboard sign-out . mirela",),
    ),
)
class SignOut(NamedTuple):
    """Somebody left the shop."""

    who: Person
    note: Note = ""


@entry(
    "expected",
    "{who} {coming:expected|not coming}[ from {arrives}][ until {leaves}]",
    title="Who is coming",
    ahead=True,
    command=ByCommand(
        "expect",
        "somebody is expected on a day, or is not coming",
        "Writes down who is expected on the day of --at, or is not coming.",
        ("who",),
        "who",
        (
            "crewboard expect . aiko kwame --at 2026-05-16 --from 10:30",
            "crewboard expect . wei --at 2026-05-16 --not-coming",
        ),
    ),
)
class Expected(NamedTuple):
    """Somebody said whether they will come on that day, and from when until when.

    A time that was not said is that of the shop.
    """

    who: Person
    coming: Annotated[bool, EntryField("flag", help="they are not coming", option="not-coming")] = (
        True
    )
    arrives: Annotated[
        TimeOfDay, EntryField("time", help="from when they are here, such as 10:30", option="from")
    ] = None
    leaves: Annotated[
        TimeOfDay, EntryField("time", help="until when, such as 14:00", option="until")
    ] = None
    note: Note = ""


# What a thermometer can say at all, and what one in a shop or a yard says: °C.
_DEGREES = (-90.0, 1000.0)
_IN_A_SHOP = (-40.0, 60.0)


def _reading(_act: "Reading", tell: Tell) -> str:
    since = (
        ("celsius", "{}"),
        ("humidity", "{} humidity"),
        ("lowest_c", "lowest since the last one {}"),
        ("highest_c", "highest {}"),
        ("lowest_humidity", "lowest humidity {}"),
        ("highest_humidity", "highest humidity {}"),
    )
    parts = (words.format(tell(name)) for name, words in since if tell(name))
    return f"shop reading: {', '.join(parts)}"


@entry(
    "reading",
    _reading,
    title="Shop reading",
    command=ByCommand(
        "reading",
        "what thermometer and hygrometer say",
        "Writes down what the thermometer and the hygrometer in the shop say. It holds good until "
        "the next reading; a hold with conditions counts only the hours within them. A lowest or "
        "highest outside them takes all the time since the last reading.",
        (),
        "",
        (
            "crewboard reading . --celsius 18.5 --humidity 62",
            "crewboard reading . --celsius 18.5 --lowest 7 --highest 21",
        ),
    ),
)
class Reading(NamedTuple):
    """What the thermometer (°C) and the hygrometer (% relative humidity) in the shop said.

    The lowest and highest are those since the last reading, from a thermometer that keeps them.
    """

    celsius: Annotated[
        float | None,
        EntryField(
            "number", "temperature", "", *_DEGREES, "°C", likely=_IN_A_SHOP, option="temperature"
        ),
    ] = None
    humidity: Annotated[
        float | None, EntryField("number", "humidity", "relative humidity in %", 0, 100, "%")
    ] = None
    note: Note = ""
    lowest_c: Annotated[
        float | None,
        EntryField(
            *("number", "lowest", "lowest since the last", *_DEGREES, "°C"),
            likely=_IN_A_SHOP,
            option="lowest",
        ),
    ] = None
    highest_c: Annotated[
        float | None,
        EntryField(
            *("number", "highest", "highest since the last", *_DEGREES, "°C"),
            likely=_IN_A_SHOP,
            option="highest",
        ),
    ] = None
    lowest_humidity: Annotated[
        float | None,
        EntryField("number", "lowest humidity", "lowest since the last, in %", 0, 100, "%"),
    ] = None
    highest_humidity: Annotated[
        float | None,
        EntryField("number", "highest humidity", "highest since the last, in %", 0, 100, "%"),
    ] = None


@entry(
    "note",
    "note: {text}[ on {task|piece|component}][, pictures: {pictures}]",
    title="Note",
    command=ByCommand(
        "note",
        "anything worth noting",
        "Writes a note on the day, on a task, a piece or a component.",
        ("text",),
        "",
        ('crewboard note . "old screw holes under the sill" --component body-frame',),
        of_series=(("under way",), ("ready", *NOT_YET), ("finished",)),
    ),
)
class Noted(NamedTuple):
    """Anything worth keeping, on a task, a piece, a component or the day."""

    text: Annotated[str, EntryField("text", help="what is to be noted, in quotes")]
    task: Annotated[str, EntryField("task", help="the task it is on")] = ""
    component: Annotated[str, EntryField("component", help="or the component it is on")] = ""
    piece: Annotated[str, EntryField("piece", help="or the piece it is on")] = ""
    pictures: Pictures = ()


def _incident(act: "Incident", tell: Tell) -> str:
    concerned = f" to {tell('who')}" if act.who else ""
    place = f" at {act.place}" if act.place else ""
    seen = f"; seen by {tell('seen_by')}" if act.seen_by else ""
    return f"{f'injury{concerned}' if act.injury else 'near miss'}: {act.what}{place}{seen}"


@entry(
    "incident",
    _incident,
    title="Near miss or injury",
    menu="write it down",
    command=ByCommand(
        "incident",
        "a near miss or an injury",
        "Writes down a near miss or an injury: what happened, where, who saw it, what was done.",
        ("what",),
        "",
        (
            'crewboard incident . "a clamp slipped off the bench" --place joinery --seen-by mirela',
            'crewboard incident . "cut thumb" --injury --who mirela --done "cleaned and bandaged"',
        ),
    ),
)
class Incident(NamedTuple):
    """A near miss or an injury: what happened, where, who saw it, what was done."""

    what: Annotated[str, EntryField("text", "what happened", "what happened, in quotes")]
    injury: Annotated[bool, EntryField("flag", "somebody hurt", "somebody was hurt")] = False
    place: Annotated[str, EntryField("place", help="where it happened")] = ""
    task: Annotated[str, EntryField("task", help="the task it happened at")] = ""
    who: Annotated[
        tuple[str, ...], EntryField("people", "whom it concerns", "the people concerned")
    ] = ()
    seen_by: Annotated[tuple[str, ...], EntryField("people", "seen by", "who saw it")] = ()
    done: Annotated[str, EntryField("text", "what was done", "what was done about it")] = ""


@entry(
    "guest",
    "{name} signed in as a guest[ of {host}]",
    title="A guest signs in",
    menu="somebody who is not in the crew",
    command=ByCommand(
        "guest",
        "somebody signs in who is not in the crew",
        "Signs a guest in by name: somebody who is not in the crew list. Guests are counted when "
        "everybody is called together; they do nothing dangerous and make up no number of people.",
        ("name",),
        "",
        ('crewboard guest . "Ines Bratt" --of mirela',),
    ),
)
class GuestCame(NamedTuple):
    """Somebody who is not of the crew came; `host` is who looks after them."""

    name: Annotated[str, EntryField("text", "the guest's name", "the guest's name, in quotes")]
    host: Annotated[
        str, EntryField("person", "guest of", "who of the crew looks after them", option="of")
    ] = ""
    note: Note = ""


@entry(
    "guest left",
    "{name}, a guest, signed out",
    title="A guest signs out",
    menu="who was signed in as one",
    command=ByCommand(
        "guest-left",
        "a guest signs out",
        "Signs a guest out.",
        ("name",),
        "",
        ('crewboard guest-left . "Ines Bratt" --at 2025-11-15T13:30',),
    ),
)
class GuestLeft(NamedTuple):
    """A guest left."""

    name: Annotated[str, EntryField("text", "the guest's name", "the guest's name, in quotes")]
    note: Note = ""


@entry(
    "open until",
    "the shop is open until {until}",
    title="Open until",
    menu="when the shop is left today",
    command=ByCommand(
        "open-until",
        "say until when the shop is open today",
        "Says until when the shop is open on a day: on one that is no work day, or where it closes "
        "otherwise than usual. Work with a fire watch has to end early enough for it.",
        ("until",),
        "",
        ("crewboard open-until . 18:00 --by mirela",),
    ),
)
class OpenUntil(NamedTuple):
    """Until when the shop is open that day, whatever the plan says. The last word counts."""

    until: Annotated[
        time | None, EntryField("time", "open until", "when the shop is left, such as 17:00")
    ]
    note: Note = ""


@entry(
    "day closed",
    "the day closed[; {stays} stays]",
    title="Close the day",
    command=ByCommand(
        "close-day",
        "close the work day",
        "Closes the work day and signs out whoever is still here. It is refused while a check "
        "after the work is unsigned or a fire watch runs, unless a named person gives the reason. "
        "A past day that was forgotten is closed with --at and when it ended.",
        (),
        "",
        (
            'crewboard close-day . --despite "the heating failed" --by mirela',
            'crewboard close-day . --at 2026-05-02T16:30 --despite "left early" --by mirela',
        ),
    ),
)
class ClosedDay(NamedTuple):
    """The work day was closed. `despite` is the reason, where something stood against it; `stays`
    is who stays behind until a fire watch or another clock has run out."""

    despite: Despite = ""
    note: Note = ""
    stays: Annotated[str, EntryField("person", "who stays", "who stays until the clock is out")] = (
        ""
    )


@entry("taken back", "{entry} taken back", title="Take back")
class TakenBack(NamedTuple):
    """An earlier entry of the same day does not count any more."""

    entry: EntryId
    why: Why = ""


@entry("let go", "{what} may be gone", title="Meant to go")
class LetGo(NamedTuple):
    """Files of the folder, or entries by their ids, that are gone, and may be: who says so and
    why."""

    what: Annotated[tuple[str, ...], EntryField("kept several")]
    why: Why
