"""An invented shop: a task for each hazard sheet; people who may do much, little or nothing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from functools import cache

from crewboard.folder.read.hazard_sheets import read_sheets
from crewboard.logbook.acts import Act, Begun, CheckSigned, SignIn
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.admit.refusal import Refusal
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.may.ask import against_doing
from crewboard.order.may.party import usual_roles
from crewboard.order.may.words import as_refusals
from crewboard.order.safety.checks import Asked, checks_of
from crewboard.order.safety.opening import unopened
from crewboard.plan.component import Component
from crewboard.plan.hazard import Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Shop, Vehicle
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import MeetingRule, Opening, WorkDays

TODAY = date(2026, 5, 2)  # a Saturday
OPENS, CLOSES = time(9), time(16)


_WHERE = ("the infirmary", "Mill Lane", "the gate", "red box by the door")


def at(hour: int, minute: int = 0, day: date = TODAY) -> datetime:
    return datetime.combine(day, time(hour, minute))


@cache
def sheets() -> dict[str, Hazard]:
    """All sheets; what no crew uses may be used here, so that its other rules are held to."""
    return {h.id: h._replace(do_not_use="") for h in read_sheets(None).hazards.values()}


def kinds() -> list[str]:
    """Every certificate that a sheet asks for, of those who work or of those who sign."""
    wanted = {need.kind for h in sheets().values() for need in h.certificates}
    wanted |= {c.signs for h in sheets().values() for c in h.checks} - {"anyone", "lead"}
    return sorted(wanted)


def crew() -> dict[str, Volunteer]:
    papers = tuple(Certificate(kind, date(2027, 12, 31)) for kind in kinds())
    lapsed = tuple(Certificate(kind, date(2026, 4, 30)) for kind in kinds())
    people = (
        Volunteer(
            "ada", "Ada", certificates=(*papers, Certificate("first aid")), lead=True, adult=True
        ),
        Volunteer("ben", "Ben", certificates=papers, adult=True),
        Volunteer("cy", "Cy", adult=True),
        Volunteer("fay", "Fay", adult=True),
        Volunteer("dot", "Dot", certificates=papers, adult=False),
        Volunteer("eve", "Eve", certificates=lapsed, adult=True),
        Volunteer("lee", "Lee", lead=True, adult=True),
        Volunteer("uma", "Uma"),  # whose age nobody has said
    )
    return {each.id: each for each in people}


def shop_plan(
    hazards: Mapping[str, Hazard] | None = None, tasks: Iterable[Task] = (), **changes: object
) -> Plan:
    """A plan with a task "shop/ID" for each sheet, all in one place, and the tasks given."""
    known = dict(hazards or sheets())
    plain = [
        Task(f"shop/{each}", each.replace("-", " "), "shop", hazards=(each,), place="bench")
        for each in known
        if known[each].concerns != "day"
    ]
    all_tasks = [*plain, Task("shop/plain", "tidy the drawings", "shop"), *tasks]
    vehicle = Vehicle(
        "Dining trailer",
        work_days=WorkDays((MeetingRule(5),), Opening(OPENS, CLOSES)),
        shop=Shop("the emergency number", *_WHERE),
    )
    plan = Plan(
        vehicle,
        {"shop": Component("shop", "Shop")},
        {task.id: task for task in all_tasks},
        crew(),
        {},
        known,
    )
    return plan._replace(**changes)  # type: ignore[arg-type]


def begin_refusals(board: Board, task_id: str, people: Sequence[str]) -> list[Refusal]:
    """What stands against these people doing the task, wherever it stands in the order of work.

    The last of them watches where the sheet asks for that, the first is beside the under-18s.
    """
    roles = usual_roles(board, task_id, people)
    return as_refusals(board, task_id, against_doing(board, task_id, *roles))


def signed(asked: Asked, task_id: str, who: str = "ada") -> CheckSigned:
    """The check signed by Ada, or by Ben where it is signed for her."""
    signer = "ben" if asked.who == who == "ada" else who
    return CheckSigned(asked.hazard.id, asked.check.id, signer, task_id, concerns=asked.who)


class Book:
    """A logbook being written, and the boards it makes. Nothing is refused here."""

    def __init__(self, plan: Plan | None = None) -> None:
        self.plan = plan or shop_plan()
        self.entries: list[Entry] = []

    def say(self, moment: datetime, *acts: Act, by: str = "ada") -> Book:
        for act in acts:
            self.entries.append(Entry(f"e{len(self.entries):04}", moment, act, by))
        return self

    def sign_in(self, *who: str, moment: datetime | None = None) -> Book:
        return self.say(moment or at(9), *(SignIn(each) for each in who))

    def sign_before(self, task_id: str, people: tuple[str, ...], moment: datetime) -> Book:
        """Every before-check of the task, signed by somebody who may."""
        self.open_shop(moment)
        for asked in checks_of(self.board(moment), task_id, people, "before"):
            if asked.open:
                self.say(moment, signed(asked, task_id))
        return self

    def open_shop(self, moment: datetime) -> Book:
        """The opening checks, with Ada as the first-aider."""
        for asked in unopened(self.board(moment)):
            named = ("ada",) if asked.check.names else ()
            self.say(moment, signed(asked, "")._replace(named=named))
        return self

    def begin(self, task_id: str, *people: str, moment: datetime | None = None) -> Book:
        roles = usual_roles(self.board(moment or at(10)), task_id, people)
        begun = Begun(task_id, roles.crew, watch=roles.watch, adult=roles.adult)
        return self.say(moment or at(10), begun)

    def sign_after(self, task_id: str, moment: datetime) -> Book:
        for asked in checks_of(self.board(moment), task_id, when="after"):
            self.say(moment, signed(asked, task_id))
        return self

    def logbook(self) -> Logbook:
        days: dict[date, list[Entry]] = {}
        for entry in self.entries:
            days.setdefault(entry.at.date(), []).append(entry)
        return Logbook({day: Day(day, days[day]) for day in sorted(days)})

    def board(self, moment: datetime) -> Board:
        return assess(self.plan, self.logbook(), moment)


def minutes_before(moment: datetime, minutes: int) -> datetime:
    return moment - timedelta(minutes=minutes)
