"""How much of a supply an answer says that a task needs, in what the supply is counted in."""

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from math import ceil

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import length
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.trade.given import Given
from crewboard.trade.measures import liquid
from crewboard.trade.reckoning import Reckoning

_FINE = 100  # what is poured or measured is needed to a hundredth, rounded up
_LITRES = ("l", "liter", "liters", "litre", "litres")
_BOARDS = ("", "board", "boards", "plank", "planks")
_FEET, _CUBIC = ("board foot", "board feet", "bf"), ("m3", "m³", "cubic metre", "cubic metres")
_METRES = ("m", "metre", "metres")
_NAILS = ("", "nail", "nails", "screw", "screws", "tack", "tacks")
_Figure = Callable[[Mapping[str, object]], object]


def _named(name: str) -> _Figure:
    return lambda figures: figures.get(name)


def _taken(figures: Mapping[str, object]) -> object:
    """Of a deck: the boards that are taken from the stock, old ones are there already."""
    taken = figures.get("taken")
    return sum(each["count"] for each in taken) if isinstance(taken, list) else None


def _metres(figures: Mapping[str, object]) -> object:
    """Of boards cut: how long they are together."""
    cut = figures.get("cut")
    if not isinstance(cut, list):
        return None
    return sum((Fraction(each["board_mm"]) * each["times"] for each in cut), Fraction(0)) / 1000


# By kind: the words by which a supply is counted, and the figure that counts it.
_COUNTS: Mapping[str, tuple[tuple[tuple[str, ...], _Figure], ...]] = {
    "coats": ((("tin", "tins"), _named("tins")), (_LITRES, _named("litres"))),
    "boards": ((_BOARDS, _taken),),
    "cutting": ((_BOARDS, _named("boards")), (_METRES, _metres)),
    "timber": ((_FEET, _named("board_feet")), (_CUBIC, _named("volume_m3"))),
    "fastenings": ((_NAILS, _named("with_spare")),),
    "canvas": ((("tack", "tacks"), _named("tacks")),),
}


def amount_of(supply: Supply, kind: str, given: Given, answer: Reckoning) -> float:
    """Raises Unread, with what to do, where the answer does not count what the supply is."""
    if kind not in _COUNTS:
        raise Unread(f"{kind} gives no quantity of a supply", f"these do: {', '.join(_COUNTS)}")
    if supply.needed is None:
        mend = 'write its quantity with a number and what is counted: "3 tins of 2.5 l"'
        raise Unread(f'the supply "{supply.name}" is not counted', mend)
    counted, _, size = supply.unit.partition(" of ")
    for words, figure in _COUNTS[kind]:
        if counted.strip().casefold() in words:
            number = figure(answer.figures)
            if not isinstance(number, int | Fraction):
                break
            _fits(supply, kind, given, answer, size.strip())
            return int(number) if number == int(number) else ceil(number * _FINE) / _FINE
    what = " or ".join(words[-1] for words, _ in _COUNTS[kind])
    mend = "give the tin's size too" if kind == "coats" and not given.has("tin") else ""
    unit = f'in "{supply.unit}"' if supply.unit else "in pieces"
    raise Unread(f'the supply "{supply.name}" is counted {unit}, this gives {what}', mend)


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


def task_that_needs(plan: Plan, task_id: str) -> Task:
    """The one task of which it can be said. Raises Unread."""
    task = plan.tasks.get(task_id)
    if not task_id:
        raise Unread("say which task needs it", "write --task")
    if task is None or task.series:
        mend = "write it in its file, for each of its pieces"
        raise Unread("this is reckoned for one task, and that is a series of them", mend)
    return task
