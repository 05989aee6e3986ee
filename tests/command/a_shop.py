"""A small shop whose work is told by commands: begun, finished, looked at, on a day."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.command.calling import Ended, Shell

VEHICLE = """\
name = "The Plank Wagon"
timezone = "Europe/Prague"
[work_days]
every = ["saturday"]
opens = 09:00:00
closes = 16:30:00
"""
CREW = """\
[people.ada]
name = "Ada"
lead = true
adult = true
[people.tom]
name = "Tom"
adult = true
[people.ines]
name = "Ines"
adult = true
"""
ONLY_ADA = """\
[people.ada]
name = "Ada"
lead = true
adult = true
"""


def lay_down(
    folder: Path, components: dict[str, str], *, vehicle: str = VEHICLE, crew: str = CREW
) -> Path:
    """The folder with these components by the names of their files."""
    (folder / "components").mkdir(parents=True, exist_ok=True)
    (folder / "vehicle.toml").write_text(vehicle)
    (folder / "crew.toml").write_text(crew)
    for name, text in components.items():
        (folder / f"components/{name}.toml").write_text(text)
    return folder


class AShop:
    """The folder of a shop, and its work on a day. Ada leads."""

    def __init__(self, call: Shell, folder: Path, day: str = "2026-05-02") -> None:
        self.call, self.folder, self.day = call, folder, day

    def write(self, component: str, *, vehicle: str = VEHICLE, file: str = "frame") -> None:
        lay_down(self.folder, {file: component}, vehicle=vehicle)

    def at(self, clock: str) -> tuple[str, str]:
        return "--at", f"{self.day}T{clock}"

    def say(self, name: str, *typed: str, at: str, by: str = "ada") -> Ended:
        return self.call(name, self.folder, *typed, *self.at(at), "--by", by)

    def kept(self, name: str, *typed: str, at: str) -> Ended:
        """Said, and kept."""
        ended = self.say(name, *typed, at=at)
        assert ended.code == 0, ended.err
        return ended

    def do(self, task: str, begun: str, finished: str, who: str = "ada") -> Ended:
        """Begun and finished."""
        self.kept("begin", task, "--who", who, at=begun)
        return self.kept("finish", task, at=finished)

    def told(self, name: str, *typed: str, at: str) -> str:
        """What a command tells, on one line."""
        return " ".join(self.call(name, self.folder, *typed, *self.at(at)).out.split())

    def board(self, at: str) -> dict[str, Any]:
        return self.call("day", self.folder, *self.at(at), "--json").form

    def state(self, task: str, at: str) -> str:
        return str(next(t["state"] for t in self.board(at)["tasks"] if t["id"] == f"frame/{task}"))

    def not_today(self, task: str, at: str) -> str:
        """Why the ranking has it below what may be done; empty where it may be."""
        first = self.board(at)["first"]
        return str(next(f["not_today"] for f in first if f["task"] == f"frame/{task}"))
