"""Facts of the trade, on the sample's plan. All are common practice, no source."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from crewboard.logbook.acts import Finished, Reading, Released
from crewboard.order.assess import assess
from crewboard.order.reasons.why import why
from tests.sample.marigold import order, plan, when, with_finished, work_of, written

FIRST_BOARD = "deck/first-board"
BEFORE_DECK = ("frame", "wiring", "air-piping")


def states(finished: set[str]) -> dict[str, str]:
    """Task -> state, where exactly these tasks were finished long ago."""
    now = datetime(2026, 5, 2, 9)
    board = assess(with_finished(finished), written(), now, order())
    return {task: standing.state for task, standing in board.standings.items()}


# Order: the frame, the wiring and the air piping before the deck. Common practice, no source.


def test_the_deck_is_ready_once_frame_wiring_and_air_piping_are_finished() -> None:
    finished = order().all_before(FIRST_BOARD)
    assert states(finished)[FIRST_BOARD] == "ready"


@pytest.mark.parametrize("missing", BEFORE_DECK)
def test_the_deck_waits_while_one_of_frame_wiring_and_air_piping_is_open(missing: str) -> None:
    finished = order().all_before(FIRST_BOARD) - work_of(missing)
    assert states(finished)[FIRST_BOARD] == "waiting"


@pytest.mark.parametrize("task", sorted(work_of(*BEFORE_DECK)))
def test_no_single_task_of_them_may_be_left_over(task: str) -> None:
    finished = order().all_before(FIRST_BOARD) - {task}
    standing = states(finished)
    assert all(standing[deck] == "waiting" for deck in work_of("deck"))


# Order: epoxy filling before a waterproofing coat.
# Common practice, no source.


@pytest.mark.parametrize(
    ("filling", "coat"),
    [("body-frame/epoxy-fill", "body-frame/seal-coat"), ("deck/fill-screws", "deck/coat-deck")],
)
def test_the_sealing_coat_waits_for_the_epoxy_and_for_its_cure(filling: str, coat: str) -> None:
    earlier = order().all_before(filling)
    assert states(earlier)[coat] == "waiting"
    filled = datetime(2026, 5, 2, 12)
    of = with_finished(earlier)
    curing = when(datetime(2026, 5, 4, 9), (filled, Finished(filling)), of=of)
    assert curing[coat].state == "waiting"
    read = (filled, Reading(celsius=15.0, humidity=60.0))
    cured = when(datetime(2026, 5, 5, 12), (filled, Finished(filling)), read, of=of)
    assert cured[coat].state == "ready"


def test_every_sealing_coat_on_filled_wood_stands_behind_the_filling() -> None:
    for task in plan().tasks.values():
        if "epoxy" in task.hazards:
            behind = order().all_behind(task.id)
            coats = {
                t.id
                for t in plan().tasks.values()
                if "waterproofer" in t.supplies and t.component == task.component
            }
            assert coats, task.id
            assert coats <= behind


# A bent piece stays on its form about a month; more are bent than the roof needs.
# Common practice, no source.


def test_an_arch_bent_today_is_due_for_a_look_in_a_month() -> None:
    today = datetime(2026, 5, 2, 15, 20)
    of = with_finished(order().all_before("arches/bend/arches/7"))
    bent = (today, Finished("arches/bend/arches/7"))
    hold = when(datetime(2026, 6, 2, 15, 19), bent, of=of).holds["e0"]
    assert hold.stage == "running"
    assert hold.until == datetime(2026, 6, 2, 15, 20)
    assert when(datetime(2026, 6, 2, 15, 20), bent, of=of).holds["e0"].stage == "due"


def test_the_roof_boards_wait_for_the_release_of_the_seventh_arch() -> None:
    last, boards = "arches/bend/arches/7", "roof/lay-roof-boards"
    its_own, of_the_spare = "arches/true-up/arches/7", "arches/true-up/arches/8"
    of = with_finished(order().all_before(boards) - {last, its_own, of_the_spare})
    bent = (datetime(2026, 5, 2, 15, 20), Finished(last))
    long_after = datetime(2026, 8, 1, 9)
    unlooked = when(long_after, bent, of=of)
    assert unlooked[its_own].state == "on hold"
    assert unlooked[boards].state == "waiting"
    looked = (long_after, Released("e0", "off the form, held its curve"))
    assert when(long_after, bent, looked, of=of)[its_own].state == "ready"
    assert last in {reason.id for reason in why(unlooked, boards)} | {
        hold.task for hold in unlooked.stopping()
    }


@pytest.mark.parametrize(
    ("bent", "due"),
    [
        (datetime(2026, 1, 31, 15), datetime(2026, 2, 28, 15)),
        (datetime(2028, 1, 31, 15), datetime(2028, 2, 29, 15)),
    ],
)
def test_an_arch_bent_on_the_last_of_january_is_due_on_the_last_of_february(
    bent: datetime, due: datetime
) -> None:
    hold = when(bent, (bent, Finished("arches/bend/arches/3"))).holds["e0"]
    assert hold.until == due


def test_every_bend_asks_for_a_month_and_a_look() -> None:
    bends = [t for t in plan().tasks.values() if t.hold and t.hold.kind == "bend set"]
    assert len(bends) == 1 + 8  # the test piece and every arch
    for task in bends:
        assert task.hold is not None
        assert (str(task.hold.lasts), task.hold.release) == ("1 month", "look")


def test_one_more_arch_is_bent_than_the_roof_needs() -> None:
    bend = plan().series["arches/bend"]
    assert (len(bend.members), bend.places) == (8, 7)
    assert plan().tasks["arches/cut-ends"].enough == {"arches/true-up": 7}
    assert "seven arches" in plan().tasks["roof/set-arches"].title.lower()


# Canvas is tacked to the roof boards and a trim covers the tacks. Common practice, no source.


def test_the_canvas_waits_for_the_roof_boards_and_the_trim_for_the_canvas() -> None:
    boards, canvas, trim = work_of("roof/boarding"), work_of("roof/canvas"), work_of("roof/trim")
    for task in canvas:
        assert boards <= order().all_before(task)
    for task in trim:
        assert canvas | boards <= order().all_before(task)
    first = states(order().all_before("roof/bed-coat"))
    assert first["roof/bed-coat"] == "ready"
    assert all(first[task] == "waiting" for task in trim)


# The hidden back of a board is coated before its face. Common practice, no source.


@pytest.mark.parametrize(
    ("hidden", "shown"),
    [
        ("frame/prime-hidden", "frame/prime-shown"),
        ("panels/coat-backs", "panels/coat-faces"),
        ("boards/coat-roof-hidden", "boards/coat-roof-shown"),
        ("boards/coat-deck-hidden", "deck/coat-deck"),
        ("arches/coat-hidden", "roof/lay-roof-boards"),
    ],
)
def test_hidden_faces_are_coated_before_shown_ones(hidden: str, shown: str) -> None:
    assert hidden in order().all_before(shown)
    assert (
        states(order().all_before(shown) - {hidden} - order().all_behind(hidden))[shown]
        == "waiting"
    )


def test_the_back_of_a_panel_must_be_dry_before_its_face_is_coated() -> None:
    of = with_finished(order().all_before("panels/coat-faces") - {"panels/coat-backs"})
    coated = (datetime(2026, 5, 2, 15), Finished("panels/coat-backs"))
    assert when(datetime(2026, 5, 3, 9), coated, of=of)["panels/coat-faces"].state == "waiting"
    read = [(datetime(2026, 5, day, 9), Reading(celsius=15.0, humidity=60.0)) for day in (2, 3, 4)]
    dry = when(datetime(2026, 5, 4, 15), coated, *read, of=of)
    assert dry["panels/coat-faces"].state == "ready"


# Rods that hold the body to the frame are reached before the boards over them go on; surplus length
# is cut only when everything is in place. Common practice, no source.


def test_the_rods_are_reached_before_boards_and_panels_go_on() -> None:
    for over_them in (*work_of("deck"), "panels/fit-panels"):
        assert work_of("rods") <= order().all_before(over_them)


def test_a_lead_has_looked_at_the_rods_before_the_first_board() -> None:
    of = with_finished(order().all_before(FIRST_BOARD) - {"rods/refit-rods"})
    refitted = (datetime(2026, 5, 2, 15), Finished("rods/refit-rods"))
    assert when(datetime(2026, 9, 5, 9), refitted, of=of)[FIRST_BOARD].state == "waiting"
    seen = (datetime(2026, 9, 5, 9), Released("e0", "every nut looked at"))
    assert when(datetime(2026, 9, 5, 9), refitted, seen, of=of)[FIRST_BOARD].state == "ready"


def test_the_deck_is_cut_to_length_after_every_board_and_hatch_is_in() -> None:
    assert {"deck/lay-boards", "deck/hatches"} <= order().all_before("deck/trim-ends")


# Photographs to scale and numbers come before the dismantling, a record of the paint before it is
# matched. Common practice, no source.


def test_photographs_to_scale_and_numbers_come_before_anything_is_taken_off() -> None:
    for task in ("panels/take-off", "windows/take-out", "doors/rear-take-apart", "frame/scrape"):
        earlier = order().all_before(task)
        assert {"survey/square-photographs", "survey/number-parts"} <= earlier, task


def test_paint_is_recorded_and_patches_are_kept_before_it_is_matched() -> None:
    earlier = order().all_before("paint/match-shade")
    assert {"survey/paint-layers", "survey/sample-patches"} <= earlier


def test_mouldings_are_glued_in_clamps_and_looked_at() -> None:
    for name in ("glue-first", "glue-second", "glue-rear"):
        hold = plan().tasks[f"mouldings/{name}"].hold
        assert hold is not None
        assert (hold.kind, hold.release) == ("clamp", "look")
        assert hold.source


def test_no_coat_dries_by_a_time_that_nobody_vouches_for() -> None:
    """No published recoat time was found, so each time names where it comes from, or is a soak."""
    for task in plan().tasks.values():
        if task.hold and task.hold.lasts and task.hold.kind != "soak":
            assert task.hold.source, task.id


def test_the_story_is_told_for_the_eighteen_months_asked_for() -> None:
    since = plan().vehicle.work_days.since
    assert since == date(2024, 11, 2)
