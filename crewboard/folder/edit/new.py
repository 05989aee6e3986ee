"""A new folder for a vehicle: a few small files, written to be read and changed by hand."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from datetime import time
from pathlib import Path
from typing import NamedTuple

from crewboard.folder.cannot import ChangedMeanwhile, NotKept
from crewboard.folder.disk.lock import folder_lock
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.shared import is_shared
from crewboard.folder.disk.write import make_folders, replace_file
from crewboard.folder.read.files import CREW, SUPPLIES, VEHICLE, component_path, id_from
from crewboard.folder.read.keys import COMPONENT_KEYS, CREW_KEYS, SUPPLY_KEYS, VEHICLE_KEYS, PlanKey
from crewboard.folder.read.vehicle_file import decode_vehicle
from crewboard.folder.toml.decode import parse_toml
from crewboard.folder.toml.values import toml_key, toml_value
from crewboard.plan.hold import Conditions
from crewboard.plan.vehicle import FORMAT


class Usual(NamedTuple):
    """A main component that most wooden-bodied vehicles have, and what it comes after."""

    id: str
    name: str
    after: tuple[str, ...] = ()


# The order in which such a vehicle is mostly put together: common practice, no source.
USUAL_COMPONENTS = (
    Usual("frame", "Frame"),
    Usual("running-gear", "Running gear", ("frame",)),
    Usual("body-framing", "Body framing", ("frame",)),
    Usual("wiring", "Wiring", ("frame",)),
    Usual("air-piping", "Air piping", ("frame",)),
    Usual("deck", "Deck", ("frame", "wiring", "air-piping")),
    Usual("roof", "Roof", ("body-framing",)),
    Usual("panels", "Panels", ("body-framing",)),
    Usual("doors", "Doors", ("body-framing",)),
    Usual("paint", "Paint", ("panels", "doors")),
)


class NewVehicle(NamedTuple):
    """What a first run asks."""

    name: str
    what: str = ""
    work_days: tuple[str, ...] = ("first saturday", "third saturday")
    opens: time = time(9)
    closes: time = time(16)
    people: tuple[str, ...] = ()  # names; the first of them leads
    components: tuple[str, ...] = ("frame",)  # ids of USUAL_COMPONENTS, or names of others
    emergency: str = ""  # whom to call
    places: tuple[str, ...] = ()  # where work is done
    conditions: Conditions = Conditions()  # what the shop's air keeps to
    adults: bool = False  # whether all of these people are 18 or older; otherwise nobody has said
    jurisdiction: str = ""  # whose law the hazard sheets show first


def new_folder(root: str | os.PathLike[str], new: NewVehicle) -> list[str]:
    """Make the folder; the files that were written, by their paths in it.

    Files that are there already stay as they are. Raises NotKept where the folder already holds
    a vehicle, where something that was said makes no sense, or where the disk does not take it.
    """
    texts = _texts(new)
    _must_read_well(Path(root, VEHICLE), texts[VEHICLE])
    make_root(os.path.realpath(root))
    written: list[str] = []
    with folder_lock(root):
        vehicle = Path(root, VEHICLE)
        if os.path.lexists(vehicle):
            hint = "Open that folder, or name an empty one."
            raise NotKept(vehicle, "this folder holds a vehicle already", hint)
        for path, text in texts.items():
            if os.path.lexists(Path(root, path)):
                continue
            try:
                replace_file(Path(root, path), text.encode(), expected=None, root=root)
            except ChangedMeanwhile:
                continue  # somebody else made it just now: theirs stays
            written.append(path)
    return written


def make_root(root: str) -> None:
    """Make the vehicle's own folder: a group that the one above was given to has this one too.
    Raises NotKept where the disk does not take it."""
    above = os.path.dirname(root)
    while not os.path.isdir(above):
        above = os.path.dirname(above)
    try:
        if is_shared(os.stat(above)):
            make_folders(root, above)
        os.makedirs(root, exist_ok=True)
    except OSError as error:
        raise not_kept(root, error) from error


def _must_read_well(path: Path, text: str) -> None:
    values = parse_toml(text.encode())
    assert isinstance(values, dict)
    _, misfits = decode_vehicle(values)
    for misfit in misfits:
        raise NotKept(path, misfit.sentence, misfit.hint)


def _texts(new: NewVehicle) -> dict[str, str]:
    """The files; the one that makes the folder a vehicle's comes last."""
    chosen = dict(_component(name) for name in new.components)
    texts = {
        component_path(stem): _component_text(stem, name, after, chosen)
        for stem, (name, after) in chosen.items()
    }
    texts[CREW] = _crew_text(new.people, adults=new.adults)
    texts[SUPPLIES] = _supplies_text()
    texts[".gitattributes"] = "# Two people's lines of one day are both kept.\n" + (
        "days/**/*.toml merge=union\nreadings/*.csv merge=union\n"
    )
    texts[".gitignore"] = (
        "# The lock, the daily copies and half-written files are of this machine.\n"
        + (".crewboard.lock\n.crewboard/\n.crewboard-*.part\n")
    )
    texts[VEHICLE] = _vehicle_text(new)
    return texts


