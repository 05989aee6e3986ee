"""What a reckoning starts from: what was typed, kept as it was typed, and what the shop knows."""

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Literal, NamedTuple, TypeVar

from crewboard.plan.as_typed import Unread, span
from crewboard.plan.duration import Duration
from crewboard.plan.extent import extent
from crewboard.plan.length import INCH, NUMBER, length, number_in, one_way, signed
from crewboard.plan.units import as_kept
from crewboard.trade.measures import film, liquid, spreading
from crewboard.trade.springback import Bend

Reads = Literal[
    "length",
    "lengths",
    "area",
    "number",
    "count",
    "percent",
    "temperature",
    "liquid",
    "spreading",
    "film",
    "span",
    "one of",
    "yes",
    "measures",  # lengths among signs: "5 1/4 at 12", "2.40 m ± 3 mm; 1.2 m + 1.21 m"
    "heights",  # behind the name of what they are: "A to B: -12 ± 1; B = 100"
    "log",  # hours by temperature: "6 h at 25; 12 h at 12"
    "air",  # readings: "18 °C 62 %; 19 °C 60 %"
    "text",
]
Value = TypeVar("Value")
# Between the parts of a list: "12 x 3 7/8, 10 x 5 1/4 in". A comma within a number has no blank.
_BETWEEN = r"\s*,\s+|\s*\+\s*|\s*,(?=\s*\d+\s*(?:x|×|of\b))"
_COUNTED = r"(\d{1,6})\s*(?:x|×|of\b)\s*(.+)"
_MOST_PARTS, _TWO = 200, 2
_OWN_SIGN = r"[^\d\s/.,]"  # 3' 6 has one, though the inches have none
# Behind what is asked stands how it is typed: 'in stock: "12 x 98"', "area, 12.5 m2".
_AS_TYPED = re.compile(r"[:,] (?=[\"\d]|yes or no)")


class Ask(NamedTuple):
    """One thing that a kind of reckoning asks for.

    `otherwise` is what is taken where nobody says it, as it would be typed: the answer then says
    so. `fills` names what a task, its pieces or the last shop reading can say of it; where `unless`
    is typed that says it already, and what the folder knows is left out.
    """

    name: str
    what: str
    reads: Reads
    needed: bool = True
    otherwise: str = ""
    words: tuple[str, ...] = ()
    fills: str = ""
    unless: str = ""

    @property
    def called(self) -> str:
        """What it is, without how it is typed: "area" of "area, 12.5 m2 or 140 sq ft"."""
        return _AS_TYPED.split(self.what, maxsplit=1)[0]

    @property
    def typed_as(self) -> str:
        """How it is typed, empty where that is not shown."""
        _, *shown = _AS_TYPED.split(self.what, maxsplit=1)
        return "".join(shown).replace('"', "")


class Known(NamedTuple):
    """What the folder says of something that was asked: as typed there, and where it stands."""

    typed: str
    where: str

    @property
    def age(self) -> str:
        """ "7 days" of what was read so long ago; empty of all else."""
        *_, last = self.where.rpartition(", ")
        return last.removesuffix(" old") if last.endswith(" old") else ""


class Given(NamedTuple):
    """`typed` by the person who reckons goes before what is `known`, that before `otherwise`."""

    typed: Mapping[str, str]
    units: str = "metric"
    known: Mapping[str, Known] = {}
    bends: tuple[Bend, ...] = ()
    asks: tuple[Ask, ...] = ()

    def text(self, name: str) -> str:
        """What stands for it, empty where nothing does."""
        if self.typed.get(name, "").strip():
            return self.typed[name].strip()
        if name in self.known:
            return self.known[name].typed
        return self.asked(name).otherwise

    def asked(self, name: str) -> Ask:
        return next(asked for asked in self.asks if asked.name == name)

    def has(self, name: str) -> bool:
        return bool(self.text(name))

    def read(self, name: str, read: Callable[[str], Value]) -> Value:
        """Read by a function; what it refuses is told with what was asked. Raises Unread."""
        typed, asked = self.text(name), self.asked(name).called
        if not typed:
            raise Unread(f"{asked} is missing", f'write "{name}=..."')
        try:
            return read(typed)
        except Unread as unread:
            raise Unread(f"{asked}: {unread.sentence}", unread.hint) from None

    def each(self, name: str, read: Callable[[str], Value]) -> list[Value]:
        """The same of all that stands between semicolons; nothing where nobody says it."""
        if not self.has(name):
            return []
        return self.read(name, lambda typed: [read(part) for part in _parts_of(typed)])

    def length(self, name: str) -> Fraction:
        """mm, more than nothing."""
        return self._some(name, lambda typed: length(typed, self.units).mm)

    def length_or_nothing(self, name: str) -> Fraction:
        """mm; a gap or an overhang may be none."""
        return self.read(name, lambda typed: length(typed, self.units).mm)

    def lengths(self, name: str, alone: int = 1) -> tuple[tuple[Fraction, int], ...]:
        """Each length in mm with how many there are, `alone` where that is not said:
        "12 x 3 7/8, 5 1/4 in"."""
        return self.read(name, lambda typed: tuple(_counted(typed, self.units, alone)))

    def area(self, name: str) -> Fraction:
        """m²."""
        return self._some(name, _area)

    def number(self, name: str) -> Fraction:
        return self._some(name, exact)

    def whole(self, name: str) -> int:
        """A count of at least one."""
        return int(self._some(name, _whole))

    def percent(self, name: str, most: int = 100) -> Fraction:
        """In percent, from 0 to `most`."""
        return self.read(name, lambda typed: _percent(typed, most))

    def celsius(self, name: str) -> float:
        return self.read(name, lambda typed: as_kept(typed, "°C", self.units))

    def liquid(self, name: str) -> Fraction:
        """Litres."""
        return self._some(name, liquid)

    def spreading(self, name: str) -> Fraction:
        """m² a litre."""
        return self._some(name, spreading)

    def film(self, name: str) -> Fraction:
        """Micrometres."""
        return self._some(name, film)

    def span(self, name: str) -> Duration:
        return self.read(name, span)

    def one_of(self, name: str) -> str:
        """One of the words, which may be typed by their beginning."""
        return self.read(name, lambda typed: _one_of(typed, self.asked(name).words))

    def yes(self, name: str) -> bool:
        return self.has(name) and self.read(name, lambda t: _one_of(t, ("yes", "no"))) == "yes"

    def _some(self, name: str, read: Callable[[str], Fraction | int]) -> Fraction:
        value = Fraction(self.read(name, read))
        if value <= 0:
            raise Unread(f"{self.asked(name).called}: {self.text(name)} is nothing", "write more")
        return value


