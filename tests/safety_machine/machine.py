"""Days of every kind: every command that writes, corrections, take-backs, undo, edits of the plan
and of hazards.toml, odd moments, two writers. After each the second reading looks over it.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from datetime import datetime, time, timedelta
from pathlib import Path
from typing import Any

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule

from crewboard.folder.edit.plan_edits import Change, Remove
from crewboard.logbook.acts import Act, Begun, ClosedDay, Finished, Reopened, SignIn, SignOut
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.plan.duration import Duration
from crewboard.workbench import Outcome, Said, Workbench
from tests.safety_machine.books import counting, read_log
from tests.safety_machine.played import Played
from tests.safety_machine.small_shop import PEOPLE, TASKS, open_shop, opening_lines, signatures_for

MORNING = datetime(2026, 5, 2, 9, 0)  # a Saturday
REASON = "the lead has looked at it and stays there"
people = st.sampled_from(PEOPLE)
crews = st.sampled_from(
    [
        *[("ada", "ben"), ("cleo", "dov"), ("ada",), ("ben",), ("cleo",), ("dov",)] * 2,
        ("ada", "ben", "kit"), ("kit",), ("ada", "eli"), ("ada", "kit"), (), ("ben", "dov"),
    ]
)  # fmt: skip
watchers = st.sampled_from([(), ("ben",), ("ben",), ("dov",), ("ada",), ("kit",), ("eli",)])
adults = st.sampled_from(["", "", "", "ada", "dov", "kit", "eli"])
dangerous = st.sampled_from([f"{name}/do" for name in TASKS])
writers = st.sampled_from(["ada", "ada", "ben", "cleo", "dov", "kit", ""])
despites = st.sampled_from(["", "", "", REASON])
benches = st.integers(0, 1)
odd = st.sampled_from([0, 0, 0, 0, 0, 0, 0, -1, -20, -90, 25, -24 * 60])
# A party of each task that could do it, so that much is let in.
GOOD: dict[str, tuple[tuple[str, ...], tuple[str, ...], str]] = {
    "weld/do": (("ada",), ("ben",), ""),
    "grind/do": (("ben",), ("dov",), ""),
    "strip/do": (("cleo", "dov"), (), ""),
    "scrape/do": (("ada", "ben"), (), ""),
    "plane/do": (("ada", "ben"), (), ""),
    "carry/do": (("cleo", "dov", "kit"), (), "dov"),
    "draw/do": (("ada",), (), ""),
}
SHEETS = (
    "",
    '[hot-work]\nleast_people = "three"\n[hot-work.numbers.three]\nvalue = 3\nunit = "people"\n'
    'says = "so many"\nsource = "rule of the crew"\nwhere = "anywhere"\nedition = "ours"\n'
    'read = 2026-01-31\nmark = "crew\'s rule"\n',
    '[manual-handling.checks.gloves]\nwhen = "before"\ntext = "Gloves are on."\n'
    'every = "task a day"\n',
    '[asbestos]\ncloses_place = false\ndecided_by = "Ada Marsh"\nwhy = "it is all sealed in"\n',
    '[solvent-strippers]\nleave_out = ["wash"]\ndecided_by = "Ada Marsh"\nwhy = "a tap is there"\n',
    '[hot-work]\nleave_out = ["fire-watch"]\ndecided_by = "Ada Marsh"\nwhy = "steel only"\n',
    '[woodworking-machines]\nnot_near = ["manual-handling"]\n',
)


class Days(RuleBasedStateMachine):
    """What several people at two screens might write in a few days."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.played = Played(Path(self.folder.name))
        self.now = MORNING
        self.begun_today = False

    def teardown(self) -> None:
        self.folder.cleanup()

    # --- writing -------------------------------------------------------------------------------

    def write(self, bench: int, *said: Said, by: str = "ada") -> Outcome:
        outcome = self.played.benches[bench].record(said, by=by, now=self.now)
        return self.looked_over(outcome)

    def looked_over(self, outcome: Outcome) -> Outcome:
        """The second reading after every step; a minute passes."""
        self.begun_today |= any(isinstance(entry.act, Begun) for entry in outcome.entries)
        wrong = self.played.wrong(self.now)
        assert not wrong, "\n".join(f"{one.what} ({one.line})" for one in sorted(wrong))
        self.now += timedelta(minutes=1)
        return outcome

    def bench(self, number: int) -> Workbench:
        return self.played.benches[number]

    @initialize(who=st.sampled_from([PEOPLE, PEOPLE, PEOPLE[:4], PEOPLE[:1]]))
    def opened(self, who: tuple[str, ...]) -> None:
        open_shop(self.bench(0), self.now, *who)
        self.looked_over(Outcome())

    # --- what a crew does ----------------------------------------------------------------------

    @rule(task=dangerous, bench=benches)
    def prepared_and_begun(self, task: str, bench: int) -> None:
        """As it should be: whether it is let in, what goes on elsewhere decides."""
        crew, watch, adult = GOOD[task]
        self.begin(bench, Begun(task, crew, watch=watch, adult=adult))

    @rule(task=dangerous, other=dangerous, bench=benches)
    def begun_by_those_of_another_task(self, task: str, other: str, bench: int) -> None:
        crew, watch, adult = GOOD[other]
        self.begin(bench, Begun(task, crew, watch=watch, adult=adult))

    @rule(task=dangerous, bench=benches, without=st.integers(0, 12), by=writers, despite=despites)
    def begun_with_one_thing_missing(
        self, task: str, bench: int, without: int, by: str, despite: str
    ) -> None:
        """Somebody not signed in, the shop not opened, a check not signed."""
        crew, watch, adult = GOOD[task]
        self.begin(bench, Begun(task, crew, watch=watch, adult=adult), without, by, despite)

    @rule(task=dangerous, bench=benches, flaw=st.integers(0, 6), by=writers, despite=despites)
    def begun_by_the_wrong_people(
        self, task: str, bench: int, flaw: int, by: str, despite: str
    ) -> None:
        """All is signed, but one too few, one too young, of an age not said, nobody watching."""
        crew, watch, adult = GOOD[task]
        act = Begun(task, crew, watch=watch, adult=adult)
        flawed = (
            act._replace(crew=crew[:-1]),
            act._replace(crew=(*crew, "kit")),
            act._replace(crew=(*crew, "kit"), adult=crew[0]),
            act._replace(crew=(*crew[:-1], "eli")),
            act._replace(crew=(*crew, *watch), watch=()),
            act._replace(adult=""),
            act._replace(crew=("cleo", "dov")),
        )[flaw]
        self.begin(bench, flawed, 99, by, despite)

    def begin(
        self, bench: int, act: Begun, without: int = 99, by: str = "ada", despite: str = ""
    ) -> None:
        if act.task.partition("/")[0] in self.played.shop.tasks:
            for place, line in enumerate(self.preparations(bench, act)):
                if place != without:
                    said = Said(line, self.now)
                    self.bench(bench).record([said], by="ada", now=self.now)
        self.write(bench, Said(act, self.now, despite=despite), by=by)

    def preparations(self, bench: int, act: Begun) -> Iterator[Act]:
        """What has to be written before it: each as it is asked for once the others are there."""
        here = {visit.who for visit in self.bench(bench).board(self.now).present}
        yield from (SignIn(who) for who in act.people if who not in here)
        yield from opening_lines(self.bench(bench), self.now)
        if self.bench(bench).board(self.now)[act.task].work_done:
            yield Reopened(act.task, "once more")
        yield from signatures_for(self.bench(bench), self.now, act.task, act.people)

    @rule(task=dangerous, bench=benches, early=odd, despite=despites)
    def begun_at_an_odd_moment(self, task: str, bench: int, early: int, despite: str) -> None:
        crew, watch, adult = GOOD[task]
        act = Begun(task, crew, watch=watch, adult=adult)
        at = self.now + timedelta(minutes=early)
        self.write(bench, Said(act, at, despite=despite), by="ben")

    @rule(task=dangerous, bench=benches)
    def ended(self, task: str, bench: int) -> None:
        if task.partition("/")[0] not in self.played.shop.tasks:
            return
        for line in signatures_for(self.bench(bench), self.now, task, (), "after")[:1]:
            self.write(bench, Said(line, self.now))

    @rule(task=dangerous, bench=benches, early=odd, anyway=st.integers(0, 5))
    def finished(self, task: str, bench: int, early: int, anyway: int) -> None:
        """Mostly work that was begun; now and then some that nobody wrote to have begun."""
        standing = self.bench(bench).board(self.now).standings.get(task)
        if anyway and (standing is None or standing.begun is None):
            return
        began = self.now + timedelta(minutes=early - 10)
        act = Finished(task, crew=("ada",), began=began)
        self.write(bench, Said(act, self.now + timedelta(minutes=early)))

    @rule(who=people, bench=benches, goes=st.booleans(), by=writers, despite=despites)
    def came_or_left(self, who: str, bench: int, goes: bool, by: str, despite: str) -> None:
        act = SignOut(who) if goes else SignIn(who)
        self.write(bench, Said(act, self.now, despite=despite), by=by)

    @rule(
        bench=benches, by=writers, despite=despites, stays=st.sampled_from(["", "ben", "kit"]),
        leaving=st.booleans(),
    )  # fmt: skip
    def closed(self, bench: int, by: str, despite: str, stays: str, leaving: bool) -> None:
        act = ClosedDay(stays=stays, despite=despite)
        outcome = self.write(bench, Said(act, self.now, despite=despite), by=by)
        if outcome.kept and leaving:
            for who in PEOPLE:
                if who != stays:
                    self.write(bench, Said(SignOut(who), self.now))

    @rule(minutes=st.sampled_from([5, 20, 40, 61, 120, 300]))
    def waited(self, minutes: int) -> None:
        self.now += timedelta(minutes=minutes)

    @precondition(lambda self: self.begun_today)
    @rule(bench=benches)
    def until_midnight(self, bench: int) -> None:
        """And a quarter of an hour beyond, where clocks still run."""
        self.begun_today = False
        self.now = datetime.combine(self.now.date(), time(23, 50))
        self.now += timedelta(minutes=12)
        open_shop(self.bench(bench), self.now, "ada", "ben", "cleo", "dov")
        self.looked_over(Outcome())

    # --- anything that can be written -------------------------------------------------------------

    @rule(
        kind=st.sampled_from(sorted(KINDS_OF_ENTRY.values(), key=lambda kind: kind.word)),
        data=st.data(), bench=benches, early=odd, by=writers, despite=despites,
    )  # fmt: skip
    def anything(
        self, kind: KindOfEntry, data: st.DataObject, bench: int, early: int, by: str, despite: str
    ) -> None:
        act = drawn_act(kind, data, self.ids())
        at = self.now + timedelta(minutes=early)
        self.write(bench, Said(act, at, despite=despite), by=by)

    def ids(self) -> list[str]:
        return [line["id"] for line in read_log(self.played.shop.root)]

    # --- corrections, take-backs, undo ------------------------------------------------------------

    def a_line(self, pick: int, *kinds: str) -> str:
        lines = counting(read_log(self.played.shop.root))
        of_kind = [line["id"] for line in lines if line["kind"] in kinds or not kinds]
        return of_kind[pick % len(of_kind)] if of_kind else ""

    @rule(pick=st.integers(0, 999), bench=benches, by=writers, why=despites)
    def taken_back(self, pick: int, bench: int, by: str, why: str) -> None:
        line = self.a_line(pick)
        self.looked_over(self.bench(bench).take_back(line, by=by, now=self.now, why=why))

    @rule(
        pick=st.integers(0, 99), bench=benches, crew=crews, watch=watchers, adult=adults,
        task=st.none() | dangerous, early=odd, by=writers, despite=despites,
    )  # fmt: skip
    def begin_corrected(
        self, pick: int, bench: int, crew: tuple[str, ...], watch: tuple[str, ...], adult: str,
        task: str | None, early: int, by: str, despite: str,
    ) -> None:  # fmt: skip
        place = self.bench(bench).logbook.find(self.a_line(pick, "begun"))
        if place is None or not isinstance(place[1].act, Begun):
            return
        was = place[1]
        assert isinstance(was.act, Begun)
        act = was.act._replace(task=task or was.act.task, crew=crew, watch=watch, adult=adult)
        at = was.at + timedelta(minutes=early)
        outcome = self.bench(bench).correct(was.id, act, at, by=by, now=self.now, despite=despite)
        self.looked_over(outcome)

    @rule(pick=st.integers(0, 99), bench=benches, early=odd, by=writers, despite=despites)
    def moment_corrected(self, pick: int, bench: int, early: int, by: str, despite: str) -> None:
        place = self.bench(bench).logbook.find(self.a_line(pick))
        if place is not None:
            at = place[1].at + timedelta(minutes=early)
            outcome = self.bench(bench).correct(
                place[1].id, place[1].act, at, by=by, now=self.now, despite=despite
            )
            self.looked_over(outcome)

    @rule(bench=benches, by=st.sampled_from(PEOPLE), sitting=st.booleans())
    def undone(self, bench: int, by: str, sitting: bool) -> None:
        """The last of this sitting, or the last that somebody wrote anywhere."""
        if sitting:
            outcome = self.bench(bench).undo(by=by, now=self.now)
        else:
            outcome = self.bench(bench).undo_last_of(by, now=self.now)
        self.looked_over(outcome)

    # --- the plan ------------------------------------------------------------------------------

    @rule(
        name=st.sampled_from(sorted(TASKS)), bench=benches,
        edit=st.sampled_from(["as it was", "hazards", "place", "removed", "no hazards", "own"]),
        hazards=st.sampled_from([[], ["hot-work"], ["asbestos"], ["hot-work", "lead-paint"]]),
        place=st.sampled_from(["bay", "yard", ""]), text=st.sampled_from(SHEETS),
    )  # fmt: skip
    def plan_edited(
        self, name: str, bench: int, edit: str, hazards: list[str], place: str, text: str
    ) -> None:
        """By hand in the files, or by a screen."""
        shop, outcome = self.played.shop, Outcome()
        was = shop.tasks.get(name, TASKS[name])
        if edit == "removed":
            outcome = self.bench(bench).change(Remove("task", f"{name}/do"))
            if outcome.kept:
                shop.tasks.pop(name, None)
        elif edit == "no hazards":
            outcome = self.bench(bench).change(Change("task", f"{name}/do", {"hazards": None}))
            if outcome.kept and name in shop.tasks:
                shop.tasks[name] = ([], was[1])
        elif edit == "own":
            shop.hazards = text
        else:
            back = (list(TASKS[name][0]), TASKS[name][1])
            edits = {"as it was": back, "hazards": (hazards, was[1]), "place": (was[0], place)}
            shop.tasks[name] = edits[edit]
        if edit not in ("removed", "no hazards"):
            shop.write()
        self.looked_over(outcome)

    @rule(
        who=st.sampled_from(["ben", "cleo", "kit", "eli"]),
        age=st.sampled_from(["true", "false", ""]),
    )
    def age_edited(self, who: str, age: str) -> None:
        about = self.played.shop.people[who].splitlines()
        lines = [line for line in about if not line.startswith("adult")]
        lines += [f"adult = {age}"] if age else []
        self.played.shop.people[who] = "\n".join(lines) + "\n"
        self.played.shop.write()


