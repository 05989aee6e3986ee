"""Random work days: people with skills and papers, jobs with dangers, places and clocks."""

from __future__ import annotations

import random
from datetime import date, datetime, time, timedelta

from crewboard.logbook.acts import Act, Begun, Expected, Finished
from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import Fixed, Wish
from crewboard.plan.duration import parse_duration
from crewboard.plan.hazard import CertificateNeed, Check, Clock, Hazard, Number
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Break, Jig
from crewboard.plan.volunteer import Certificate, Volunteer
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, task

SKILLS = ("joinery", "welding", "painting")


def _minutes(number_id: str, minutes: int) -> Number:
    return Number(number_id, minutes, "min", "", "invented", "anywhere", "", None, "verified")


def count_of(number_id: str, people: int) -> Number:
    return Number(number_id, people, "people", "", "invented", "anywhere", "", None, "verified")


HOT = Hazard(
    "hot",
    "Hot work: invented",
    (),
    numbers=(_minutes("watch", 60), count_of("two", 2)),
    least_people="two",
    not_near=("solvent", "dust"),
    not_after=("solvent",),
    checks=(Check("ended", "after", "The fire is out.", "task a day"),),
    clocks=(Clock("watch", "fire watch", ("watch",), starts="ended"),),
    certificates=(CertificateNeed("hot work", "one"),),
    under_18=False,
)
SOLVENT = Hazard(
    "solvent",
    "Solvents: invented",
    (),
    numbers=(_minutes("airing", 45),),
    clocks=(Clock("airing", "airing", ("airing",), guards="entry"),),
    certificates=(CertificateNeed("respirator fit", "each"),),
)
DUST = Hazard("dust", "Dust: invented", (), not_near=("varnish",), near="place")
VARNISH = Hazard("varnish", "Varnish: invented", ())
SAW = Hazard(
    "saw",
    "Saws: invented",
    (),
    checks=(Check("guards", "before", "The guards are on.", "task a day", "lead"),),
    not_near=("varnish",),
    near="place",
    under_18=False,
)
YOUNG = Hazard(
    "young",
    "Young people: invented",
    (),
    checks=(
        Check("consent", "before", "A parent agreed.", "person a year", "lead"),
        Check("home", "after", "They went home with whom it was agreed.", "day", "lead"),
    ),
    numbers=(count_of("two", 2),),
    least_people="two",
    not_near=("dust", "solvent"),
    near="place",
    concerns="minors",
)
WATCHED = Hazard(
    "watched",
    "Torch work: invented",
    (),
    numbers=(_minutes("watch", 45), count_of("two", 2)),
    least_people="two",
    not_near=("solvent",),
    checks=(Check("out", "after", "The torch is out.", "task a day"),),
    clocks=(Clock("watch", "torch watch", ("watch",), starts="out"),),
    under_18=False,
    watch="torch watcher",
)
HAZARDS = (HOT, SOLVENT, DUST, VARNISH, SAW, YOUNG)
BREAKS = (Break(time(10, 15), time(10, 30), "tea"), Break(time(12, 30), time(13), "lunch"))
SMALL_JOBS = ("sweep", "sort screws", "sharpen the irons")


def random_crew(rnd: random.Random, count: int) -> list[Volunteer]:
    found = []
    for number in range(count):
        papers = [
            Certificate(kind, date(2027, 1, 1) if rnd.random() < 0.8 else date(2026, 1, 1))
            for kind in ("hot work", "respirator fit")
            if rnd.random() < 0.5
        ]
        beside = rnd.choice(("joinery", "p0")) if number and rnd.random() < 0.15 else ""
        skills = tuple(skill for skill in SKILLS if rnd.random() < 0.4)
        young = rnd.random() < 0.2
        found.append(
            Volunteer(
                f"p{number}",
                f"P{number}",
                skills,
                tuple(papers),
                adult=not young,
                needs_beside=beside,
                lead=not young and rnd.random() < 0.4,
            )
        )
    return found


