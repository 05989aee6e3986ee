"""What the sample holds, and how it stands at the moment the guide and the pictures look at it."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date, datetime, timedelta

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import (
    ClosedDay,
    Expected,
    Extended,
    HoldStarted,
    Incident,
    Released,
    Reopened,
    SignIn,
    TakenBack,
)
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from tests.sample.marigold import AT, SAMPLE, board, book, folder, plan

FILES = [p for p in sorted(SAMPLE.rglob("*.toml")) if ".crewboard" not in str(p)]


def test_the_sample_has_no_mistake() -> None:
    assert [str(fault) for fault in folder().faults] == []
    assert list(folder().broken) == []
    assert folder().paths("stray") == []


def test_the_sample_is_as_large_as_it_should_be() -> None:
    assert 23 <= len(plan().components) <= 30
    alone = [task for task in plan().tasks.values() if not task.series]
    assert 110 <= len(alone) + len(plan().series) <= 125  # as its files say it
    assert 150 <= len(plan().tasks) <= 175  # written out for each arch, rod and sash
    assert len(plan().crew) == 14
    assert sum(v.minor_on(AT.date()) for v in plan().crew.values()) == 2
    assert 36 <= len(book().days) <= 42


def test_every_component_has_work_and_every_task_tells_how_it_is_done() -> None:
    homes = Counter(t.component for t in plan().tasks.values())
    for component in plan().components.values():
        inside = plan().with_parts(component.id)
        assert sum(homes[each] for each in inside) > 0, component.id
    silent = [t.id for t in plan().tasks.values() if not t.method and not t.finished]
    assert len(silent) <= 2
    assert all(t.estimate and t.estimate.low < t.estimate.high for t in plan().tasks.values())
    assert all(t.place for t in plan().tasks.values() if not t.finished)


def test_the_states_are_well_mixed_at_the_fixed_moment() -> None:
    counted = Counter(s.state for s in board().standings.values())
    assert counted["ready"] >= 8
    assert counted["under way"] >= 4
    assert counted["on hold"] >= 10
    assert counted["waiting"] >= 20
    assert counted["finished"] >= 40
    aside = [s.task.id for s in board().in_state("set aside")]
    assert aside == ["arches/true-up/arches/2", "motor/clutch"]  # arch 2 failed


def test_two_arches_and_a_moulding_are_due_for_a_look() -> None:
    due = [h.task for h in board().stopping() if h.stage == "due"]
    assert sorted(due) == [
        *(f"arches/bend/arches/{number}" for number in (3, 4)),
        "mouldings/glue-second",
    ]


def test_several_holds_run_one_of_them_extended_and_one_forbidding_its_component() -> None:
    running = [h for h in board().stopping() if h.stage == "running"]
    assert len(running) >= 6
    assert len({h.kind for h in running}) >= 5
    assert [h.task for h in running if h.extended] == ["arches/bend/arches/6"]
    assert [h.component for h in running if h.leave_alone] == ["doors/rear"]


def test_pieces_are_kept_for_ever_and_some_of_them_are_early_repairs() -> None:
    kept = [piece for piece in plan().pieces.values() if piece.keep]
    assert {piece.component for piece in kept} >= {"survey", "panels", "windows", "doors/rear"}
    repairs = [piece.id for piece in kept if piece.as_found == "earlier repair"]
    assert repairs == ["body-frame/left-joint", "body-frame/wheelwright-patch"]
    assert all(piece.why for piece in kept)
    assert not [t.id for t in plan().tasks.values() for p in kept if p.id in t.pieces]


def test_work_on_each_window_arch_and_rod_is_written_once() -> None:
    chain = {name: series.places for name, series in plan().series.items()}
    assert chain == {
        "arches/bend": 7,
        "arches/true-up": 7,
        "rods/draw": 6,
        "windows/repair": 5,
        "windows/prime": 11,
        "windows/glaze": 11,
    }


def test_supplies_stand_ordered_late_and_not_ordered() -> None:
    short = {s for each in board().standings.values() for s in each.short_of}
    due = {supply_id: board().stock[supply_id].promised for supply_id in short}
    late = sorted(s for s, day in due.items() if day and day < AT.date())
    assert late == ["valve-kit"]
    assert sum(day is not None and day > AT.date() for day in due.values()) == 3
    assert {"half-round", "safety-glass", "body-paint"} <= {s for s, day in due.items() if not day}


def test_the_first_two_are_here_and_others_are_expected() -> None:
    assert [visit.who for visit in board().present] == ["mirela", "henrik"]
    acts = [e.act for e in book().days[AT.date()].counting if e.at <= AT]
    coming = {a.who for a in acts if isinstance(a, Expected) and a.coming}
    staying_away = {a.who for a in acts if isinstance(a, Expected) and not a.coming}
    assert len(coming) >= 6
    assert staying_away == {"oren", "wei"}


def test_nothing_is_written_after_the_fixed_moment() -> None:
    assert max(book().days) == AT.date()
    assert all(e.at <= AT for day in book().days.values() for e in day.entries)


def test_eighteen_months_of_work_days_are_in_the_logbook() -> None:
    first = date(2024, 11, 2)
    work_days = plan().vehicle.work_days
    held = [d for d in (first + timedelta(n) for n in range(547)) if work_days.openings_on(d)]
    assert list(book().days) == held


def test_the_logbook_tells_of_all_that_can_happen() -> None:
    kinds = Counter(e.kind for day in book().days.values() for e in day.entries)
    # No plan of a day was taken over: this morning's is still to be made.
    assert set(kinds) == {kind.word for kind in KINDS_OF_ENTRY.values()} - {"planned"}
    lines = [e for day in book().days.values() for e in day.entries]
    assert any(e.replaces for e in lines), "a correction"
    assert any(e.written for e in lines), "a line written down later"
    acts = [e.act for e in lines]
    for kind in (TakenBack, Reopened, Extended, Released, HoldStarted, Incident):
        assert any(isinstance(act, kind) for act in acts), kind.__name__
    assert any(isinstance(a, Incident) and not a.injury for a in acts), "a near miss"


def test_every_work_day_was_closed_and_opened_by_somebody() -> None:
    for day in book().days.values():
        if day.date == AT.date():
            continue
        assert any(isinstance(e.act, SignIn) for e in day.counting), day.date
        assert any(isinstance(e.act, ClosedDay) for e in day.counting), day.date


def test_old_boards_can_be_looked_at_too() -> None:
    from crewboard.order.assess import assess

    half_way = assess(plan(), book(), datetime(2025, 8, 16, 12))
    assert 15 <= sum(s.work_done for s in half_way.standings.values()) <= 40


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.name)
def test_no_text_was_left_to_be_filled_in(path) -> None:  # type: ignore[no-untyped-def]
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"\b(TODO|TBD|FIXME|XXX|lorem|ipsum|foo|bar|example|placeholder)\b", text)
    assert "???" not in text


def test_the_files_carry_comments_and_pictures_that_are_there() -> None:
    commented = [p for p in FILES if "components" in str(p) and "#" in p.read_text("utf-8")]
    assert len(commented) >= 8
    named = {p for t in plan().tasks.values() for p in t.pictures}
    named |= {p for c in plan().components.values() for p in c.pictures}
    assert named
    assert all((SAMPLE / each).is_file() for each in named)


def test_clones_of_the_sample_merge_their_day_files_line_by_line() -> None:
    assert "days/**/*.toml merge=union" in (SAMPLE / ".gitattributes").read_text("utf-8")


def test_reading_it_twice_gives_the_same_board() -> None:
    again = Folder(SAMPLE)
    assert again.plan.tasks == plan().tasks
    assert again.logbook == book()
