"""A small invented shop in files, every one of which a test may write anew."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from pathlib import Path

from crewboard.logbook.acts import Act, CheckSigned, SignIn
from crewboard.order.safety.checks import checks_of, checks_of_the_day
from crewboard.workbench import Outcome, Said, Workbench
from tests.safety_machine.books import papers_asked_for

PEOPLE = ("ada", "ben", "cleo", "dov", "kit", "eli")
VEHICLE = """\
format = 1
name = "The parcel van"
[work_days]
every = ["saturday", "sunday"]
opens = 09:00:00
closes = {closes}
[shop]
emergency = "the emergency number"
"""
CREW = {
    "ada": 'name = "Ada Marsh"\nadult = true\nlead = true\ncertificates = {papers}\n',
    "ben": 'name = "Ben Holt"\nadult = true\ncertificates = {papers}\n',
    "cleo": 'name = "Cleo Rand"\nadult = true\n',
    "dov": 'name = "Dov Quill"\nadult = true\nlead = true\n',
    "kit": 'name = "Kit Amber"\nadult = false\n',
    "eli": 'name = "Eli Stone"\n',
}
# Task: its hazards, its place. Each in a component of its own, so that none waits for another.
TASKS = {
    "weld": (["hot-work"], "bay"),
    "grind": (["hot-work"], "yard"),
    "strip": (["solvent-strippers"], "bay"),
    "scrape": (["asbestos"], "yard"),
    "plane": (["woodworking-machines"], "shed"),
    "carry": (["manual-handling"], "yard"),
    "draw": ([], "bay"),
}


class Shop:
    """The folder, and what stands in its plan: written by hand, as an editor outside would."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.tasks = {name: (list(hazards), place) for name, (hazards, place) in TASKS.items()}
        self.hours: dict[str, float] = {}
        self.people = dict(CREW)
        self.hazards = ""
        self.closes = "16:00:00"
        (root / "components").mkdir()
        self.write()

    def write(self) -> None:
        papers = ", ".join(f'"{kind}" = 2027-12-31' for kind in papers_asked_for())
        (self.root / "vehicle.toml").write_text(VEHICLE.format(closes=self.closes))
        crew = (f"[people.{who}]\n{about}" for who, about in self.people.items())
        text = "\n".join(crew).replace("{papers}", f"{{ {papers} }}")
        (self.root / "crew.toml").write_text(text)
        (self.root / "hazards.toml").write_text(self.hazards or "# as the sheets say\n")
        for name in TASKS:
            path = self.root / "components" / f"{name}.toml"
            if name not in self.tasks:
                path.write_text(f'name = "{name}"\n')
                continue
            hazards, place = self.tasks[name]
            lines = [f'name = "{name}"', "[tasks.do]", f'title = "Task {name}"']
            lines += [f"hazards = {hazards!r}".replace("'", '"')] if hazards else []
            lines += [f'place = "{place}"'] if place else []
            hours = self.hours.get(name)
            lines += [f"hours = [{hours}, {hours}, {hours}]"] if hours else []
            path.write_text("\n".join(lines) + "\n")


def keep(bench: Workbench, moment: datetime, *acts: Act, by: str = "ada", **more: str) -> Outcome:
    """The acts, all of them or none; `despite` is the reason for all."""
    said = [Said(act, moment, despite=more.get("despite", "")) for act in acts]
    return bench.record(said, by=by, now=moment)


def open_shop(bench: Workbench, moment: datetime, *who: str) -> None:
    """Everybody comes, and the shop is opened as its sheet asks."""
    for person in who:
        keep(bench, moment, SignIn(person))
    for line in opening_lines(bench, moment):
        keep(bench, moment, line)


def opening_lines(bench: Workbench, moment: datetime) -> list[CheckSigned]:
    """What is still to sign before the shop is open, by Ada, who is the first-aider too."""
    bench.refresh()
    asked = [asking for asking in checks_of_the_day(bench.board(moment), "before") if asking.open]
    return [
        CheckSigned(a.hazard.id, a.check.id, "ada", named=("ada",) if a.check.names else ())
        for a in asked
    ]


def signatures_for(
    bench: Workbench, moment: datetime, task: str, people: Iterable[str], when: str = "before"
) -> list[CheckSigned]:
    """What has to be signed for these people on the task, by Ada, or by Ben where it is for her."""
    lines = []
    bench.refresh()
    for asked in checks_of(bench.board(moment), task, tuple(people), when):  # type: ignore[arg-type]
        if asked.open:
            signer = (
                ("dov" if asked.check.signs == "lead" else "ben") if asked.who == "ada" else "ada"
            )
            named = ("ada",) if asked.check.names else ()
            lines.append(
                CheckSigned(
                    asked.hazard.id, asked.check.id, signer, task, concerns=asked.who, named=named
                )
            )
    return lines


def prepare(bench: Workbench, moment: datetime, task: str, *people: str, but: str = "") -> None:
    """Everything signed for these people on the task, `but` one check."""
    for line in signatures_for(bench, moment, task, people):
        if line.check != but:
            keep(bench, moment, line)
