"""Random plans of some months: chains of work with holds, places, jigs, skills, papers, dangers,
pieces of a series, and a crew of which some come on some days."""

from __future__ import annotations

import random
from datetime import date, datetime, time, timedelta

from crewboard.logbook.acts import Expected
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board
from crewboard.plan.duration import parse_duration
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.plan.time_away import TimeAway
from crewboard.plan.vehicle import Jig
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import Opening, WorkDays, parse_rule
from tests.order.day_plan.random_days import HAZARDS, SKILLS, random_crew
from tests.order.small_plans import FIRST_SATURDAY, board, hold, plan, task

WATCHED = tuple(h._replace(watch="fire") if h.id == "hot" else h for h in HAZARDS)
SPANS = ("90 min", "4 hours", "36 hours", "3 days", "2 weeks", "1 month")
CALENDARS = (
    WorkDays((parse_rule("first saturday"), parse_rule("third saturday"))),
    WorkDays((parse_rule("saturday"), parse_rule("sunday")), Opening(time(10), time(14))),
    WorkDays((parse_rule("saturday"),), also=((date(2026, 5, 13), Opening(time(18), time(21))),)),
    WorkDays(
        (parse_rule("saturday"),),
        also=((date(2026, 5, 9), Opening(time(18), time(20, 45))),),
        closed=((date(2026, 5, 16), "half of us away"),),
    ),
    WorkDays(
        (parse_rule("saturday"),),
        also=((date(2026, 5, 20), None),),
        holidays=(TimeAway(date(2025, 5, 12), date(2025, 5, 31), each_year=True),),
    ),
)


def random_tasks(rnd: random.Random, count: int, dangers: bool) -> list[Task]:
    found: list[Task] = []
    for number in range(count):
        names = [t.id for t in found[-12:]]
        after = tuple(rnd.sample(names, min(len(names), rnd.choice((0, 0, 1, 1, 2)))))
        least = rnd.choice((1, 1, 1, 2, 2, 3))
        soon = {}
        if after and rnd.random() < 0.08:
            soon = {after[0]: parse_duration(rnd.choice(("2 hours", "20 hours", "3 weeks")))}
        found.append(
            task(
                f"c{rnd.randrange(4)}/t{number}",
                rnd.choice((0.5, 1, 2, 3.5, 6, 12, 30)),
                after=after,
                during=tuple(each for each in after if rnd.random() < 0.1),
                least_people=least,
                most_people=rnd.choice((None, least, least + 1, least + 2)),
                skills=(rnd.choice(SKILLS),) if rnd.random() < 0.35 else (),
                hazards=(rnd.choice(HAZARDS[:-1]).id,) if dangers and rnd.random() < 0.3 else (),
                place=rnd.choice(("", "", "bench", "yard", "booth")),
                hold=hold(
                    rnd.choice(("glue", "cure", "dry")),
                    rnd.choice(SPANS),
                    rnd.choice(("look", "time")),
                    rnd.random() < 0.15,
                )
                if rnd.random() < 0.35
                else None,
                uses=rnd.choice(((), (), (), (), ("form",), ("stand",))),
                in_one_go=rnd.random() < 0.1,
                supplies=("paint",) if rnd.random() < 0.05 else (),
                within=soon,
            )
        )
    return found


def random_plan(rnd: random.Random, count: int, people: int, *, dangers: bool = True) -> Plan:
    tasks = random_tasks(rnd, count, dangers)
    paint = Supply("paint", "Paint", lead_time=parse_duration("2 weeks"))
    of = plan(
        tasks,
        (),
        rnd.choice(CALENDARS),
        [_comes_and_goes(rnd, each) for each in random_crew(rnd, people)],
        (paint,),
        WATCHED if dangers else (),
    )
    jigs = {"form": Jig("form", "Form"), "stand": Jig("stand", "Stand", 2)}
    shop = of.vehicle.shop._replace(room={"yard": 2})
    return of._replace(vehicle=of.vehicle._replace(jigs=jigs, shop=shop))


def _comes_and_goes(rnd: random.Random, one: Volunteer) -> Volunteer:
    """Some join or leave within the days ahead, or are away in some of them."""
    day = FIRST_SATURDAY.date() + timedelta(days=rnd.randrange(1, 60))
    match rnd.randrange(8):
        case 0:
            return one._replace(joined=day)
        case 1:
            return one._replace(left=day)
        case 2:
            return one._replace(away=(TimeAway(day, day + timedelta(days=rnd.randrange(30))),))
    return one


def random_answers(rnd: random.Random, of: Plan) -> Logbook:
    """Some say of the days to come whether they come, and from when until when."""
    days = {}
    for ahead in range(40):
        day = FIRST_SATURDAY.date() + timedelta(days=ahead)
        if not of.vehicle.work_days.openings_on(day):
            continue
        said = []
        for number, who in enumerate(of.crew):
            if rnd.random() < 0.4:
                arrives = rnd.choice((None, None, time(10, 30), time(12)))
                leaves = rnd.choice((None, None, time(13), time(15)))
                act = Expected(who, rnd.random() < 0.6, arrives, leaves)
                said.append(Entry(f"e{ahead}x{number}", datetime(2026, 5, 1, 20), act))
        if said:
            days[day] = Day(day, said)
    return Logbook(days)


def random_board(seed: int, most: int = 40, *, dangers: bool = True) -> Board:
    """A board on a morning in May."""
    rnd = random.Random(seed)
    of = random_plan(rnd, rnd.randint(1, most), rnd.randint(1, 9), dangers=dangers)
    at = FIRST_SATURDAY + timedelta(minutes=rnd.choice((-600, -60, 0, 40, 190, 900)))
    return board(of, at, random_answers(rnd, of))
