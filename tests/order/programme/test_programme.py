"""The programme of the next work days: sound under every rule, and what belongs to each day."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Begun, Expected, SignIn
from crewboard.order.board import Board
from crewboard.order.programme.around import Around, around
from crewboard.order.programme.no_day import finds_no_day
from crewboard.order.programme.programme import Made, Programme, make, programme
from crewboard.plan.duration import parse_duration
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Break, Jig
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import Opening, WorkDays, parse_rule
from tests.long_form import cases
from tests.order.day_plan.random_days import HAZARDS
from tests.order.programme.feasible import violations
from tests.order.programme.lived import refused
from tests.order.programme.random_plans import random_board
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, task
from tests.order.test_written_out import twins, with_series

ADA = Volunteer("ada", "Ada Test", ("welding",), adult=True, lead=True)
TOM = Volunteer("tom", "Tom Test", ("joinery",), adult=True)
BEA = Volunteer("bea", "Bea Test", ("joinery",), adult=True)
SATURDAYS = WorkDays((parse_rule("saturday"),))
SEEDS = st.integers(0, 10**9)


# --- every rule is kept --------------------------------------------------------------------------


@cases(40, 3000)
@given(seed=SEEDS, dangers=st.booleans())
def test_it_is_sound_by_the_plan_and_the_logbook_alone(seed: int, dangers: bool) -> None:
    on = random_board(seed, dangers=dangers)
    assert violations(on.plan, on.logbook, on.at, programme(on)) == []


@cases(15, 1500)
@given(seed=SEEDS, dangers=st.booleans())
def test_it_can_be_lived_and_nothing_of_it_is_refused_at_begin(seed: int, dangers: bool) -> None:
    on = random_board(seed, 20, dangers=dangers)
    assert refused(on, programme(on)) == []


@cases(10, 500)
@given(seed=SEEDS)
def test_it_is_the_same_whenever_it_is_asked_for(seed: int) -> None:
    assert programme(random_board(seed)) == programme(random_board(seed))


@cases(10, 500)
@given(seed=SEEDS)
def test_as_many_work_days_as_are_asked_for(seed: int) -> None:
    on = random_board(seed, 10)
    assert [len(programme(on, days).days) for days in (1, 4, 8)] == [1, 4, 8]


@pytest.mark.parametrize("spoil", ["people", "early", "twice", "half", "alone", "outside"])
def test_what_is_not_sound_is_seen(spoil: str) -> None:
    of = plan(
        [
            task("c/glue", 2, skills=("joinery",), hold=hold("glue", "36 hours", "time")),
            task("c/after", 2, after=("c/glue",), least_people=2, most_people=2),
        ],
        crew=[ADA, TOM],
        work_days=SATURDAYS,
    )
    on = board(of)
    made = programme(on)
    first, second, *rest = made.days
    assert violations(of, on.logbook, on.at, made) == []
    glue, after = first.turns[0], second.turns[0]
    match spoil:
        case "people":
            first = first._replace(turns=(glue._replace(people=("ada",)),))
        case "early":
            noon = first.turns[0].end
            first = first._replace(
                turns=(glue, after._replace(start=noon, end=noon + timedelta(hours=1)))
            )
            second = second._replace(turns=())
        case "twice":
            second = second._replace(turns=(after, after))
        case "half":
            short = after._replace(end=after.start + timedelta(minutes=30), hours=0.5)
            second = second._replace(turns=(short,))
        case "alone":
            second = second._replace(turns=(after._replace(people=("ada",)),))
        case "outside":
            late = after._replace(
                start=after.start.replace(hour=17), end=after.end.replace(hour=18)
            )
            second = second._replace(turns=(late,))
    spoilt = made._replace(days=(first, second, *rest))
    assert violations(of, on.logbook, on.at, spoilt)


# --- holds, days, people -------------------------------------------------------------------------


def _glued(lasts: str) -> Plan:
    return plan(
        [
            task("c/glue", 2, hold=hold("glue", lasts, "time")),
            task("c/after", 2, after=("c/glue",)),
        ],
        crew=[ADA, TOM],
        work_days=SATURDAYS,
    )


def _days_of(made: Programme, name: str) -> list[date]:
    return [day.date for day in made.days if any(turn.task == name for turn in day.turns)]


def test_what_waits_for_a_hold_that_ends_between_two_days_is_done_on_the_second() -> None:
    made = programme(board(_glued("36 hours")))
    assert _days_of(made, "c/glue") == [date(2026, 5, 2)]
    assert _days_of(made, "c/after") == [date(2026, 5, 9)]
    sets = made.days[0].turns[0]
    assert (sets.sets, sets.sets_until) == (True, sets.end + timedelta(hours=36))


def test_what_waits_for_a_hold_that_runs_past_the_next_day_is_done_on_a_later_one() -> None:
    assert _days_of(programme(board(_glued("10 days"))), "c/after") == [date(2026, 5, 16)]


def test_a_hold_that_ends_at_noon_lets_the_work_behind_it_begin_then() -> None:
    made = programme(board(_glued("7 days")))
    glue, after = made.days[0].turns[0], made.days[1].turns[0]
    assert after.start == glue.end + timedelta(days=7)


def test_a_closed_day_is_no_work_day_and_an_evening_is_one() -> None:
    days = SATURDAYS._replace(
        closed=((date(2026, 5, 9), "away"),),
        also=((date(2026, 5, 13), Opening(time(18), time(21))),),
    )
    of = plan([task("c/long", 60)], crew=[ADA], work_days=days)
    made = programme(board(of), 3)
    assert [day.date.day for day in made.days] == [2, 13, 16]
    evening = made.days[1].turns[0]
    assert (evening.start.time(), evening.end.time()) == (time(18), time(21))


def with_lunch(*, in_one_go: bool, hours: float) -> Made:
    long = task("c/long", hours, in_one_go=in_one_go, most_people=1)
    of = plan([long], crew=[ADA], work_days=SATURDAYS)
    noon = Break(time(11, 45), time(12, 30), "lunch")
    shop = of.vehicle.shop._replace(breaks=(noon,))
    return make(board(of._replace(vehicle=of.vehicle._replace(shop=shop))))


def test_nobody_works_in_a_break_and_work_goes_on_after_it() -> None:
    turn = with_lunch(in_one_go=False, hours=4).programme.days[0].turns[0]
    # From nine to half past eleven, and the rest from the end of lunch on.
    assert (turn.start.time(), turn.end.time(), turn.hours) == (time(9), time(14), 4)


def test_what_is_done_in_one_go_lies_between_two_breaks() -> None:
    turn = with_lunch(in_one_go=True, hours=3).programme.days[0].turns[0]
    assert (turn.start.time(), turn.end.time()) == (time(12, 30), time(15, 30))
    too_long = with_lunch(in_one_go=True, hours=4)
    assert not any(day.turns for day in too_long.programme.days)
    assert [(each.task, each.why) for each in finds_no_day(too_long)] == [("c/long", "long")]


def test_a_day_on_which_nobody_comes_has_no_work() -> None:
    second = datetime(2026, 5, 9, 8)
    said = [(second, Expected(who, False)) for who in ("ada", "tom")]
    of = plan([task("c/long", 60)], crew=[ADA, TOM], work_days=SATURDAYS)
    made = programme(board(of, log=logbook(*said)), 3)
    assert [bool(day.turns) for day in made.days] == [True, False, True]
    assert made.days[1].people == ()


def test_who_comes_late_and_leaves_early_works_in_between() -> None:
    second = datetime(2026, 5, 9, 8)
    said = [
        (second, Expected("ada", True, time(10, 30), time(13))),
        (second, Expected("tom", False)),
    ]
    of = plan([task("c/long", 60)], crew=[ADA, TOM], work_days=SATURDAYS)
    turn = programme(board(of, log=logbook(*said)), 2).days[1].turns[0]
    assert (turn.people, turn.start.time(), turn.end.time()) == (("ada",), time(10, 30), time(13))


def test_whoever_is_on_a_task_goes_on_with_it() -> None:
    early = FIRST_SATURDAY - timedelta(minutes=30)
    log = logbook((early, SignIn("ada")), (early, SignIn("tom")), (early, Begun("c/b", ("tom",))))
    of = plan([task("c/a", 3), task("c/b", 3)], crew=[ADA, TOM], work_days=SATURDAYS)
    turns = {turn.task: turn for turn in programme(board(of, log=log)).days[0].turns}
    assert "tom" in turns["c/b"].people
    assert turns["c/b"].goes_on


def test_a_jig_is_taken_until_the_hold_is_over() -> None:
    of = plan(
        [
            task("c/one", 1, uses=("form",), hold=hold("bend set", "10 days", "time")),
            task("c/two", 1, uses=("form",)),
        ],
        crew=[ADA, TOM],
        work_days=SATURDAYS,
    )
    of = of._replace(vehicle=of.vehicle._replace(jigs={"form": Jig("form", "Form")}))
    made = programme(board(of))
    assert {*_days_of(made, "c/one"), *_days_of(made, "c/two")} == {
        date(2026, 5, 2),
        date(2026, 5, 16),
    }


def test_what_must_not_be_left_half_done_waits_for_a_day_that_is_long_enough() -> None:
    second = [(datetime(2026, 5, 2, 8), Expected("tom", False))]
    of = plan([task("c/go", 12, in_one_go=True)], crew=[ADA, TOM], work_days=SATURDAYS)
    made = programme(board(of, log=logbook(*second)))
    assert _days_of(made, "c/go") == [date(2026, 5, 9)]


def test_what_must_follow_soon_is_not_put_off_to_another_day() -> None:
    of = plan(
        [
            task("c/strip", 10, most_people=1),
            task("c/prime", 3, after=("c/strip",), within={"c/strip": parse_duration("4 hours")}),
        ],
        crew=[ADA],
        work_days=SATURDAYS,
    )
    made = programme(board(of))
    assert _days_of(made, "c/prime") == _days_of(made, "c/strip")[-1:]


# --- pieces of a series --------------------------------------------------------------------------


@cases(30, 2000)
@given(twins())
def test_a_series_is_done_as_the_same_tasks_written_one_by_one(boards: tuple[Board, Board]) -> None:
    short, long = boards
    assert programme(short).days == programme(long).days


def test_each_piece_goes_its_own_way() -> None:
    pieces = {f"c/ribs/{n}": Piece(f"c/ribs/{n}", f"Rib {n}", "c", "c/ribs", n) for n in (1, 2, 3)}
    bend = task("c/bend", 2, each=tuple(pieces), hold=hold("bend set", "3 days", "time"))
    fit = task("c/fit", 12, each=tuple(pieces), after=("c/bend",), most_people=1)
    made = programme(board(with_series({each.id: each for each in (bend, fit)}, pieces)))
    for number in (1, 2, 3):
        bent, fitted = (_days_of(made, f"c/{what}/ribs/{number}") for what in ("bend", "fit"))
        assert bent == [date(2026, 5, 2)]
        assert fitted[0] >= date(2026, 5, 9)
    assert _days_of(made, "c/fit/ribs/3")[0] > _days_of(made, "c/fit/ribs/1")[0]


# --- what belongs to a day -----------------------------------------------------------------------


def _beside(on: Board, days: int = 3) -> tuple[Around, ...]:
    return around(on, make(on, days))


def test_a_look_falls_due_on_the_next_work_day() -> None:
    of = plan([task("c/glue", 2, hold=hold("glue", "36 hours", "look"))], crew=[ADA])
    beside = _beside(board(of))
    assert [[due.about for due in day.due] for day in beside] == [[], ["c/glue"], []]


def test_a_date_falls_due_and_says_whether_it_is_kept() -> None:
    some: list[Task] = [
        task("c/now", 2, due=date(2026, 5, 12)),
        task("c/never", 400, most_people=1, due=date(2026, 5, 13)),
    ]
    due = _beside(board(plan(some, crew=[ADA, TOM])))[1].due
    assert {(one.about, one.kept) for one in due} == {("c/now", True), ("c/never", False)}


def test_a_supply_that_nobody_ordered_says_by_when() -> None:
    paint = Supply("paint", "Paint", lead_time=parse_duration("10 days"))
    of = plan([task("c/coat", 2, supplies=("paint",))], crew=[ADA], supplies=[paint])
    beside = _beside(board(of))
    assert [len(day.must_be) for day in beside] == [0, 1, 0]
    need = beside[1].must_be[0]
    assert (need.supply, need.unordered, need.order_by) == ("paint", True, date(2026, 5, 6))


def test_who_has_the_skill_and_is_not_expected_is_asked_to_come() -> None:
    said = [(datetime(2026, 5, 2, 8), Expected("ada", False))]
    of = plan([task("c/weld", 2, skills=("welding",))], crew=[ADA, TOM], work_days=SATURDAYS)
    on = board(of, log=logbook(*said))
    first, second, _ = _beside(on)
    assert [(ask.tasks, ask.lacks.code, ask.could) for ask in first.ask] == [
        (("c/weld",), "skill", ("ada",))
    ]
    assert second.ask == ()
    assert _days_of(programme(on), "c/weld") == [date(2026, 5, 9)]


def test_one_more_is_asked_for_where_too_few_are_expected() -> None:
    said = [(datetime(2026, 5, 2, 8), Expected("bea", False))]
    of = plan([task("c/lift", 2, least_people=3)], crew=[ADA, TOM, BEA], work_days=SATURDAYS)
    ask = _beside(board(of, log=logbook(*said)))[0].ask[0]
    assert (ask.lacks.code, ask.lacks.needed - ask.lacks.there, ask.could) == ("few", 1, ("bea",))


def test_a_certificate_that_lapses_before_the_day_is_named() -> None:
    fit = Certificate("respirator fit", date(2026, 5, 10))
    ada = ADA._replace(certificates=(fit,))
    of = plan(
        [task("c/coat", 60, hazards=("solvent",))],
        crew=[ada],
        work_days=SATURDAYS,
        hazards=HAZARDS,
    )
    on = board(of)
    beside = _beside(on)
    assert [[(m.certificate, m.who) for m in day.must_be] for day in beside] == [
        [],
        [],
        [("respirator fit", "ada")],
    ]
    assert _days_of(programme(on), "c/coat") == [date(2026, 5, 2), date(2026, 5, 9)]
    assert [ask.lacks.certificate for ask in beside[2].ask] == []
