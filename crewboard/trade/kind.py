"""Reckoning: what was given is looked through, the kind works it out, and says what it took."""

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.trade.given import Ask, Given, Known
from crewboard.trade.kept_unit import with_its_unit
from crewboard.trade.reckoning import Reckoning
from crewboard.trade.springback import Bend, bend_of

_BEND = "bend"
_STANDS = " | "  # between what a folder says and where it says so
_PLAIN = ("0", "1", "100", "no", "steam")  # taken where nothing is said, and not worth saying


class KindOfReckoning(NamedTuple):
    """One kind: what it asks for and how it is worked out.

    `from_bends` is the name of what it asks by which the shop's own bends are chosen, `way` that by
    which one of several answers is, their number being the figure "ways"; `clock` the figure of the
    minutes for which a clock of the day can be started. Empty where it has none.
    """

    name: str
    title: str
    asks: tuple[Ask, ...]
    answer: Callable[[Given], Reckoning]
    from_bends: str = ""
    way: str = ""
    clock: str = ""


def reckon(kind: KindOfReckoning, given: Given) -> Reckoning:
    """The answer, with what was taken because nobody said otherwise. Raises Unread."""
    given = given._replace(asks=kind.asks)
    names = [asked.name for asked in kind.asks]
    for name in given.typed:
        if name not in names:
            raise Unread(f'{kind.title} does not ask for "{name}"', f"it asks for {_list(names)}")
    for asked in kind.asks:
        if asked.needed and not given.has(asked.name):
            raise Unread(f"{asked.called} is missing", f'write "{asked.name}=..."')
    answer = kind.answer(given)
    return answer._replace(assumes=(*_taken(given), *answer.assumes))


def _taken(given: Given) -> Iterable[str]:
    """What stands in one place, together."""
    taken: dict[str, list[str]] = {}
    for asked in given.asks:
        if given.typed.get(asked.name, "").strip():
            continue
        if asked.name in given.known:
            known = given.known[asked.name]
            taken.setdefault(known.where, []).append(f"{asked.called}: {known.typed}")
        elif asked.otherwise not in ("", *_PLAIN):
            otherwise = taken.setdefault("where nobody says otherwise", [])
            otherwise.append(f"{asked.called}: {asked.otherwise}")
    return [f"{', '.join(said)}, {where}" for where, said in taken.items()]


def _list(names: list[str]) -> str:
    return ", ".join(names)


# --- kept in the logbook, and taken from there again ----------------------------------------------


def kept_given(kind: KindOfReckoning, given: Given) -> tuple[str, ...]:
    """ "chord = 96 in" for everything that was typed, each with its unit."""
    reads = {ask.name: ask.reads for ask in kind.asks}
    return tuple(
        f"{name} = {with_its_unit(reads[name], typed.strip(), given.units)}"
        for name, typed in given.typed.items()
        if typed.strip()
    )


def kept_known(kind: KindOfReckoning, given: Given) -> tuple[str, ...]:
    """The same for what the folder filled in, and the shop's bends that the kind went by."""
    asked = {asked.name for asked in kind.asks} - {n for n, t in given.typed.items() if t.strip()}
    filled = (
        f"{name} = {known.typed}{_STANDS}{known.where}"
        for name, known in given.known.items()
        if name in asked
    )
    bends = (f"{_BEND} = {bend.spelled}" for bend in given.bends) if kind.from_bends else ()
    return (*filled, *bends)


def given_again(given: Iterable[str], known: Iterable[str], units: str) -> Given:
    """What a kept reckoning started from. Raises Unread where a line of it cannot be read."""
    filled: dict[str, Known] = {}
    bends: list[Bend] = []
    for name, text in map(_parted, known):
        if name == _BEND:
            bends.append(_bend(text))
        else:
            typed, _, where = text.partition(_STANDS)
            filled[name] = Known(typed, where)
    return Given(dict(map(_parted, given)), units, filled, tuple(bends))


def learned(before: Iterable[str], now: Iterable[str]) -> list[str]:
    """What the one answer started from and the other did not, of the lines that are kept. Where a
    value stands, and how old it is there, makes it no other."""
    was, told = {_value(line): line for line in before}, {_value(line): line for line in now}
    return [
        *(f"new: {line}" for value, line in told.items() if value not in was),
        *(f"no more: {line}" for value, line in was.items() if value not in told),
    ]


def is_a_bend(line: str) -> bool:
    """Whether a kept line is one of the shop's own bends."""
    return line.startswith(f"{_BEND} =")


def _value(line: str) -> str:
    """A bend by what it is, however its line was once worded."""
    if not is_a_bend(line):
        return line.partition(_STANDS)[0]
    try:
        return _bend(_parted(line)[1]).spelled
    except Unread:
        return line


def typed_given(words: Iterable[str]) -> Mapping[str, str]:
    """ "chord=96 in" by its name. Raises Unread."""
    given: dict[str, str] = {}
    for word in words:
        name, value = _parted(word)
        if name in given:
            raise Unread(f'"{name}" is given twice', "give it once")
        given[name] = value
    return given


def _parted(line: str) -> tuple[str, str]:
    name, equals, value = line.partition("=")
    if not equals or not name.strip():
        raise Unread(f'"{line}" does not say what it is', 'write "chord=96 in"')
    return name.strip(), value.strip()


def _bend(spelled: str) -> Bend:
    try:
        return bend_of(spelled)
    except ValueError as error:
        if isinstance(error, Unread):
            raise
        raise Unread(f'"{spelled}" is no bend', "write it as crewboard bent keeps it") from None
