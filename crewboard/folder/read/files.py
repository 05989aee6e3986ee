"""What a vehicle's folder is made of: which files, and the short names of what stands in them."""

from __future__ import annotations

import re
from collections.abc import Container, Mapping
from datetime import date
from typing import Literal

from crewboard.folder.read.fault import KeyPath
from crewboard.plan.component import Component

VEHICLE = "vehicle.toml"
CREW = "crew.toml"
SUPPLIES = "supplies.toml"
HAZARDS = "hazards.toml"
COMPONENTS = "components/"
DAYS = "days/"
READINGS = "readings/"
ONE_OF_A_KIND = (VEHICLE, CREW, SUPPLIES, HAZARDS)

_ID = re.compile(r"\w[\w-]*")
HINT = "use letters, digits and hyphens, such as body-frame"

Role = Literal[
    "vehicle", "crew", "supplies", "hazards", "component", "day", "stray", "readings", "other"
]


def role_of(path: str) -> Role:
    """What a TOML file of the folder is for, by its path relative to the folder, with `/`.

    "stray" is a file among the days that is not named for its day; "other" is none of ours.
    """
    single: dict[str, Role] = {
        VEHICLE: "vehicle",
        CREW: "crew",
        SUPPLIES: "supplies",
        HAZARDS: "hazards",
    }
    if path in single:
        return single[path]
    if path.startswith(COMPONENTS) and path.count("/") == 1 and stem_of(path):
        return "component"
    if path.startswith(DAYS):
        return "day" if day_of(path) is not None else "stray"
    return "readings" if month_of(path) else "other"


def month_of(path: str) -> str:
    """The month ("2026-05") whose rows of a data logger a file holds; empty for another file."""
    month = path.removeprefix(READINGS).removesuffix(".csv")
    year, dash, number = month.partition("-")
    fits = path == month_path(month) and len(month) == 7 and dash and year.isdigit()
    return month if fits and number.isdigit() and 1 <= int(number) <= 12 else ""


def month_path(month: str) -> str:
    """The path of a month's rows, relative to the folder."""
    return f"{READINGS}{month}.csv"


def day_of(path: str) -> date | None:
    """The day a day's file is named for; None where the name is not exactly that of a day."""
    try:
        day = date.fromisoformat(path[-15:-5])
    except ValueError:
        return None
    return day if path == day_path(day) else None


def stem_of(path: str) -> str:
    """ "deck" for "components/deck.toml"."""
    return path.rpartition("/")[2].removesuffix(".toml")


def day_path(day: date) -> str:
    """The path of a day's file, relative to the folder."""
    return f"{DAYS}{day.year:04}/{day.isoformat()}.toml"


def component_path(stem: str) -> str:
    """The path of a main component's file, relative to the folder."""
    return f"{COMPONENTS}{stem}.toml"


def file_of(some_id: str) -> str:
    """The file in which a component, part or task stands."""
    return f"components/{some_id.partition('/')[0]}.toml"


def key_path(some_id: str, components: Mapping[str, Component]) -> KeyPath:
    """Where in its file a component, part or task stands."""
    _, _, name = some_id.partition("/")
    if not name:
        return ()
    return ("parts", name) if some_id in components else ("tasks", name)


def is_id(text: str) -> bool:
    """Letters, digits, hyphens and underscores, beginning with a letter or digit."""
    return _ID.fullmatch(text) is not None


def id_from(name: str, taken: Container[str] = (), most: int = 32) -> str:
    """A short name made from a longer one: "Lay the boards [M8]" gives "lay-the-boards-m8"."""
    words = re.findall(r"\w+", name.lower()) or ["new"]
    short = words[0][:most]
    for word in words[1:]:
        if len(short) + 1 + len(word) > most:
            break
        short += f"-{word}"
    short = short.lstrip("_") or "new"
    number, free = 2, short
    while free in taken:
        free, number = f"{short}-{number}", number + 1
    return free
