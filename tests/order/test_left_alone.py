"""What must not be touched now: named whole, the soonest end first, and the same wherever told."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Act, Begun, Finished, HoldStarted, Reading, Released
from crewboard.order.board import Board
from crewboard.order.left_alone import as_sentences, in_short, left_alone
from crewboard.order.safety.briefing import briefing
from crewboard.plan.duration import Duration
from crewboard.plan.hold import Conditions
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from tests.order.random_plans import plans
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, task

AT = FIRST_SATURDAY
SETS_OR_DRIES = ("clamp", "glue", "bend set", "dry", "cure", "soak", "fire watch")
AWAITED = ("delivery", "inspection", "weather", "decision")


def hours(number: float) -> timedelta:
    return timedelta(hours=number)


@st.composite
def days(draw: st.DrawFn) -> Board:
    """A random plan with pieces, and a logbook in which holds start and are let go."""
    of = draw(plans(holds=True))
    homes = st.sampled_from(sorted(of.components))
    pieces = {
        name: Piece(name, name, draw(homes), keep=draw(st.booleans()))
        for name in (f"piece {number}" for number in range(draw(st.integers(0, 4))))
    }
    tasks = {
        name: of.tasks[name]._replace(
            pieces=tuple(draw(st.lists(st.sampled_from(sorted(pieces)), max_size=2, unique=True)))
            if pieces
            else ()
        )
        for name in of.tasks
    }
    of = of._replace(pieces=pieces, tasks=tasks)
    said: list[tuple[datetime, Act]] = []
    for task_id in tasks:
        moment = AT - hours(draw(st.integers(0, 100)))
        if draw(st.booleans()):
            said.append((moment, Begun(task_id)))
        if draw(st.booleans()):
            said.append((moment, Finished(task_id)))
    for _ in range(draw(st.integers(0, 4))):
        on = draw(st.sampled_from(("task", "component", "piece") if pieces else ("task",)))
        named = {"task": tasks, "component": of.components, "piece": pieces}[on]
        act = HoldStarted(
            draw(st.sampled_from((*SETS_OR_DRIES, *AWAITED))),
            lasts=draw(st.sampled_from((None, Duration(minutes=120), Duration(days=9)))),
            leave_alone=draw(st.booleans()),
            **{on: draw(st.sampled_from(sorted(named)))},
        )
        said.append((AT - hours(draw(st.integers(0, 100))), act))
    said.sort(key=lambda pair: pair[0])
    started = [f"e{number}" for number, (_, act) in enumerate(said) if isinstance(act, HoldStarted)]
    let_go = [entry for entry in started if draw(st.integers(0, 3)) == 0]
    said += [(AT, Released(entry, "looked at")) for entry in let_go]
    return board(of, AT, logbook(*said))


slowly = settings(suppress_health_check=[HealthCheck.too_slow], deadline=None)


@slowly
@given(days())
def test_every_hold_of_something_that_sets_and_every_kept_piece_is_named(day: Board) -> None:
    holds = {
        hold.id
        for hold in day.holds.values()
        if hold.stage in ("running", "due")
        and (hold.kind in SETS_OR_DRIES or (hold.kind in AWAITED and hold.leave_alone))
    }
    alone = left_alone(day)
    assert {entry.hold.id for entry in alone if entry.hold} == holds
    assert len([entry for entry in alone if entry.hold]) == len(holds)
    kept = {piece for entry in alone if not entry.hold for piece in entry.pieces}
    assert kept <= {piece.id for piece in day.plan.pieces.values() if piece.keep}
    begun = [s.task for s in day.standings.values() if s.begun and s.begun.date() == AT.date()]
    for piece in day.plan.pieces.values():
        if piece.keep and any(task.component == piece.component for task in begun):
            assert piece.id in kept
    ends = [entry.until or datetime.max for entry in alone]
    assert ends == sorted(ends)
    for entry, sentence in zip(alone, as_sentences(day), strict=True):
        assert entry.name
        assert entry.name in sentence


@slowly
@given(days())
def test_the_talk_reads_out_the_same_list(day: Board) -> None:
    assert list(briefing(day, []).leave_alone) == as_sentences(day)


def shed(**more: object) -> Plan:
    tasks = [
        task("roof/bend", title="Bend the arches", hold=hold("bend set", "1 month")),
        task("doors/glue", title="Glue up the doors", hold=hold("glue", "4 hours", "", True)),
        task("frame/coat", title="Coat the frame", hold=hold("dry", "2 days")),
        task("frame/visit", title="Have it looked at", hold=hold("inspection", "1 week")),
        task("seats/screw", title="Screw the seats"),
    ]
    return plan(tasks)._replace(**more)  # type: ignore[arg-type]


def finished_at(of: Plan, moments: dict[str, datetime], *more: tuple[datetime, Act]) -> Board:
    said = [(moment, Finished(name)) for name, moment in moments.items()]
    return board(of, AT, logbook(*said, *more))


def short(day: Board) -> list[str]:
    return [in_short(day, entry) for entry in left_alone(day)]


def test_the_soonest_end_stands_first_and_what_is_due_before_it() -> None:
    day = finished_at(
        shed(),
        {
            "frame/coat": AT - hours(1),
            "frame/visit": AT - hours(1),
            "doors/glue": AT - hours(1),
            "roof/bend": datetime(2026, 3, 21, 13, 50),
        },
    )
    assert short(day) == [
        '"Bend the arches" due for a look',
        "doors until 12:00",
        '"Coat the frame" until Mon',
    ]
    assert as_sentences(day) == [
        '"Bend the arches" (roof): on the form, due for a look since Tue 21 Apr 13:50',
        'doors, all of it: "Glue up the doors", glue is setting, until 12:00',
        '"Coat the frame" (frame): drying, until Mon 4 May 08:00',
    ]


def test_a_coat_whose_clock_stands_still_is_said_to_be_stopped() -> None:
    warm = Conditions(at_least_c=10)
    of = shed()
    coat = of.tasks["frame/coat"]
    assert coat.hold is not None
    coat = coat._replace(hold=coat.hold._replace(conditions=warm))
    cold = (AT - hours(0.5), Reading(4.0, None))
    day = finished_at(
        of._replace(tasks={**of.tasks, coat.id: coat}), {coat.id: AT - hours(1)}, cold
    )
    assert short(day) == ['"Coat the frame" clock stopped: too cold']
    assert "stopped: too cold (4 °C, it wants 10 °C)" in as_sentences(day)[0]


def test_the_pieces_that_a_hold_is_on_are_named() -> None:
    ribs = {
        f"roof/ribs/{number}": Piece(
            f"roof/ribs/{number}", f"Rib {number}", "roof", "roof/ribs", number
        )
        for number in range(1, 8)
    }
    bend = task(
        "roof/bend",
        title="Bend the ribs",
        hold=hold("bend set", "2 days"),
        pieces=("roof/ribs/7", "roof/ribs/1", "roof/ribs/2", "roof/ribs/3"),
    )
    day = finished_at(plan([bend])._replace(pieces=ribs), {"roof/bend": AT - hours(1)})
    assert short(day) == ["Ribs 1-3 and 7 until Mon"]
    assert as_sentences(day)[0].startswith('Ribs 1-3 and 7 (roof): "Bend the ribs", on the form')


def test_what_is_kept_for_ever_is_named_once_its_component_is_worked_on() -> None:
    pillar = Piece("doors/pillar", "Lock pillar", "doors", keep=True)
    bench = Piece("seats/bench", "Bench board", "seats", keep=True)
    of = shed(pieces={pillar.id: pillar, bench.id: bench})
    assert not left_alone(board(of))
    day = board(of, AT, logbook((AT, Begun("doors/glue"))))
    assert short(day) == ["Lock pillar for ever"]
    assert "never cut, stripped or painted over" in as_sentences(day)[0]


def test_which_tasks_are_ready_does_not_change_by_it() -> None:
    pillar = Piece("seats/pillar", "Lock pillar", "seats", keep=True)
    day = board(shed(pieces={pillar.id: pillar}), AT, logbook((AT, Begun("seats/screw"))))
    assert [s.task.id for s in day.in_state("ready")] == [
        *("roof/bend", "doors/glue", "frame/coat", "frame/visit")
    ]
