"""No sequence of commands begins a task with an unsigned check or closes a day inside a watch.

Random days are played through the logbook's door (`refusals`), with the overruling that the
workbench grants to a named person's reason. A plain second reading of the lines that were let in,
which shares no code with the rules, then looks for a line that should not be there.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import (
    Act,
    Begun,
    CheckSigned,
    ClosedDay,
    Finished,
    HoursWorked,
    SignIn,
    SignOut,
)
from crewboard.logbook.entry import Entry
from crewboard.order.admit.rules import refusals
from crewboard.order.may.party import usual_roles
from crewboard.order.safety.checks import checks_of
from crewboard.order.safety.closing import after_checks
from crewboard.order.safety.opening import unopened
from tests.long_form import cases
from tests.order.safety.workshop import Book, at, sheets, shop_plan, signed

# Dangers that meet one another: sparks, vapour, rags, a boiler, dust.
NAMES = ("hot-work", "solvent-strippers", "oily-rags", "steam-box", "power-saws")
KNOWN = {name: sheets()[name] for name in (*NAMES, "the-shop", "young-people")}
PLAN = shop_plan(KNOWN)
PEOPLE = ("ada", "ben", "cy", "dot", "eve")

people = st.lists(st.sampled_from(PEOPLE), max_size=3, unique=True).map(tuple)
tasks = st.sampled_from([f"shop/{name}" for name in NAMES])
checks = st.sampled_from(
    [
        (h.id, c.id, f"shop/{h.id}" if h.concerns == "task" else "")
        for h in KNOWN.values()
        for c in h.checks
    ]
)
commands = st.one_of(
    st.tuples(st.just("in"), st.sampled_from(PEOPLE)),
    st.tuples(st.just("out"), st.sampled_from(PEOPLE)),
    st.tuples(st.just("sign"), checks, st.sampled_from(PEOPLE), st.sampled_from(PEOPLE)),
    st.tuples(st.just("sign before"), tasks, people),
    st.tuples(st.just("sign after"), st.sampled_from(PEOPLE)),
    st.tuples(
        st.just("prepare and begin"),
        tasks,
        st.sampled_from([*[("ada", "ben")] * 4, ("ada",), ("cy", "ada"), ("ada", "ben", "dot")]),
        st.sampled_from([*[None] * 6, 0, 1, 2, 3]),
    ),
    st.tuples(st.just("until"), st.sampled_from([12, 14, 15])),
    st.tuples(st.just("tidy up and close"), st.sampled_from([0, 30, 59, 60])),
    st.tuples(st.just("begin"), tasks, people, st.sampled_from(["", "we are in a hurry"])),
    st.tuples(st.just("finish"), tasks),
    st.tuples(st.just("hours"), tasks, st.sampled_from(PEOPLE)),
    st.tuples(
        st.just("close"),
        st.sampled_from(["", " ", "they wait outside"]),
        st.sampled_from(["", "ada"]),
    ),
    st.tuples(st.just("wait"), st.sampled_from([1, 5, 29, 30, 31, 59, 60, 61, 120, 600, 1440])),
)


class Player:
    """Plays commands; keeps what the door lets in."""

    def __init__(self) -> None:
        self.book = Book(PLAN).sign_in("ada", "ben")
        self.now = at(9, 5)

    def begun(self, task: str, crew: tuple[str, ...], despite: str = "") -> Begun:
        """Who of them watches, who is beside the under-18s, is shared out as it can be."""
        roles = usual_roles(self.book.board(self.now), task, crew)
        return Begun(task, roles.crew, despite, watch=roles.watch, adult=roles.adult)

    def play(self, command: tuple[object, ...]) -> None:
        match command:
            case ("in", str(who)):
                self.say(SignIn(who))
            case ("out", str(who)):
                self.say(SignOut(who))
            case ("sign", (str(hazard), str(check), str(task)), str(who), str(by)):
                whom = by if KNOWN[hazard].check(check).each_person else ""  # type: ignore[union-attr]
                self.say(CheckSigned(hazard, check, who, task, concerns=whom), by)
            case ("sign before", str(task), tuple(crew)):
                self.open_shop()
                for asked in checks_of(
                    self.book.board(self.now), task, crew or ("ada", "ben"), "before"
                ):
                    self.say(signed(asked, task))
            case ("sign after", str(who)):
                for asked in after_checks(self.book.board(self.now)):
                    if not asked.open:
                        continue
                    self.say(CheckSigned(asked.hazard.id, asked.check.id, who, asked.task), who)
            case ("prepare and begin", str(task), tuple(crew), left_out):
                self.prepare(task, crew, left_out if isinstance(left_out, int) else None)
                self.say(self.begun(task, crew))
            case ("tidy up and close", int(minutes)):
                self.play(("sign after", "ada"))
                self.now += timedelta(minutes=minutes)
                for who in PEOPLE:
                    if who != "ada":
                        self.say(SignOut(who))
                self.play(("sign after", "ada"))
                self.say(ClosedDay())
            case ("begin", str(task), tuple(crew), str(despite)):
                self.say(self.begun(task, crew, despite))
            case ("finish", str(task)):
                self.say(Finished(task))
            case ("hours", str(task), str(who)):
                assert self.say(HoursWorked(who, 1, task)), "hours are always taken"
            case ("close", str(despite), str(by)):
                self.say(ClosedDay(despite), by)
            case ("until", int(hour)):
                self.now = max(self.now, at(hour, 5, self.now.date()))
            case ("wait", int(minutes)):
                self.now += timedelta(minutes=minutes)

    def prepare(self, task: str, crew: tuple[str, ...], left_out: int | None) -> None:
        """Everybody signs in, every check but one is signed."""
        for who in ("ada", *crew):
            self.say(SignIn(who))
        self.open_shop()
        asked = checks_of(self.book.board(self.now), task, crew, "before")
        for place, each in enumerate(asked):
            if place != left_out:
                self.say(signed(each, task))

    def open_shop(self) -> None:
        for asked in unopened(self.book.board(self.now)):
            named = ("ada",) if asked.check.names else ()
            self.say(signed(asked, "")._replace(named=named))

    def say(self, act: Act, by: str = "ada") -> bool:
        found = refusals(self.book.board(self.now), act, by)
        overruled = bool(by) and bool(getattr(act, "despite", "").strip())
        if any(not (r.yields and overruled) for r in found):
            return False
        self.book.say(self.now, act, by=by)
        return True


@cases(80, 1500)
@given(st.lists(commands, min_size=5, max_size=40))
def test_no_sequence_of_commands_gets_round_a_check_or_a_watch(
    played: list[tuple[object, ...]],
) -> None:
    player = Player()
    for command in played:
        player.play(command)
    entries = player.book.entries
    for place, entry in enumerate(entries):
        if isinstance(entry.act, Begun):
            look_at_beginning(entry, entry.act, entries[:place])
        if isinstance(entry.act, ClosedDay) and not (entry.act.despite.strip() and entry.by):
            look_at_closing(entry, entries[:place])
        if isinstance(entry.act, CheckSigned) and entry.act.check == "everyone-out":
            assert present(entries[:place]) <= {entry.act.who}, "not everybody was out"


def test_the_players_can_also_do_everything_right() -> None:
    """The property would hold for a door that is always shut: here it is open."""
    player = Player()
    for command in (
        ("sign before", "shop/hot-work", ("ada", "ben")),
        ("begin", "shop/hot-work", ("ada", "ben"), ""),
        ("wait", 120),
        ("finish", "shop/hot-work"),
        ("sign after", "ada"),
        ("close", "", ""),
        ("wait", 60),
        ("out", "ben"),
        ("sign after", "ada"),
        ("close", "", ""),
    ):
        player.play(command)
    kinds = [type(e.act) for e in player.book.entries]
    assert kinds.count(Begun) == 1
    assert kinds.count(ClosedDay) == 1
    assert player.book.entries[-1].at == at(12, 5)


# --- the second reading ------------------------------------------------------------------------


def look_at_beginning(entry: Entry, begun: Begun, before: list[Entry]) -> None:
    hazard = KNOWN[begun.task.removeprefix("shop/")]
    on_it = set(begun.people)
    for earlier in before:
        same_day = earlier.at.date() == entry.at.date()
        if isinstance(earlier.act, Begun) and earlier.act.task == begun.task and same_day:
            on_it |= set(earlier.act.people)
    here = present(before)
    on_it = (on_it & here) | set(begun.people)
    assert on_it, "somebody is named"
    assert on_it <= here, "everyone on it is signed in"
    assert "dot" not in on_it or hazard.under_18, "an under-18 where the sheet bars them"
    assert len(on_it - {"dot"}) >= hazard.people
    for need in hazard.certificates:
        holders = on_it & {"ada", "ben"}
        assert holders == on_it if need.who == "each" else holders
    for check in hazard.checks:
        if check.when != "before":
            continue
        whom = on_it if check.each_person else {None}
        for who in whom:
            assert any(answers(e, hazard.id, check, begun.task, entry.at, who) for e in before), (
                check
            )
    for other in dangers_going_on(before, entry.at, begun.task):
        assert other not in hazard.not_near
        assert hazard.id not in KNOWN[other].not_near
    if hazard.id == "hot-work":
        assert (entry.at.hour, entry.at.minute) < (15, 0) or entry.at.weekday() != 5


def answers(
    entry: Entry, hazard: str, check: object, task: str, moment: datetime, who: str | None
) -> bool:
    act, every = entry.act, getattr(check, "every", "")
    if not isinstance(act, CheckSigned) or (act.hazard, act.check) != (
        hazard,
        getattr(check, "id", ""),
    ):
        return False
    if every in ("day", "task a day") and entry.at.date() != moment.date():
        return False
    if every in ("task", "task a day") and act.task != task:
        return False
    return who is None or (act.concerns == who and act.who != who)


def present(before: list[Entry]) -> set[str]:
    today = before[-1].at.date() if before else None
    here: set[str] = set()
    for entry in before:
        if entry.at.date() != today:
            continue
        if isinstance(entry.act, SignIn):
            here.add(entry.act.who)
        elif isinstance(entry.act, SignOut):
            here.discard(entry.act.who)
    return here


def dangers_going_on(before: list[Entry], moment: datetime, own_task: str) -> set[str]:
    """Dangers begun on this day of which no line says anything but that they go on."""
    going: set[str] = set()
    for entry in before:
        act = entry.act
        if entry.at.date() != moment.date():
            continue
        if isinstance(act, Begun) and act.task != own_task:
            going.add(act.task)
        elif isinstance(act, Finished):
            going.discard(act.task)
        elif isinstance(act, CheckSigned):
            check = KNOWN[act.hazard].check(act.check)
            if check is not None and check.when == "after":
                going -= {task for task in going if task == f"shop/{act.hazard}"}
        elif isinstance(act, SignOut):
            going.clear()  # who has left may have been the last one on it: not looked at here
    return {task.removeprefix("shop/") for task in going}


def look_at_closing(entry: Entry, before: list[Entry]) -> None:
    """Nobody named gave a reason: no watch may run, and its end must have been said."""
    last: dict[str, datetime] = {}
    worked: dict[str, datetime] = {}
    for earlier in before:
        act = earlier.act
        if earlier.at.date() != entry.at.date():
            continue
        if isinstance(act, Begun) and act.task == "shop/hot-work":
            worked["hot-work"] = earlier.at
            last.pop("hot-work", None)
        elif isinstance(act, CheckSigned) and act.hazard == "hot-work" and act.check == "ended":
            last["hot-work"] = earlier.at
        elif isinstance(act, Finished) and act.task == "shop/hot-work":
            last.setdefault("hot-work", earlier.at)
    if "hot-work" in worked:
        assert "hot-work" in last, "closed without a word that hot work had ended"
        assert entry.at >= last["hot-work"] + timedelta(minutes=60), "closed inside a fire watch"
