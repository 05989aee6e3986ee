"""Every kind of reckoning: one file each, and its line here. A file is read when it is asked."""

from importlib import import_module
from typing import NamedTuple, cast

from crewboard.trade.kind import KindOfReckoning


class ListedKind(NamedTuple):
    """A kind as the list shows it; its module has the `KIND`. `fits` are the kinds of holds whose
    tasks want it first; behind them come those of which a word stands in the task's title (rule of
    this program, no source)."""

    says: str
    fits: tuple[str, ...] = ()
    words: tuple[str, ...] = ()

    def module(self, name: str) -> str:
        return f"{__name__}.{name.replace('-', '_')}"


_BEND, _GLUED, _COAT = ("bend set",), ("bend set", "clamp"), ("dry", "cure")
_COATING = ("coat", "paint", "varnish", "primer")

KINDS: dict[str, ListedKind] = {
    "length": ListedKind("a length in millimetres, metres, inches and feet"),
    "area": ListedKind("an area: length by width, less what is open in it"),
    "timber": ListedKind("board feet and cubic metres of a list of boards"),
    "arc": ListedKind(
        "an arc from chord and rise, heights along it to loft it",
        words=("arch", "curve"),
    ),
    "form": ListedKind(
        "the form of a steamed bend, from the shop's own bends", _BEND, ("bend", "bent", "form")
    ),
    "laminated": ListedKind("the form of a glued-up bend, by its plies", _GLUED),
    "stretch": ListedKind(
        "how far the outside of a bend stretches: a strap or not", _BEND, ("bend",)
    ),
    "steaming": ListedKind(
        "how long in the steam box or the boiling trough", _BEND, ("steam", "bend")
    ),
    "coats": ListedKind("paint for an area: coats, spreading rate, loss, tins", _COAT, _COATING),
    "film": ListedKind("wet and dry film of a coat, and how far a litre goes", _COAT, _COATING),
    "may-we-coat": ListedKind("dew point and surface: may this air be painted in", _COAT, _COATING),
    "cure": ListedKind(
        "how far something cured in the cold, by its product's sheet", ("cure", "glue")
    ),
    "moisture": ListedKind("the moisture that wood comes to in this air"),
    "movement": ListedKind("how far a board shrinks or swells across, and the gap to leave"),
    "drying": ListedKind(
        "how long boards dry in air: a question for the meter", words=("stack", "season")
    ),
    "fastenings": ListedKind(
        "how many nails, screws or tacks along a run", words=("nail", "screw", "tack")
    ),
    "nails": ListedKind("how long a nail, by what it holds", words=("nail",)),
    "pilot": ListedKind("pilot holes for a wood screw", words=("screw",)),
    "canvas": ListedKind(
        "canvas for a roof along its arc: cloths, laps, tacks, trim", words=("canvas",)
    ),
    "spacing": ListedKind("equal spacing between two ends, with every mark"),
    "ribs": ListedKind("ribs set out evenly along a curve", words=("rib",)),
    "boards": ListedKind(
        "which boards of mixed widths make up a width, and what lies where",
        words=("board", "plank", "deck"),
    ),
    "cutting": ListedKind(
        "lengths cut from stock with the saw's kerf: fewest boards", words=("saw", "cut")
    ),
    "chains": ListedKind("one length measured several ways: do they agree"),
    "levels": ListedKind(
        "heights levelled round a frame: the best ones, a wrong one found", words=("level",)
    ),
    "moved": ListedKind("has it moved: the same length before and after"),
    "photograph": ListedKind("a distance along a line of an old photograph", words=("photograph",)),
}


def kind_named(name: str) -> KindOfReckoning:
    """The kind of that name. Raises KeyError."""
    return cast("KindOfReckoning", import_module(KINDS[name].module(name)).KIND)
