"""A plan that says `each` and the same plan written out by hand: one board, one ranking, one date.

The written-out twin is made here, by the rule as it is said in words: a task for each piece; one
that comes after a task done to the same piece comes after that piece's task; any other comes after
all of them.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import datetime, timedelta
from json import dumps

from hypothesis import assume, given
from hypothesis import strategies as st

from crewboard.command.json_board import day_form
from crewboard.command.json_form import plain
from crewboard.logbook.acts import Act, Begun, Finished, Released, Reopened, SetAside
from crewboard.logbook.entry import Entry
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Wish
from crewboard.order.forecast.forecast import model_of
from crewboard.order.forecast.runs import play_many
from crewboard.order.reasons.onward import Onward, what_then
from crewboard.order.reasons.why import roots
from crewboard.order.review import review
from crewboard.order.within import must_follow
from crewboard.paper.calendar import events
from crewboard.plan.component import Component
from crewboard.plan.duration import parse_duration
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.plan.series import Series, written_out
from crewboard.plan.task import Estimate, Task
from crewboard.plan.vehicle import Jig, Shop, Vehicle
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.long_form import cases
from tests.order.small_plans import hold
from tests.order.test_readiness import logbook_of

HOLDS = (None, None, hold("glue", "36 hours"), hold("dry", "2 days"), hold("bend set"))
SOON = tuple(map(parse_duration, ("2 hours", "3 days", "2 weeks")))
START = datetime(2026, 5, 2, 9)
CREW = {"ada": Volunteer("ada", "Ada", adult=True), "tom": Volunteer("tom", "Tom", adult=True)}
SATURDAYS = WorkDays((parse_rule("saturday"),))


@st.composite
def written(draw: st.DrawFn) -> tuple[dict[str, Piece], dict[str, Task]]:
    """Pieces of two kinds, and tasks as they are written, each after some of those before it."""
    pieces = {
        f"c/{kind}/{n}": Piece(f"c/{kind}/{n}", f"{kind} {n}", "c", f"c/{kind}", n)
        for kind in ("ribs", "posts")
        for n in range(1, draw(st.integers(1, 4)) + 1)
    }
    if draw(st.booleans()):  # spares that nobody is asked to make
        pieces["c/ribs/9"] = Piece("c/ribs/9", "ribs 9", "c", "c/ribs", 9, spare=True)
    tasks: dict[str, Task] = {}
    for number in range(draw(st.integers(1, 5))):
        name = f"c/t{number}"
        before = (
            draw(st.lists(st.sampled_from(sorted(tasks)), max_size=2, unique=True)) if tasks else []
        )
        each = draw(
            st.one_of(
                st.just(()),
                st.sampled_from(
                    [tuple(p for p in pieces if f"/{kind}/" in p) for kind in ("ribs", "posts")]
                ),
                st.lists(st.sampled_from(sorted(pieces)), min_size=1, unique=True).map(tuple),
            )
        )
        during = draw(st.booleans()) and draw(st.booleans())
        tasks[name] = Task(
            name,
            name,
            "c",
            after=() if during else tuple(before),
            during=tuple(before) if during else (),
            estimate=Estimate(1, 2, draw(st.integers(2, 9))),
            hold=draw(st.sampled_from(HOLDS)),
            each=each,
            uses=("form",) if draw(st.integers(0, 4)) == 0 else (),
            place=draw(st.sampled_from(("", "", "tent", "bench"))),
            in_one_go=draw(st.integers(0, 4)) == 0,
            within={one: draw(st.sampled_from(SOON)) for one in before if draw(st.booleans())},
        )
    return pieces, tasks


def the_plan(
    tasks: Mapping[str, Task], pieces: Mapping[str, Piece], series: Mapping[str, Series]
) -> Plan:
    jigs = {"form": Jig("form", "Form")}
    vehicle = Vehicle("Van", work_days=SATURDAYS, shop=Shop(room={"tent": 2}), jigs=jigs)
    components = {"c": Component("c", "c")}
    return Plan(vehicle, components, tasks, CREW, {}, {}, pieces=pieces, series=series)


def with_series(tasks: Mapping[str, Task], pieces: Mapping[str, Piece]) -> Plan:
    every: dict[str, Task] = {}
    series: dict[str, Series] = {}
    for task in tasks.values():
        if task.each:
            series[task.id], members = written_out(task, [pieces[name] for name in task.each])
            every |= members
        else:
            every[task.id] = task
    return the_plan(every, pieces, series)


def by_hand(tasks: Mapping[str, Task], pieces: Mapping[str, Piece]) -> Plan:
    """Every task for every piece that the vehicle has, with the ids of what it comes after."""
    every: dict[str, Task] = {}

    def each(task: Task) -> list[str]:
        return [piece for piece in task.each if not pieces[piece].spare]

    def name(task: Task, piece: str) -> str:
        return f"{task.id}/{piece.removeprefix('c/')}"

    def before(task: Task, names: tuple[str, ...], piece: str) -> tuple[str, ...]:
        ids: list[str] = []
        for earlier in (tasks[one] for one in names):
            if not earlier.each:
                ids.append(earlier.id)
            elif piece and set(earlier.each) & set(task.each):
                ids += [name(earlier, piece)] if piece in earlier.each else []
            else:
                ids += [name(earlier, one) for one in each(earlier)]
        return tuple(ids)

    for task in tasks.values():
        for piece in each(task) if task.each else ("",):
            task_id = name(task, piece) if piece else task.id
            every[task_id] = task._replace(
                id=task_id,
                title=f"{task.title}: {pieces[piece].name}" if piece else task.title,
                after=before(task, task.after, piece),
                during=before(task, task.during, piece),
                within={
                    one: span
                    for named, span in task.within.items()
                    for one in before(task, (named,), piece)
                },
                each=(),
                pieces=(piece,) if piece else (),
            )
    return the_plan(every, pieces, {})


@st.composite
def twins(draw: st.DrawFn) -> tuple[Board, Board]:
    """The boards of both plans, with one logbook."""
    pieces, tasks = draw(written())
    spares = {piece.id for piece in pieces.values() if piece.spare}
    assume(not any(spares.issuperset(t.each) for t in tasks.values() if t.each))
    short, long = with_series(tasks, pieces), by_hand(tasks, pieces)
    assert [task for task in short.tasks if task in long.tasks] == list(long.tasks)
    entries: list[Entry] = []
    at = START
    for number in range(draw(st.integers(0, 12))):
        at += timedelta(hours=draw(st.integers(1, 60)))
        task = draw(st.sampled_from(list(long.tasks)))
        finishes = [e.id for e in entries if isinstance(e.act, Finished)]
        acts: list[Act] = [
            Begun(task, ("ada",)),
            Finished(task),
            Finished(task),
            Reopened(task, "x"),
        ]
        acts += [SetAside(task, "later"), *(Released(one) for one in finishes[-2:])]
        entries.append(Entry(f"e{number}", at, draw(st.sampled_from(acts)), "ada"))
    at += timedelta(hours=draw(st.integers(0, 60)))
    return assess(short, logbook_of(entries), at), assess(long, logbook_of(entries), at)


def in_one_order(then: Onward) -> Onward:
    """Names that are told side by side, in whatever order they were met."""
    now, after_hold, closer = sorted(then.now), sorted(then.after_hold), sorted(then.closer)
    return then._replace(now=(*now,), after_hold=(*after_hold,), closer=(*closer,))


@cases(150, 5000)
@given(twins())
def test_both_have_the_same_states_reasons_and_ranking(boards: tuple[Board, Board]) -> None:
    short, long = boards
    assert short.not_asked.keys() == short.standings.keys() - long.standings.keys()
    for task, standing in long.standings.items():
        other = short[task]
        alike = other._replace(task=standing.task)
        assert alike == standing
        assert {r.id for r in roots(short, task)} == {r.id for r in roots(long, task)}
        if not standing.work_done:
            assert in_one_order(what_then(short, task)) == in_one_order(what_then(long, task))
    assert what_goes_first(short) == what_goes_first(long)
    assert must_follow(short) == must_follow(long)


def day_as_json(board: Board, tasks: Collection[str]) -> str:
    """What `day --json` gives, but for the series and what is not on both boards."""
    form = {**day_form(board, ()), "series": None}
    form["tasks"] = [{**t, "series": None} for t in form["tasks"] if t["id"] in tasks]
    return dumps(plain(form))


@cases(60, 2000)
@given(twins())
def test_both_give_the_same_json_and_the_same_calendar(boards: tuple[Board, Board]) -> None:
    short, long = boards
    one, other = (day_as_json(board, long.standings) for board in boards)
    assert one == other
    assert list(events(short)) == list(events(long))


# What is asked of how the series is written, and has no twin.
OF_PIECES = ("spares nobody makes", "work on no piece")


@cases(60, 2000)
@given(twins())
def test_a_review_asks_the_same_of_both_once_for_a_series(boards: tuple[Board, Board]) -> None:
    short, long = boards
    asked = [(q.rule, q.id, q.key) for q in review(short) if q.rule not in OF_PIECES]
    assert len(set(asked)) == len(asked) or "follows anyway" in {rule for rule, *_ in asked}
    by_hand_asked = set()
    for question in review(long):
        task = short.plan.tasks.get(question.id)
        by_hand_asked.add((question.rule, (task and task.series) or question.id, question.key))
    # Written once for all pieces, a name is needed where it is for one of them.
    assert {*asked} == {one for one in by_hand_asked if one[0] != "follows anyway" or one in asked}


@cases(12, 400)
@given(twins())
def test_both_have_the_same_dates_and_the_same_plan_of_the_day(boards: tuple[Board, Board]) -> None:
    short, long = boards
    # As planned: of what turns up a series is one task, which came with all its pieces.
    one, other = (play_many(model_of(board)._replace(finds=None), 40, 3) for board in boards)
    assert (one.finish, one.closings, one.ended) == (other.finish, other.closings, other.ended)
    wish = Wish(people=("ada", "tom"))
    assert plan_day(short, wish, 0.2).placed == plan_day(long, wish, 0.2).placed
