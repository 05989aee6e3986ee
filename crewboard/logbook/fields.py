"""What a field of a logbook entry means: said once, beside its type, and read by every room.

From these descriptions come how a line of a day's file is read and spelled, which names must be
known, the forms that write and correct an entry, the options of its command, its sentence and its
form in JSON.
"""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, datetime, time
from typing import Annotated, Any, NamedTuple, get_type_hints

from crewboard.plan.duration import Duration

# What a field of each kind names: something of the plan, another entry, a file.
NAMES: dict[str, str] = {
    "person": "person",
    "people": "person",
    "task": "task",
    "tasks": "task",
    "component": "component",
    "piece": "piece",
    "pieces": "piece",
    "supply": "supply",
    "hold": "hold",
    "hazard": "hazard sheet",
    "check": "check",
    "other work": "kind of other work",
    "entry": "entry",
    "entries": "entry",
    "temporary": "entry",
    "finding": "entry",
    "picture": "picture",
    "pictures": "picture",
}
MANY = frozenset({"people", "pieces", "pictures", "tasks", "entries", "texts", "kept several"})
MOST_HOURS = 10_000


class Only(NamedTuple):
    """That a field is asked for only where another says one of these words, or, without words,
    where anything stands in that."""

    field: str
    words: tuple[str, ...] = ()

    def fits(self, said: Any) -> bool:
        """Whether what the other field says is such that this one is asked for."""
        return said in self.words if self.words else bool(said)


class EntryField(NamedTuple):
    """One field of an entry: what stands in it, and how it is asked for and told.

    The last three are what its place in a type says; `fields_of` fills them in.
    """

    kind: str
    label: str = ""  # before the blank of a form; empty: the field's own name
    help: str = ""  # what it is for, in a form and among a command's options
    least: float | None = None
    most: float | None = None
    unit: str = ""  # of a number, as the folder keeps it: "°C", "%", "mm", "kg"
    words: Collection[str] = ()  # what "one of" may be
    tail: str = ""  # how it is added behind the entry's sentence: " ({})"
    likely: tuple[float, float] | None = None  # a number beyond is asked about before it is kept
    option: str = ""  # its name among the command's options; empty: the field's own
    only: Only | None = None  # for which words of another field it is asked for in forms
    beside: str = ""  # of a length and how exactly it is known the other: they are read together
    name: str = ""
    needed: bool = False
    default: Any = None

    @property
    def many(self) -> bool:
        """Whether it holds a tuple of names."""
        return self.kind in MANY

    @property
    def names(self) -> str:
        """The thing that it names, empty where it names nothing."""
        return NAMES.get(self.kind, "")

    @property
    def kept(self) -> bool:
        """Whether the program itself writes it down with the entry: nobody is asked for it."""
        return self.kind in ("kept", "kept several")

    @property
    def asked(self) -> str:
        """Its label in a form."""
        return self.label or self.name.replace("_", " ")

    def bounds(self) -> tuple[float | None, float | None]:
        return (0, MOST_HOURS) if self.kind == "hours" and self.most is None else self[3:5]

    def takes(self, number: float) -> bool:
        """Whether the number lies within its bounds."""
        least, most = self.bounds()
        return (least is None or number >= least) and (most is None or number <= most)

    def bounds_in_words(self) -> str:
        """ "at least 0", "from 0 to 10,000"."""
        least, most = self.bounds()
        return f"at least {least:g}" if most is None else f"from {least or 0:g} to {most:,.10g}"


class Named(NamedTuple):
    """Something that an entry names: in which field, which thing it is, its id."""

    field: str
    thing: str
    id: str


_fields: dict[type, tuple[EntryField, ...]] = {}
_naming: dict[type, tuple[EntryField, ...]] = {}


def fields_of(act: type) -> tuple[EntryField, ...]:
    """The fields of a type of act, in order. Raises TypeError where one has no description."""
    if act not in _fields:
        _fields[act] = tuple(_described(act))
    return _fields[act]


def _described(act: Any) -> Iterator[EntryField]:
    hints = act.__annotations__
    if not all(hasattr(hint, "__metadata__") for hint in hints.values()):
        hints = get_type_hints(act, include_extras=True)  # of a module with postponed annotations
    for name in act._fields:
        about = [m for m in getattr(hints[name], "__metadata__", ()) if isinstance(m, EntryField)]
        if not about:
            raise TypeError(f"{act.__name__}.{name} does not say what it means")
        default = act._field_defaults.get(name)
        needed = name not in act._field_defaults
        yield about[-1]._replace(name=name, needed=needed, default=default)


def decides(fields: Sequence[EntryField]) -> EntryField | None:
    """The field, where there is one, that has to be said and on which it hangs what is asked
    beside it."""
    asked = {field.only.field for field in fields if field.only is not None}
    return next((field for field in fields if field.needed and field.name in asked), None)


def named_by(act: Any) -> Iterator[Named]:
    """Everything that an act names."""
    kind = type(act)
    if kind not in _naming:
        _naming[kind] = tuple(field for field in fields_of(kind) if field.names)
    for field in _naming[kind]:
        value = getattr(act, field.name)
        for name in value if field.many else (value,):
            if name:
                yield Named(field.name, field.names, name)


def people_of(act: Any) -> set[str]:
    """The ids of the people whom an act names."""
    return {named.id for named in named_by(act) if named.thing == "person"}


def has_own_reason(act: Any) -> bool:
    """Whether the act itself says why it was done although something stood against it."""
    return "despite" in act._fields


# --- the usual fields ----------------------------------------------------------------------------

Person = Annotated[str, EntryField("person")]
People = Annotated[tuple[str, ...], EntryField("people")]
TaskId = Annotated[str, EntryField("task")]
ComponentId = Annotated[str, EntryField("component")]
PieceId = Annotated[str, EntryField("piece")]
SupplyId = Annotated[str, EntryField("supply")]
HoldId = Annotated[str, EntryField("hold", help="a hold: its id, or its task or component")]
HazardId = Annotated[str, EntryField("hazard")]
CheckId = Annotated[str, EntryField("check")]
EntryId = Annotated[str, EntryField("entry")]
FindingId = Annotated[
    str, EntryField("finding", help="the finding for which it is: the id of its entry")
]
Picture = Annotated[str, EntryField("picture", help="its path from the folder")]
Pictures = Annotated[tuple[str, ...], EntryField("pictures", help="their paths from the folder")]
Hours = Annotated[float, EntryField("hours", help="person-hours, such as 3, 3.5 or 3:30")]
Span = Annotated[Duration | None, EntryField("span", help='"36 hours", "2 days", "1 month"')]
Moment = Annotated[datetime | None, EntryField("moment")]
Day = Annotated[date | None, EntryField("day")]
TimeOfDay = Annotated[time | None, EntryField("time")]
Flag = Annotated[bool, EntryField("flag")]
Text = Annotated[str, EntryField("text")]
# What the program writes down of dangerous work when it begins: its hazard sheets, their clocks
# ("hot-work/fire-watch: 60 min, before closing, from ended"), and where it is done.
Dangers = Annotated[tuple[str, ...], EntryField("kept several")]
Clocks = Annotated[tuple[str, ...], EntryField("kept several")]
Place = Annotated[str, EntryField("kept")]
Note = Annotated[str, EntryField("text", help="a note to go with it", tail=" ({})")]
Why = Annotated[str, EntryField("why", help="the reason", tail=" ({})")]
Despite = Annotated[
    str,
    EntryField(
        "despite",
        "all the same, why",
        "the reason for doing it although something stands against it",
        tail=", all the same: {}",
    ),
]