def random_plan(rnd: random.Random, people: int, ready: int) -> Plan:
    tasks: list[Task] = []
    for number in range(ready):
        least = rnd.choice((1, 1, 1, 2, 2, 3))
        tasks.append(
            task(
                f"c/t{number}",
                rnd.choice((0.5, 1, 2, 3.5, 6, 12, 30)),
                least_people=least,
                most_people=rnd.choice((None, least, least + 1, least + 2)),
                skills=(rnd.choice(SKILLS),) if rnd.random() < 0.3 else (),
                hazards=(rnd.choice(HAZARDS[:-1]).id,) if rnd.random() < 0.4 else (),
                place=rnd.choice(("", "", "bench", "yard", "booth")),
                hold=hold("glue", "36 hours") if rnd.random() < 0.3 else None,
                uses=rnd.choice(((), (), (), ("form",), ("stand",), ("form", "stand"))),
                in_one_go=rnd.random() < 0.15,
            )
        )
        if rnd.random() < 0.3:
            before = tasks[-1].id
            soon = rnd.choice(("", "", "30 min", "4 hours", "20 hours", "3 weeks"))
            within = {before: parse_duration(soon)} if soon else {}
            tasks.append(task(f"c/after{number}", 1, after=(before,), within=within))
    of = plan(tasks, crew=random_crew(rnd, people), hazards=HAZARDS)
    jigs = {"form": Jig("form", "Form"), "stand": Jig("stand", "Stand", 2)}
    shop = of.vehicle.shop._replace(room={"yard": 2})
    return of._replace(vehicle=of.vehicle._replace(jigs=jigs, shop=shop))


def random_log(rnd: random.Random, of: Plan, until: datetime) -> Logbook:
    """Some work begun or finished early in the morning, before `until`."""
    said: list[tuple[datetime, Act]] = []
    for name in rnd.sample(sorted(of.tasks), min(len(of.tasks), rnd.choice((0, 0, 1, 2)))):
        at = min(FIRST_SATURDAY, until) - timedelta(minutes=rnd.choice((100, 20)))
        if not of.tasks[name].hazards:
            said.append((at, Begun(name, ())))
            if rnd.random() < 0.4:
                said.append((at, Finished(name)))
    return logbook(*said)


def random_day(seed: int, people: int = 0, ready: int = 0) -> tuple[Board, Wish]:
    """A board in the morning (or later) of a work day, and what the lead wishes."""
    rnd = random.Random(seed)
    of = random_plan(rnd, people or rnd.randint(1, 9), ready or rnd.randint(0, 12))
    at = FIRST_SATURDAY + timedelta(minutes=rnd.choice((-60, 0, 0, 40, 190, 415)))
    here = tuple(who for who in of.crew if people or rnd.random() < 0.9)
    names = list(of.tasks)
    fixed, left_out, apart = [], [], []
    for name in rnd.sample(names, min(len(names), 3)) if not people else ():
        what = rnd.random()
        if what < 0.3 and here:
            start = rnd.choice((None, time(13)))
            fixed.append(Fixed(name, (rnd.choice(here),), start, only=rnd.random() < 0.2))
        elif what < 0.5:
            left_out.append(name)
        elif what < 0.7 and here:
            apart.append((rnd.choice(here), name))
    log = random_log(rnd, of, at) if not people else None
    return board(of, at, log), Wish(here, tuple(fixed), tuple(left_out), tuple(apart))


def full_day(seed: int, people: int = 0, ready: int = 0) -> tuple[Board, Wish]:
    """The same, in a shop with breaks, small jobs, people who come and go and who learn, a danger
    that is watched, and a hold that falls due."""
    on, wish = random_day(seed, people, ready)
    rnd = random.Random(f"full {seed}")
    shop = on.plan.vehicle.shop._replace(
        breaks=BREAKS[rnd.randint(0, 1) :], small_jobs=SMALL_JOBS[: rnd.randint(0, 3)]
    )
    tasks = dict(on.plan.tasks)
    for name in tasks:
        if not tasks[name].hazards and rnd.random() < 0.15:
            tasks[name] = tasks[name]._replace(hazards=("watched",))
        elif not tasks[name].skills and rnd.random() < 0.3:
            tasks[name] = tasks[name]._replace(skills=(rnd.choice(SKILLS),))
    glued = task("c/glued", 1, hold=hold("glue", "16 hours", rnd.choice(("look", "time"))))
    tasks |= {"c/glued": glued, "c/on": task("c/on", 3, after=("c/glued",))}
    crew = {
        who: volunteer._replace(learning=(rnd.choice(SKILLS),) if rnd.random() < 0.6 else ())
        for who, volunteer in on.plan.crew.items()
    }
    of = on.plan._replace(
        vehicle=on.plan.vehicle._replace(shop=shop),
        tasks=tasks,
        crew=crew,
        hazards={**on.plan.hazards, "watched": WATCHED},
    )
    evening = FIRST_SATURDAY - timedelta(hours=rnd.choice((11, 14)))
    said: list[tuple[datetime, Act]] = [
        (entry.at, entry.act) for day in on.logbook.days.values() for entry in day.entries
    ]
    said += [(evening, Begun("c/glued", ())), (evening, Finished("c/glued"))]
    for who in wish.people:
        if rnd.random() < 0.3:
            times = rnd.choice(((time(10, 40), None), (None, time(14)), (time(9, 30), time(15))))
            said.append((FIRST_SATURDAY - timedelta(hours=2), Expected(who, True, *times)))
    return board(of, on.at, logbook(*said)), wish
