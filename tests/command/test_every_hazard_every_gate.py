"""Every hazard sheet against every gate, from the command line: begin is refused, by that gate.

For each sheet a day on which all is as it should be; then, one thing after the other, a situation
in which only that gate stands against the work, taken back again. Which gates apply, the sheet's
own data say. Nobody can work alone with others there: that sheet has a day of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from itertools import chain
from pathlib import Path

import pytest

from crewboard.folder.read.hazard_sheets import read_sheets
from crewboard.logbook.acts import Act, Begun, CheckSigned, ClosedDay, Finished, SignIn
from crewboard.order.may.apart import follows, keep_apart
from crewboard.order.safety.checks import checks_of, checks_of_the_day
from crewboard.plan.hazard import Hazard
from crewboard.workbench import Said, Workbench
from tests.command.calling import Shell
from tests.command.trailer import VEHICLE
from tests.long_form import LONG

EVERY = {h.id: h for h in read_sheets(None).hazards.values() if h.concerns in ("task", "minors")}
# What no crew uses has one gate, whatever else the sheet says: `test_not_used.py`.
SHEETS = {name: sheet for name, sheet in EVERY.items() if not sheet.do_not_use}
ADULTS = ("ada", "ben", "cleo", "dov", "gil", "hal", "ira")
PAPERLESS = ("fay", "max", "una")
OTHERS = ("dov", "gil", "hal", "ira")
TASKS = dict.fromkeys(("it", "near", "airing", "closing", "plain"), "bay") | {"carry": "yard"}
WHY = "only to try the gates, nothing was done"
# Of these the sentence names the sheet itself.
NAMES_THE_SHEET = {
    "unsigned", "certificate", "under-18", "people", "watch", "near", "together", "too-late",
    "ends-late",
}  # fmt: skip
# What stands beside: a danger near that closes its place does that too.
BESIDE: dict[str, set[str] | None] = {
    "near": {"place-closed"}, "clock": {"entry"}, "no-closing": None, "adult": {"people"},
    "certificate": {"people"}, "people": {"watch"}, "under-18": {"together"},
    "place-closed": {"place-taken"},
}  # fmt: skip
# The short form goes through every third sheet; by the rules alone `test_every_rule.py` tries all.
TRIED = [*SHEETS.values()] if LONG else [*SHEETS.values()][::3]


def at(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 5, 2, hour, minute)


class Workshop:
    """A folder with one task for the sheet, "it", and a few around it."""

    def __init__(self, root: Path, hazard: Hazard, call: Shell) -> None:
        self.root, self.hazard, self.call = root, hazard, call
        self.hazards = {"it": [hazard.id], "carry": ["manual-handling"]}
        self.title, self.hours = "Task of the day", 0.25
        (root / "components").mkdir()
        (root / "vehicle.toml").write_text(VEHICLE)
        needs = (n.kind for h in SHEETS.values() for n in h.certificates)
        signs = (c.signs for h in SHEETS.values() for c in h.checks)
        kinds = {"first aid", *chain(needs, signs)} - {"anyone", "lead"}
        papers = ", ".join(f'"{kind}" = 2027-12-31' for kind in sorted(kinds))
        crew = [f'[people.{who}]\nname = "{who.title()}"\nadult = true\n' for who in ADULTS]
        crew = [f"{about}certificates = {{ {papers} }}\n" for about in crew]
        crew[0] += "lead = true\n"
        crew[6] += "lead = true\n"
        held = f"certificates = {{ {papers} }}\n"
        crew += [f'[people.kit]\nname = "Kit"\nadult = false\n{held}']
        crew += [f'[people.eli]\nname = "Eli"\n{held}']
        crew += [f'[people.old]\nname = "Old"\nadult = true\n{held}']
        crew += [f'[people.{who}]\nname = "{who.title()}"\nadult = true\n' for who in PAPERLESS]
        (root / "crew.toml").write_text("\n".join(crew))
        self.write()
        self.bench = Workbench(root)
        assert self.bench.faults == []
        self.keep(at(9), *map(SignIn, (*ADULTS, "kit", "eli", *PAPERLESS)))
        for asked in checks_of_the_day(self.bench.board(at(9)), "before"):
            named = ("ada",) if asked.check.names else ()
            self.keep(at(9), CheckSigned(asked.hazard.id, asked.check.id, "ada", named=named))
        self.prepare("it", *self.crew, *self.watch, "kit", "eli", *PAPERLESS, "old")

    def write(self) -> None:
        for name, place in TASKS.items():
            title = self.title if name == "it" else f"The other {name}"
            hazards = ", ".join(f'"{hazard}"' for hazard in self.hazards.get(name, ()))
            hours = f"hours = [{self.hours}, {self.hours}, {self.hours}]"
            text = f'name = "{name}"\n[tasks.do]\ntitle = "{title}"\nplace = "{place}"\n{hours}\n'
            text += f"hazards = [{hazards}]\n" if hazards else ""
            (self.root / "components" / f"{name}.toml").write_text(text)

    @property
    def young(self) -> bool:
        return self.hazard.concerns == "minors"

    @property
    def crew(self) -> tuple[str, ...]:
        """As many as the sheet asks for with its watch, of age and with papers."""
        grown = ADULTS[: max(2, self.hazard.people - len(self.watch))]
        return (*grown, "kit") if self.young else grown

    @property
    def watch(self) -> tuple[str, ...]:
        return ("cleo",) if self.hazard.watch else ()

    def keep(self, moment: datetime, *acts: Act) -> list[str]:
        outcome = self.bench.record([Said(a, moment) for a in acts], by="ada", now=moment)
        assert outcome.kept, outcome.refused
        return [entry.id for entry in outcome.entries]

    def prepare(self, task: str, *people: str, moment: datetime | None = None) -> None:
        """Every check before the work, signed for each of them."""
        self.bench.refresh()
        moment = moment or at(9, 30)
        for asked in checks_of(self.bench.board(moment), f"{task}/do", people, "before"):
            if asked.open:
                signer = "ira" if asked.who == "ada" else "ada"
                named = ("ada",) if asked.check.names else ()
                line = CheckSigned(
                    asked.hazard.id, asked.check.id, signer, f"{task}/do",
                    concerns=asked.who, named=named,
                )  # fmt: skip
                self.keep(moment, line)

    def other(self, task: str, *acts: Act, moment: datetime | None = None) -> list[str]:
        """Work of the others, begun as it should be."""
        self.prepare(task, *OTHERS[:3])
        sheet = SHEETS.get(self.hazards.get(task, ("",))[0])
        watch = OTHERS[3:] if sheet and sheet.watch else ()
        begun = Begun(f"{task}/do", OTHERS[:3], watch=watch)
        return [*self.keep(moment or at(9, 50), begun), *self.keep(at(9, 55), *acts)]

    def take_back(self, ids: list[str]) -> None:
        self.bench.refresh()
        for line in reversed(ids):
            assert self.bench.take_back(line, by="ada", now=at(9, 59), why=WHY).kept

    def refused(
        self, crew: tuple[str, ...], watch: tuple[str, ...] = (), adult: str = "", when: str = ""
    ) -> dict[str, str]:
        """What begin is refused for: code and sentence."""
        typed: list[object] = ["begin", self.root, "it/do", "--who", *crew]
        typed += ["--watch", *watch] if watch else []
        typed += ["--adult", adult or "ada"] if adult or (self.young and adult == "") else []
        ended = self.call(*typed, "--by", "ada", "--at", when or "2026-05-02T10:00", "--json")
        if ended.code == 0:  # let in: the table says so, and the next one is tried
            self.take_back([entry["id"] for entry in ended.form["entries"]])
            return {}
        return {refusal["code"]: refusal["says"] for refusal in ended.form["refused"]}


def tried(shop: Workshop) -> Iterator[tuple[str, dict[str, str]]]:
    """Each gate that applies to the sheet, with what begin was refused for."""
    hazard, crew, watch = shop.hazard, shop.crew, shop.watch
    yield "unsigned", shop.refused(crew, watch, when="2026-05-02T09:20")
    yield "away", shop.refused((*crew, "old"), watch)
    if not shop.young:  # harmless work with an under-18 asks the age of nobody else
        yield "age", shop.refused((*crew, "eli"), watch)
    if hazard.certificates:
        yield "certificate", shop.refused(PAPERLESS[:2], PAPERLESS[2:] if watch else ())
    yield from _people(shop)
    if any(clock.guards == "closing" for clock in hazard.clocks):
        yield "too-late", shop.refused(crew, watch, when="2026-05-02T15:59")
        yield "no-closing", shop.refused(crew, watch, when="2026-05-03T10:00")
        shop.hours = 30
        shop.write()
        yield "ends-late", shop.refused(crew, watch)
        shop.hours = 0.25
        shop.write()
    yield from _others(shop)
    yield from _of_the_day(shop)


def _people(shop: Workshop) -> Iterator[tuple[str, dict[str, str]]]:
    hazard, crew, watch = shop.hazard, shop.crew, shop.watch
    if hazard.people > 1 and not shop.young:
        yield "people", shop.refused(crew[: hazard.people - 1])
    if watch:
        yield "watch", shop.refused((*crew, *watch))
    if shop.young:
        yield "adult", shop.refused(("ben", "kit"), adult="kit")
    elif not hazard.under_18:
        yield "under-18", shop.refused((*crew, "kit"), watch, adult="ada")
    else:
        yield "adult", shop.refused((*crew, "kit"), watch)


def _others(shop: Workshop) -> Iterator[tuple[str, dict[str, str]]]:
    """What goes on elsewhere: near it, in its place, its clock, with its people."""
    hazard, crew, watch = shop.hazard, shop.crew, shop.watch
    for other in [h for h in SHEETS.values() if keep_apart(hazard, h, True)][:1]:
        if other.concerns == "minors":
            continue
        shop.hazards["near"] = [other.id]
        shop.write()
        lines = shop.other("near")
        yield "near", shop.refused(crew, watch)
        shop.take_back(lines)
    for other in [h for h in SHEETS.values() if h.clocks and follows([hazard], h, True)][:1]:
        shop.hazards["airing"] = [other.id]
        shop.write()
        starts = other.clocks[0].starts
        signed = CheckSigned(other.id, starts, "ada", "airing/do")
        lines = shop.other("airing", signed if starts else Finished("airing/do"))
        yield "clock", shop.refused(crew, watch)
        shop.take_back(lines)
    for other in SHEETS.values():
        if other.closes_place and not keep_apart(hazard, other, True) and other.id != hazard.id:
            shop.hazards["closing"] = [other.id]
            shop.write()
            lines = shop.other("closing")
            yield "place-closed", shop.refused(crew, watch)
            shop.take_back(lines)
            break
    if hazard.closes_place:
        lines = shop.other("plain")
        yield "place-taken", shop.refused(crew, watch)
        shop.take_back(lines)
    shop.prepare("carry", "ada", "ben")
    lines = shop.keep(at(9, 50), Begun("carry/do", ("ada", "ben")))
    yield "busy", shop.refused(crew, watch)
    shop.take_back(lines)


def _of_the_day(shop: Workshop) -> Iterator[tuple[str, dict[str, str]]]:
    hazard, crew, watch = shop.hazard, shop.crew, shop.watch
    lines = shop.keep(at(9, 50), Finished("plain/do", crew=("dov",), began=at(9, 40)))
    yield "finished-without", shop.refused(crew, watch)
    shop.take_back(lines)
    for other in [h for h in SHEETS.values() if keep_apart(hazard, h, True)][:1]:
        if other.concerns != "minors" and not shop.young:
            shop.hazards["it"] = [hazard.id, other.id]
            shop.write()
            shop.prepare("it", *ADULTS)
            yield "together", shop.refused(ADULTS[:2], ADULTS[2:])
            shop.hazards["it"] = [hazard.id]
            shop.write()
    words = [word for word in hazard.words if word.isalpha()]
    if words:
        shop.hazards["it"], shop.title = [], f"{words[0]} it"
        shop.write()
        yield "unnamed", shop.refused(ADULTS[:2], adult="-" if shop.young else "")
        shop.hazards["it"], shop.title = [hazard.id], "Task of the day"
        shop.write()
    lines = shop.keep(at(9, 45), ClosedDay(despite=WHY))
    yield "day-closed", shop.refused(crew, watch)
    shop.take_back(lines)
    day = shop.bench.logbook.days[at(9).date()]
    shop.take_back([e.id for e in day.counting if getattr(e.act, "check", "") == "ways-out"])
    yield "unopened", shop.refused(crew, watch)


@pytest.mark.parametrize("hazard", TRIED, ids=lambda hazard: hazard.id)
def test_each_gate_that_applies_refuses_by_itself_and_says_why(
    hazard: Hazard, tmp_path: Path, call: Shell
) -> None:
    shop = Workshop(tmp_path, hazard, call)
    wrong = []
    for gate, refused in tried(shop):
        beside = BESIDE.get(gate, set())
        alone = beside is None or set(refused) <= {gate, *beside}
        names = gate not in NAMES_THE_SHEET or hazard.short in refused.get(gate, "")
        if not refused.get(gate) or not alone or not names:
            wrong.append((gate, sorted(refused), refused.get(gate, "")))
    assert wrong == [], "\n".join(map(str, wrong))
