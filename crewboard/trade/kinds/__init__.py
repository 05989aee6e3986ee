"""Every kind of reckoning: one file each, and its line here. A file is read when it is asked."""

from importlib import import_module
from typing import NamedTuple, cast

from crewboard.trade.reckon import KindOfReckoning


class ListedKind(NamedTuple):
    """A kind as the list shows it; its module has the `KIND`."""

    says: str

    def module(self, name: str) -> str:
        return f"{__name__}.{name.replace('-', '_')}"


KINDS: dict[str, ListedKind] = {
    "length": ListedKind("a length in millimetres, metres, inches and feet"),
    "area": ListedKind("an area: length by width, less what is open in it"),
    "timber": ListedKind("board feet and cubic metres of a list of boards"),
    "arc": ListedKind("an arc from chord and rise, with heights along it for the loft floor"),
    "form": ListedKind("how round the form of a steamed bend has to be, from the shop's own bends"),
    "laminated": ListedKind("how round the form of a glued-up bend has to be, by its plies"),
    "stretch": ListedKind("how far the outside of a bend stretches, and when it wants a strap"),
    "steaming": ListedKind("how long in the steam box or the boiling trough"),
    "coats": ListedKind("paint for an area: coats, spreading rate, loss, tins"),
    "film": ListedKind("wet and dry film of a coat, and how far a litre goes"),
    "may-we-coat": ListedKind("dew point and surface: may this air be painted in"),
    "moisture": ListedKind("the moisture that wood comes to in this air"),
    "movement": ListedKind("how far a board shrinks or swells across, and the gap to leave"),
    "fastenings": ListedKind("how many nails, screws or tacks along a run"),
    "nails": ListedKind("how long a nail, by what it holds"),
    "pilot": ListedKind("pilot holes for a wood screw"),
    "canvas": ListedKind("canvas for a roof along its arc: cloths, laps, tacks, trim"),
    "spacing": ListedKind("equal spacing between two ends, with every mark"),
    "ribs": ListedKind("ribs set out evenly along a curve"),
    "boards": ListedKind("which boards of mixed widths make up a width, and what lies where"),
    "cutting": ListedKind("lengths cut from stock with the saw's kerf: fewest boards"),
}


def kind_named(name: str) -> KindOfReckoning:
    """The kind of that name. Raises KeyError."""
    return cast("KindOfReckoning", import_module(KINDS[name].module(name)).KIND)
