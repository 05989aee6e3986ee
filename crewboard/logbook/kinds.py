"""The kinds of entries: one description each, from which every room takes what it needs."""

import re
from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar

from crewboard.logbook.fields import EntryField, fields_of

Tell = Callable[[str], str]
"""Gives the words of a field by its name, empty where nothing stands in it."""
Type = TypeVar("Type", bound=type)
_OPTIONAL_OR_FIELD = r"\[([^\[\]]*)\]|\{([^{}]*)\}"
_FIELD = r"\{([^{}]*)\}"


class ByCommand(NamedTuple):
    """How the command line offers to write it."""

    name: str
    overview: str  # in the list of all commands
    says: str
    words: tuple[str, ...] = ()  # the fields that are typed as words, the others are options
    each: str = ""  # the field whose word may be typed several times, an entry for each
    examples: tuple[str, ...] = ()
    # Where a series is named: its pieces in the first of these groups of states in which any is
    # ("finished": the work is done); else what is still to do.
    of_series: tuple[tuple[str, ...], ...] = ()


class KindOfEntry(NamedTuple):
    """All that there is to know of one kind of entry.

    `says` is its sentence: "{who} worked {hours}[ on {task}]" (what stands in brackets falls away
    where its field is empty; "{task|component}" is the first that is not; "{coming:yes|no}" asks a
    flag), or a function of the act and of what tells its fields.
    """

    act: type
    word: str  # `kind` in the day's file
    says: str | Callable[[Any, Tell], str]
    title: str = ""  # heads the form that writes it
    menu: str = ""  # its note among what can be written by hand; empty: another way leads to it
    command: ByCommand | None = None
    ahead: bool = False  # whether it may be said of a moment that is still to come
    # Of the record of the vehicle (`crewboard.fabric`): it moves nothing of the work.
    of_record: bool = False
    jotted: int = 10  # its number among what is jotted down for the record: up to 9 a digit
    heads: str = ""  # heads the list of them on the page of the record

    @property
    def fields(self) -> tuple[EntryField, ...]:
        return fields_of(self.act)


KINDS_OF_ENTRY: dict[type, KindOfEntry] = {}
"""Every kind, by the type of its act: `entry` puts it here."""
BY_WORD: dict[str, KindOfEntry] = {}
BY_COMMAND: dict[str, KindOfEntry] = {}


def entry(
    word: str,
    says: str | Callable[[Any, Tell], str],
    *,
    title: str = "",
    menu: str = "",
    command: ByCommand | None = None,
    ahead: bool = False,
    of_record: bool = False,
    jotted: int = 10,
    heads: str = "",
) -> Callable[[Type], Type]:
    """Describes the type below it, and makes it a kind of entry."""

    def described(act: Type) -> Type:
        texts = (title or word, menu, command)
        kind = KindOfEntry(act, word, says, *texts, ahead, of_record, jotted, heads or texts[0])
        KINDS_OF_ENTRY[act] = BY_WORD[word] = kind
        if command is not None:
            BY_COMMAND[command.name] = kind
        return act

    return described


def kind_of(act: Any) -> KindOfEntry:
    """The description of an act's kind."""
    return KINDS_OF_ENTRY[type(act)]


def sentence(act: Any, tell: Tell, *, below_heading: bool = False) -> str:
    """What an entry says, with its note, its reason and what was insisted on behind it. Below a
    heading that says its kind and what it is on it begins with what it is about."""
    kind = kind_of(act)
    if callable(kind.says):
        core = kind.says(act, tell)
    else:
        begins = max(0, kind.says.find("{what}")) if below_heading else 0
        core = _filled(kind.says[begins:], act, tell)
    tails = (field for field in kind.fields if field.tail and getattr(act, field.name))
    return core + "".join(field.tail.replace("{}", tell(field.name)) for field in tails)


def _filled(template: str, act: Any, tell: Tell) -> str:
    """The template with its fields in words. What a field says is never read as a template."""

    def filled(field: str) -> str:
        name, colon, words = field.partition(":")
        if colon:
            yes, _, no = words.partition("|")
            return yes if getattr(act, name) else no
        return next(filter(None, map(tell, field.split("|"))), "")

    def part(match: re.Match[str]) -> str:
        if match[1] is None:
            return filled(match[2])
        if not all(filled(field) for field in re.findall(_FIELD, match[1])):
            return ""
        return re.sub(_FIELD, lambda inner: filled(inner[1]), match[1])

    return re.sub(_OPTIONAL_OR_FIELD, part, template)