def drawn_act(kind: KindOfEntry, data: st.DataObject, ids: list[str]) -> Act:
    """Any act of the kind, each of its fields with something of its sort."""
    values = {
        field.name: value
        for field in kind.fields
        if (field.needed or not field.kept) and (value := _drawn(field, data, ids)) is not None
    }
    act: Act = kind.act(**values)
    return act


def _drawn(field: EntryField, data: st.DataObject, ids: list[str]) -> Any:
    if not field.needed and data.draw(st.booleans()):
        return None
    choices: dict[str, Any] = {
        "person": people,
        "people": crews,
        "task": dangerous,
        "component": st.sampled_from(sorted(TASKS)),
        "hazard": st.sampled_from(["hot-work", "asbestos", "the-shop", "manual-handling"]),
        "check": st.sampled_from(["ended", "area", "ways-out", "watch-kept", "consent"]),
        "entry": st.sampled_from(ids or ["nothing"]),
        "hold": st.sampled_from(ids or ["nothing"]),
        "one of": st.sampled_from(list(field.words) or [""]),
        "flag": st.booleans(),
        "span": st.sampled_from([Duration(minutes=60), Duration(days=2)]),
        "moment": st.sampled_from([MORNING, MORNING + timedelta(hours=2)]),
        "day": st.just(MORNING.date()),
        "time": st.sampled_from([time(12), time(17), time(23, 59)]),
        "hours": st.sampled_from([0.5, 3.0]),
    }
    if field.kept:
        return "days/2026/2026-04-04.toml"
    many = {"pieces": (), "pictures": (), "kept several": ()}
    if field.kind in many:
        return many[field.kind]
    return data.draw(choices.get(field.kind, _else(field)))


def _else(field: EntryField) -> Any:
    is_number = field.unit or field.least is not None
    return st.sampled_from([1.0, 20.0]) if is_number else st.sampled_from(["", REASON])
