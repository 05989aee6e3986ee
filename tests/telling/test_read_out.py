"""Each person's line of the plan, as a lead reads it out. The sentences were written by hand."""

from __future__ import annotations

from datetime import datetime

import pytest

from crewboard.order.day_plan.proposal import DayPlan, Pause, Placed, SmallJob
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.read_out import in_a_sentence, read_out
from tests.order.small_plans import plan, task

CREW = [Volunteer(name.split()[0].casefold(), name) for name in ("Henrik H", "Mirela M", "Aiko A")]
CREW += [Volunteer("kwame", "Kwame K"), Volunteer("rita", "Rita R")]
OF = plan(
    [
        task("c/plumb", title="Plumb the frame"),
        task("c/loom", title="Run the loom"),
        task("c/weld", title="Weld the bracket"),
    ],
    crew=CREW,
)
LUNCH = Pause(datetime(2026, 5, 2, 12), datetime(2026, 5, 2, 12, 30), "lunch")


def _at(clock: str) -> datetime:
    hour, minute = clock.split(":")
    return datetime(2026, 5, 2, int(hour), int(minute))


def _day(*placed: Placed, small: tuple[SmallJob, ...] = (), lunch: bool = True) -> DayPlan:
    return DayPlan(
        _at("9:00"),
        _at("16:30"),
        tuple(v.id for v in CREW),
        placed,
        (),
        (),
        "plain rule",
        10,
        10,
        small=small,
        pauses=(LUNCH,) if lunch else (),
    )


PLUMB = Placed("c/plumb", ("henrik", "mirela", "aiko"), _at("9:00"), _at("12:00"), True)


def test_a_day_is_one_sentence_with_who_is_beside_and_lunch() -> None:
    loom = Placed("c/loom", ("henrik", "kwame"), _at("12:30"), _at("16:30"), True)
    day = _day(PLUMB, loom)
    assert read_out(OF, day, "henrik") == (
        "plumb the frame with Mirela and Aiko until lunch, after lunch run the loom with Kwame"
    )
    assert read_out(OF, day, "kwame") == "after lunch run the loom with Henrik"
    assert read_out(OF, day, "aiko") == "plumb the frame with Henrik and Mirela until lunch"


def test_without_a_break_one_thing_comes_after_the_other() -> None:
    loom = Placed("c/loom", ("henrik", "kwame"), _at("12:00"), _at("15:00"), True)
    sweep = SmallJob("Sweep", ("henrik",), _at("15:30"), _at("16:30"))
    day = _day(PLUMB, loom, small=(sweep,), lunch=False)
    assert read_out(OF, day, "henrik") == (
        "plumb the frame with Mirela and Aiko until 12:00, then run the loom with Kwame until "
        "15:00, from 15:30 sweep"
    )


def test_who_watches_and_who_learns_is_told_so() -> None:
    weld = Placed(
        "c/weld",
        ("mirela", "rita", "aiko"),
        _at("9:00"),
        _at("11:00"),
        True,
        watch=("rita",),
        watched_until=_at("12:00"),
        learning=("aiko",),
    )
    day = _day(weld)
    assert read_out(OF, day, "rita") == (
        "watch over: weld the bracket with Mirela and Aiko until lunch"
    )
    assert read_out(OF, day, "aiko").startswith("weld the bracket to learn it with Mirela and Rita")


def test_nobody_is_left_without_a_word() -> None:
    assert read_out(OF, _day(), "kwame") == "nothing planned"


@pytest.mark.parametrize(
    ("title", "said"),
    [
        ("Plumb the frame", "plumb the frame"),
        ("Prime: Sash 10", "prime: Sash 10"),
        ("A look at the sill", "a look at the sill"),
        ("MIG weld the bracket", "MIG weld the bracket"),
        ("12 V lamps", "12 V lamps"),
        ("[M8] bolts", "[M8] bolts"),
        ("", ""),
    ],
)
def test_a_title_within_a_sentence(title: str, said: str) -> None:
    assert in_a_sentence(OF, title) == said


def test_a_name_keeps_its_capital() -> None:
    of = OF._replace(vehicle=OF.vehicle._replace(name="Marigold"))
    assert in_a_sentence(of, "Marigold lettering") == "Marigold lettering"