def _component(name: str) -> tuple[str, tuple[str, tuple[str, ...]]]:
    for usual in USUAL_COMPONENTS:
        if name in (usual.id, usual.name):
            return usual.id, (usual.name, usual.after)
    return id_from(name), (name, ())


def _vehicle_text(new: NewVehicle) -> str:
    given = {
        "format": str(FORMAT),
        "name": toml_value(new.name),
        "what": toml_value(new.what),
        "units": '"metric"',
        "currency": '""',
        "jurisdiction": toml_value(new.jurisdiction),
        "work_days.every": toml_value(list(new.work_days)),
        "work_days.opens": new.opens.isoformat(),
        "work_days.closes": new.closes.isoformat(),
        "work_days.also": "[]",
        "work_days.closed": "[]",
        "shop.emergency": toml_value(new.emergency),
        "shop.hospital": '""',
        "shop.address": '""',
        "shop.meeting_place": '""',
        "shop.first_aid": '""',
        "shop.places": toml_value(list(new.places)),
    }
    if new.conditions:
        limits = new.conditions._asdict()
        said = {name: limit for name, limit in limits.items() if limit is not None}
        given["shop.conditions"] = toml_value(said)
    return (
        "# The vehicle, its shop and the days on which the crew meets. Change anything here by\n"
        "# hand; what stands behind a # is not said, and shows what could be.\n"
        f"{_lines(VEHICLE_KEYS, given)}"
    )


def _crew_text(people: Sequence[str], *, adults: bool) -> str:
    """The crew's file; a name that is said twice is one person."""
    names: dict[str, str] = {}
    for name in filter(str.strip, people):
        names.setdefault(" ".join(name.split()).casefold(), name)
    taken: list[str] = []
    text = (
        "# The crew. In the brackets stands a short name, by which the logbook knows the person.\n"
        f"# All that can be said of one:\n#\n{_lines(CREW_KEYS)}"
    )
    for name in names.values():
        who = id_from(name.split()[0], taken)
        taken.append(who)
        text += f"\n[people.{toml_key(who)}]\nname = {toml_value(name)}\n"
        text += "lead = true\n" if len(taken) == 1 else ""
        text += (
            "adult = true\n" if adults else "# adult = true  # or false: nobody has said it yet\n"
        )
    return text


def _supplies_text() -> str:
    return (
        "# What the tasks need that has to be bought, milled or lent. One table each:\n"
        f"#\n{_lines(SUPPLY_KEYS)}"
    )


def _component_text(
    stem: str, name: str, after: Sequence[str], chosen: dict[str, tuple[str, tuple[str, ...]]]
) -> str:
    """The first component's file lists what can be said; the others point at it."""
    before = [name_before for name_before in after if name_before in chosen]
    given = {"name": toml_value(name)} | ({"after": toml_value(before)} if before else {})
    head = (
        f"# One main component: its parts and tasks. The file's name, {stem}, is its short name.\n"
    )
    first = next(iter(chosen))
    if stem == first:
        return head + _lines(COMPONENT_KEYS, given)
    own = tuple(key for key in COMPONENT_KEYS if key.key in given)
    return f"{head}# {component_path(first)} lists all that can be said.\n{_lines(own, given)}"


def _lines(keys: Sequence[PlanKey], given: Mapping[str, str] | None = None) -> str:
    """A line a key with what it says: those given as they are, the others behind a #.

    What stands in the { } of a key follows that key, further in.
    """
    given = given or {}
    listed = {key.key for key in keys}
    lines, table = list[str](), ""

    def write(key: PlanKey, indent: str) -> None:
        mark = "" if key.key in given else f"# {indent}"
        name = key.key.rpartition(".")[2]
        lines.append(f"{mark}{name} = {given.get(key.key, key.value)}  # {key.says}")
        for inner in keys:
            if _around(inner) == key.key:
                write(inner, f"{indent}    ")

    for key in keys:
        outer = key.key.rpartition(".")[0]
        if _around(key) in listed:
            continue
        if outer != table:
            table = outer
            shown = any(other.startswith(f"{outer}.") for other in given)
            lines += ["" if shown else "#"] * bool(lines) + [f"{'' if shown else '# '}[{outer}]"]
        write(key, "")
    return "\n".join(lines) + "\n"


def _around(key: PlanKey) -> str:
    """The key in whose { } it may stand."""
    return key.key.rpartition(".")[0].removesuffix(".NAME")
