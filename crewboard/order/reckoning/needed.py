"""How much of a supply an answer says that a task needs, in what the supply is counted in."""

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH, length
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.trade.given import Given
from crewboard.trade.measures import liquid
from crewboard.trade.reckoning import Reckoning

_FINE = 100  # what is poured or measured is needed to a hundredth, rounded up
_FINEST = 10**6
_LITRES = ("l", "liter", "liters", "litre", "litres")
_BOARDS = ("", "board", "boards", "plank", "planks")
_FEET, _CUBIC = ("board foot", "board feet", "bf"), ("m3", "m³", "cubic metre", "cubic metres")
_SQUARE = ("m2", "m²", "square metre", "square metres")
_NAILS = ("", "nail", "nails", "screw", "screws", "tack", "tacks")
_RUNS = {  # mm; cloth and moulding are bought by the run
    ("m", "metre", "metres"): Fraction(1000),
    ("ft", "foot", "feet"): 12 * INCH,
    ("yd", "yard", "yards"): 36 * INCH,
}
_CLOTH, _MOULDING = ("canvas", "cloth", "duck"), ("moulding", "half-round", "trim", "bead")
_Figure = Callable[[Mapping[str, object]], object]


class _Bought(NamedTuple):
    """By which words a supply is counted, and the figure that counts it, divided by `of_one`; where
    it gives several things in the one unit, by which words in the supply's name it is the one."""

    words: tuple[str, ...]
    figure: _Figure
    of_one: Fraction = Fraction(1)
    called: tuple[str, ...] = ()


def _named(name: str) -> _Figure:
    return lambda figures: figures.get(name)


def _taken(figures: Mapping[str, object]) -> object:
    """Of a deck: the boards that are taken from the stock, old ones are there already."""
    taken = figures.get("taken")
    return sum(each["count"] for each in taken) if isinstance(taken, list) else None


def _cut(figures: Mapping[str, object]) -> object:
    """Of boards cut: how many millimetres they are together."""
    cut = figures.get("cut")
    if not isinstance(cut, list):
        return None
    return sum((Fraction(each["board_mm"]) * each["times"] for each in cut), Fraction(0))


def _runs(figure: _Figure, called: tuple[str, ...] = ()) -> tuple[_Bought, ...]:
    return tuple(_Bought(words, figure, of_one, called) for words, of_one in _RUNS.items())


_COUNTS: Mapping[str, tuple[_Bought, ...]] = {
    "coats": (_Bought(("tin", "tins"), _named("tins")), _Bought(_LITRES, _named("litres"))),
    "boards": (_Bought(_BOARDS, _taken),),
    "cutting": (_Bought(_BOARDS, _named("boards")), *_runs(_cut)),
    "timber": (_Bought(_FEET, _named("board_feet")), _Bought(_CUBIC, _named("volume_m3"))),
    "fastenings": (_Bought(_NAILS, _named("with_spare")),),
    "canvas": (
        _Bought(("", "tack", "tacks"), _named("tacks"), called=("tack",)),
        _Bought(_SQUARE, _named("area_m2"), called=_CLOTH),
        *_runs(_named("cloth_mm"), _CLOTH),
        *_runs(_named("moulding_mm"), _MOULDING),
    ),
}
_TOO = {"coats": "give the tin's size too", "canvas": "give the width of the cloth too"}


