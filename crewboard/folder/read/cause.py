"""Why a name may not be known: the file in which it would stand cannot be read."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from crewboard.folder.read.fault import MISSING, Fault
from crewboard.folder.read.files import COMPONENTS, CREW, DAYS, HAZARDS, SUPPLIES

if TYPE_CHECKING:
    from crewboard.folder.read.folder import Folder
    from crewboard.order.admit.refusal import Refusal

# What can be named of that which stands in each file or folder.
_NAMED_IN: dict[str, tuple[str, ...]] = {
    CREW: ("person",),
    SUPPLIES: ("supply",),
    HAZARDS: ("hazard sheet", "check"),
    COMPONENTS: ("component", "task", "check", "hold"),
    DAYS: ("entry", "hold"),
}


def cause_of(folder: Folder, thing: str) -> str:
    """ "crew.toml cannot be read (line 3: the value is missing)"; empty where all is read in which
    such a thing stands."""
    causes = [fault for fault in folder.not_read.values() if _holds(fault.file, thing)]
    if not causes:
        return ""
    more = f", and {len(causes) - 1} more files cannot" if len(causes) > 1 else ""
    return f"{_in_words(causes[0])}{more}"


def _holds(file: str, thing: str) -> bool:
    places = [place for place, things in _NAMED_IN.items() if thing in things]
    if file.endswith("/"):  # "Days/" may be what should be called "days/"
        return any(place.startswith(file.lower()) for place in places)
    return file.startswith(tuple(places))


def _in_words(fault: Fault) -> str:
    if fault.code == MISSING:
        return fault.sentence
    place = f"line {fault.line}: " if fault.code == "toml" else ""
    return f"{fault.file} cannot be read ({place}{fault.sentence})"


def with_causes(folder: Folder, refused: Iterable[Refusal]) -> tuple[Refusal, ...]:
    """Refusals of unknown names, with the reason why they may not be known."""
    return tuple(
        _with_cause(refusal, cause_of(folder, thing))
        if (thing := _unknown_thing(refusal.code))
        else refusal
        for refusal in refused
    )


def _unknown_thing(code: str) -> str:
    if code in ("no-entry", "no-hold"):
        return code.removeprefix("no-")
    return code.removeprefix("unknown-") if code.startswith("unknown-") else ""


def _with_cause(refusal: Refusal, cause: str) -> Refusal:
    if not cause:
        return refusal
    return refusal._replace(says=f"{refusal.says} that can be read: {cause}", mend=MEND)


MEND = "mend that first; crewboard check names the place"
