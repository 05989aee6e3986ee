"""Which files a vehicle's folder is made of."""

from __future__ import annotations

from datetime import date
from typing import Literal

VEHICLE = "vehicle.toml"
CREW = "crew.toml"
SUPPLIES = "supplies.toml"
HAZARDS = "hazards.toml"
COMPONENTS = "components/"
DAYS = "days/"

Role = Literal["vehicle", "crew", "supplies", "hazards", "component", "day", "stray", "other"]


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
    return "other"


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