def amount_of(supply: Supply, kind: str, given: Given, answer: Reckoning) -> float:
    """Raises Unread, with what to do, where the answer does not count what the supply is."""
    if kind not in _COUNTS:
        raise Unread(f"{kind} gives no quantity of a supply", f"these do: {', '.join(_COUNTS)}")
    if supply.needed is None:
        mend = 'write its quantity with a number and what is counted: "3 tins of 2.5 l"'
        raise Unread(f'the supply "{supply.name}" is not counted', mend)
    counted, _, size = supply.unit.partition(" of ")
    for count in _COUNTS[kind]:
        if counted.strip().casefold() in count.words and _is_called(supply, count):
            number = count.figure(answer.figures)
            if not isinstance(number, int | Fraction):
                break
            _fits(supply, kind, given, answer, size.strip())
            exact = Fraction(number) / count.of_one
            return int(exact) if exact.denominator == 1 else ceil(exact * _FINE) / _FINE
    by_figure = {count.figure: count for count in reversed(_COUNTS[kind])}  # one unit of each
    what = " or ".join(_gives(count) for count in reversed(by_figure.values()))
    unit = f'in "{supply.unit}"' if supply.unit else "in pieces"
    said = f'the supply "{supply.name}" is counted {unit}, this gives {what}'
    raise Unread(said, _TOO.get(kind, "") if _could(supply, kind, counted) else "")


def _is_called(supply: Supply, count: _Bought) -> bool:
    return not count.called or any(word in supply.name.casefold() for word in count.called)


def _could(supply: Supply, kind: str, counted: str) -> bool:
    """Whether only something that was not given is missing."""
    return any(
        counted.strip().casefold() in count.words and _is_called(supply, count)
        for count in _COUNTS[kind]
    )


def _gives(count: _Bought) -> str:
    """ "tins", "m of moulding"."""
    word = count.words[0] if count.words in _RUNS else count.words[-1]
    return f"{word} of {count.called[0]}" if count.called and word != "tacks" else word


def _fits(supply: Supply, kind: str, given: Given, answer: Reckoning, size: str) -> None:
    """Whether the tins or boards that were reckoned are those of the supply."""
    reads, sizes = _SIZES.get(kind, (None, None))
    if not size or reads is None or sizes is None:
        return
    try:
        own = reads(size)
    except Unread:
        return  # "planks of green ash"
    if any(one != own for one in sizes(given, answer)):
        says = f'the supply "{supply.name}" comes in {size}, another size was reckoned with'
        raise Unread(says, "reckon with that size")


def _tin(given: Given, _answer: Reckoning) -> Iterable[object]:
    return (given.liquid("tin"),) if given.has("tin") else ()


def _stock(_given: Given, answer: Reckoning) -> Iterable[object]:
    cut = answer.figures.get("cut")
    return [each["board_mm"] for each in cut] if isinstance(cut, list) else ()


_Sizes = Callable[[Given, Reckoning], Iterable[object]]
_SIZES: Mapping[str, tuple[Callable[[str], Fraction], _Sizes]] = {
    "coats": (liquid, _tin),
    "cutting": (lambda text: length(text).mm, _stock),
}


class Needed(NamedTuple):
    """How much a task, or the series as it is written, needs of a supply: in all, and for `each` of
    its pieces, as the plan says it of a series."""

    task: Task
    supply: Supply
    amount: float
    each: float
    of_series: bool = False


def needed_for(
    plan: Plan, task_id: str, supply: Supply, kind: str, given: Given, answer: Reckoning
) -> Needed:
    """What was reckoned for a series is for all of its pieces, what for one of it for that one, and
    so for each. Raises Unread."""
    amount = amount_of(supply, kind, given, answer)
    if not task_id:
        raise Unread("say which task needs it", "write --task")
    single = plan.tasks.get(task_id)
    series = plan.series.get(task_id) or (plan.series.get(single.series) if single else None)
    if series is None:
        assert single is not None, "a name that was looked up"
        return Needed(single, supply, amount, amount)
    count = len(series.members)
    if single is not None:
        return Needed(series.task, supply, amount * count, amount, True)
    # Rounded down, so that the sum of the pieces, as supplies are summed, asks for no tin more.
    parts = floor(Fraction(amount) / count * _FINEST)
    while sum([parts / _FINEST] * count) > amount:
        parts -= 1
    each = parts / _FINEST
    return Needed(series.task, supply, amount, each, True)


def countable(kind: str) -> bool:
    """Whether answers of this kind count something that is bought."""
    return kind in _COUNTS
