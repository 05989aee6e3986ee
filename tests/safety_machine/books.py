"""The folder read once more, by itself: plain TOML, none of the program's code."""

from __future__ import annotations

import tomllib
from datetime import date, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

SHEETS = Path(__file__).parent.parent.parent / "crewboard" / "hazards"
Line = dict[str, Any]


def toml(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


class Sheet:
    """A hazard sheet as it stands in its file."""

    def __init__(self, name: str, raw: dict[str, Any]) -> None:
        self.id = name
        self.checks: dict[str, dict[str, Any]] = dict(raw.get("checks", {}))
        self.numbers: dict[str, dict[str, Any]] = dict(raw.get("numbers", {}))
        self.people = self._number(raw.get("least_people", ""))
        self.not_near = set(raw.get("not_near", ()))
        self.not_after = set(raw.get("not_after", ()))
        self.near_is_place = raw.get("near") == "place"
        self.closes_place = bool(raw.get("closes_place"))
        self.under_18 = raw.get("under_18", True)
        self.training = raw.get("training", False)
        self.concerns = raw.get("concerns", "task")
        self.do_not_use = bool(raw.get("do_not_use"))
        self.watch = raw.get("watch", "")
        self.papers = {
            kind: need.get("who", "each") for kind, need in raw.get("certificates", {}).items()
        }
        self.words = set(raw.get("words", ()))
        self.clocks: dict[str, dict[str, Any]] = dict(raw.get("clocks", {}))

    def _number(self, name: str) -> int:
        number = self.numbers.get(name)
        return int(number["value"]) if number and number["mark"] != "from memory" else 1

    def change(self, raw: dict[str, Any]) -> None:
        """What the crew's own hazards.toml says of it, of the few things that the tests write."""
        self.numbers |= raw.get("numbers", {})
        self.do_not_use |= bool(raw.get("do_not_use"))
        if "least_people" in raw:
            self.people = self._number(raw["least_people"])
        self.checks |= raw.get("checks", {})
        self.closes_place = raw.get("closes_place", self.closes_place)
        self.not_near |= set(raw.get("not_near", ()))
        for name in raw.get("leave_out", ()):
            self.checks.pop(name, None)
            self.clocks.pop(name, None)

    def lasts(self, clock: dict[str, Any]) -> timedelta:
        """The longest of a clock's numbers that is not from memory."""
        spans = [timedelta(0)]
        for name in clock["numbers"]:
            number = self.numbers[name]
            if number["mark"] != "from memory":
                unit = {"min": "minutes", "hour": "hours", "day": "days"}
                key = next(long for short, long in unit.items() if number["unit"].startswith(short))
                spans.append(timedelta(**{key: float(number["value"])}))
        return max(spans)


class Plan(NamedTuple):
    """The plan as it stood when something was begun."""

    tasks: dict[str, dict[str, Any]]
    crew: dict[str, dict[str, Any]]
    sheets: dict[str, Sheet]
    closes: str


@cache
def papers_asked_for() -> tuple[str, ...]:
    """Every certificate that a sheet asks for, of those who work or of those who sign."""
    sheets = _built_in().values()
    kinds = {kind for raw in sheets for kind in raw.get("certificates", ())}
    for raw in sheets:
        for check in raw.get("checks", {}).values():
            kinds |= {check.get("signs", "anyone"), check.get("names", "anyone")}
    return tuple(sorted(kinds - {"anyone", "lead", "adult"}))


@cache
def _built_in() -> dict[str, dict[str, Any]]:
    return {path.stem: toml(path) for path in sorted(SHEETS.glob("*.toml"))}


def read_plan(root: Path) -> Plan:
    sheets = {name: Sheet(name, raw) for name, raw in _built_in().items()}
    own = toml(root / "hazards.toml")
    for name, raw in own.items():
        if name in sheets:
            sheets[name].change(raw)
    tasks = {
        f"{path.stem}/{name}": task
        for path in sorted((root / "components").glob("*.toml"))
        for name, task in toml(path).get("tasks", {}).items()
    }
    vehicle = toml(root / "vehicle.toml")
    closes = str(vehicle["work_days"]["closes"])
    return Plan(tasks, toml(root / "crew.toml").get("people", {}), sheets, closes)


def read_log(root: Path) -> list[Line]:
    """Every line of every day, in order, with its id, its day and its place in the file."""
    lines: list[Line] = []
    for path in sorted((root / "days").rglob("*.toml")):
        raw = toml(path)
        for name, line in raw.get("entries", {}).items():
            lines.append({**line, "id": name, "row": len(lines)})
    return lines


def counting(lines: list[Line]) -> list[Line]:
    """The lines that count, by time: neither taken back nor corrected; of several corrections the
    one written last."""
    known = {line["id"]: line for line in lines}
    gone = {line["entry"] for line in lines if line["kind"] == "taken back"}

    def first(line: Line) -> Line:
        while line.get("replaces") in known:
            line = known[line["replaces"]]
        return line

    wordings: dict[str, list[Line]] = {}
    for line in lines:
        if line["id"] not in gone and line["kind"] != "taken back":
            wordings.setdefault(first(line)["id"], []).append(line)

    def written(line: Line) -> tuple[bool, datetime, int]:
        put_down: datetime = line["written"] if "written" in line else line["at"]
        return "replaces" in line, put_down, int(line["row"])

    last = [max(group, key=written) for group in wordings.values()]
    return sorted(
        ({**line, "order": first(line)["row"]} for line in last),
        key=lambda line: (line["at"], line["order"]),
    )


def is_of_age(about: dict[str, Any] | None, day: date) -> bool:
    """Known to be of age, and of the crew."""
    if about is None or about.get("adult") is not True:
        return False
    return bool(about.get("left", day) >= day)