def exact(typed: str) -> Fraction:
    """ "3", "3.5", "3,5" or "2 3/8", exact. Raises Unread."""
    number = re.fullmatch(NUMBER, one_way(typed))
    if number is None:
        is_what = "less than nothing" if typed.strip()[:1] in ("-", "−") else "not a number"
        raise Unread(f'"{typed}" is {is_what}', "write 3, 3.5 or 2 3/8")
    return number_in(number, typed)


def _whole(typed: str) -> int:
    no_count = Unread(f'"{typed}" is not a count', "write a whole number")
    try:
        number = exact(typed)
    except Unread:
        raise no_count from None
    if number.denominator != 1 or number > 1_000_000:
        raise no_count
    return int(number)


def _percent(typed: str, most: int) -> Fraction:
    number = exact(typed.strip().removesuffix("%").strip())
    if number > most:
        raise Unread(f'"{typed}" is more than {most} %', f"write a number from 0 to {most}")
    return number


def _parts_of(typed: str) -> list[str]:
    """What stands between semicolons. Raises Unread where that is too much."""
    parts = [part.strip() for part in typed.split(";") if part.strip()]
    if len(parts) > _MOST_PARTS:
        raise Unread(f"these are more than {_MOST_PARTS}", "reckon them in parts")
    return parts


def _area(typed: str) -> Fraction:
    """m² of "12.5 m2", and of "3 m x 2 m" where both have their unit."""
    sides = re.split(r"\s*[x×]\s*", typed)
    if len(sides) == _TWO and all(map(signed, sides)):
        return length(sides[0]).mm * length(sides[1]).mm / 1_000_000
    try:
        measured = extent(typed)
    except Unread as unread:
        if "two ways" in unread.sentence or "no unit" in unread.sentence:
            raise
        measured = None
    if measured is None or measured.basis != "area":
        raise Unread(f'"{typed}" is not an area', "write 12.5 m2, 140 sq ft or 3 m x 2 m")
    return measured.amount


def _counted(typed: str, units: str, alone: int) -> list[tuple[Fraction, int]]:
    parts = [part for part in re.split(_BETWEEN, typed) if part.strip()]
    if not parts or len(parts) > _MOST_PARTS:
        raise Unread(f'"{typed}" is no list of lengths', "write 12 x 3 7/8, 10 x 5 1/4")
    unit = unit_of(parts[-1])
    large = bool(unit) and signed(f"1 {unit}") != "" and length(f"1 {unit}").mm > INCH
    read: list[tuple[Fraction, int]] = []
    for part in parts:
        counted = re.fullmatch(_COUNTED, part.strip(), re.IGNORECASE)
        count, text = (int(counted[1]), counted[2]) if counted else (alone, part.strip())
        if not signed(text) and not re.search(_OWN_SIGN, text):
            if large:  # 900 before 2.4 m is nobody's 900 m
                sentence = f'"{part.strip()}" may be of several units'
                raise Unread(sentence, f"write the unit behind each: {text} {unit}")
            text = f"{text} {unit}".strip()
        mm = length(text, units).mm
        if not mm or (counted and not count):
            raise Unread(f'"{part.strip()}" is nothing', "write 12 x 3 7/8, 10 x 5 1/4")
        read.append((mm, count))
    return read


def unit_of(text: str) -> str:
    """The unit behind the last of a list stands for all that have none: "12 x 3 7/8, 2 x 5 in". One
    larger than an inch has to stand behind each."""
    unit = re.search(r"(?<=[\d\s])([a-z]+\.?|[\"'])\s*$", one_way(text), re.IGNORECASE)
    return unit[1] if unit else ""


def _one_of(typed: str, words: tuple[str, ...]) -> str:
    begun = " ".join(typed.casefold().split())
    fitting = [word for word in words if word == begun] or [
        word for word in words if word.startswith(begun)
    ]
    if len(fitting) != 1:
        raise Unread(f'"{typed}" is none of these', f"write {' or '.join(words)}")
    return fitting[0]
