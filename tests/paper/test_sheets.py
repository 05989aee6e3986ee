"""What must stand on each printed sheet, in words and on its page."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.left_alone import left_alone
from crewboard.order.safety.checks import checks_of, checks_of_the_day
from crewboard.paper.reports import forms_of, made
from crewboard.telling.morning_parts import MorningRow
from crewboard.telling.morning_rows import PAGE, millimetres, morning_rows
from crewboard.telling.report import Request
from tests.command.calling import SAMPLE
from tests.terminal.shop import make_shop

MORNING = datetime(2026, 5, 2, 9, 0)


def board_of(root: Path, at: datetime = MORNING) -> Board:
    folder = Folder(root)
    return assess(folder.plan, folder.logbook, at)


@pytest.fixture(scope="module")
def sample() -> Board:
    return board_of(SAMPLE)


def text_of(name: str, board: Board, **narrowed: str) -> str:
    made_so = forms_of(made(name, Request(board, **narrowed)))  # type: ignore[arg-type]
    return " ".join(made_so["text"](2000).split())


def page_of(name: str, board: Board, **narrowed: str) -> str:
    return forms_of(made(name, Request(board, **narrowed)))["html"](0)  # type: ignore[arg-type]


def in_part(rows: list[MorningRow], part: str) -> list[MorningRow]:
    return [row for row in rows if row.part == part]


# --- the morning sheet ----------------------------------------------------------------------------


def test_the_morning_sheet_has_all_that_must_be_left_alone_or_looked_at(sample: Board) -> None:
    rows = morning_rows(sample)
    named = {row.about for row in rows}
    held = [entry.hold for entry in left_alone(sample) if entry.hold is not None]
    assert len(held) > 4
    assert {hold.id for hold in held} <= named
    text = text_of("morning", sample)
    assert "until 13:48: Rear crate doors: glue is setting" in text
    assert 'until Tue: "Coat the frame with chassis black" (Chassis frame): curing' in text
    assert "Glue up the moulding for the right side, in clamps since Sat 25 Apr 13:50" in text


def test_the_morning_sheet_has_the_first_jobs_with_room_for_names_hours_and_times(
    sample: Board,
) -> None:
    jobs = in_part(morning_rows(sample), "first jobs")
    able = [job for job in what_goes_first(sample) if not job.against]
    shown = [row.task for row in jobs if row.task]
    assert len(shown) >= 3
    assert shown == [job.task for job in able[: len(shown)]]
    assert jobs[-1].text == f"+{len(able) - len(shown)} more can be done: on the board"
    keys = [blank.key for blank in jobs[0].blanks]
    assert keys == ["begun", "on it 1", "on it 2", "on it 3", "on it 4", "finished", "at"]


def test_the_morning_sheet_has_the_opening_checks_in_their_words(sample: Board) -> None:
    checks = in_part(morning_rows(sample), "checks")
    opening = [asked.text for asked in checks_of_the_day(sample, "before")]
    assert [row.text for row in checks[: len(opening)]] == opening
    assert checks[1].blanks[0].key == "named"
    assert all(re.fullmatch(r"[a-z-]+/[a-z-]+", row.about) for row in checks if row.blanks)
    assert "the-shop" not in text_of("morning", sample)


def test_the_checks_of_a_job_stand_on_the_sheet_all_or_counted(sample: Board) -> None:
    rows = morning_rows(sample)
    for job in in_part(rows, "first jobs"):
        before = checks_of(sample, job.task, when="before") if job.task else []
        asked = [check.text for check in before if check.open]
        shown = [r.text for r in in_part(rows, "checks") if job.task and r.task == job.task]
        counted = f"{len(asked)} before job {job.first.rstrip('.')}"
        more = " ".join(row.text for row in rows if row.left_out)
        assert shown == asked or counted in more, job.text


def test_the_morning_sheet_has_whom_to_call_and_who_comes(sample: Board) -> None:
    text = text_of("morning", sample)
    assert "call: 112" in text
    assert "first-aider: ____" in text
    people = in_part(morning_rows(sample), "who is here")
    assert [row.text for row in people][:2] == ["Mirela Vandrey", "Henrik Mbalani"]
    assert [row.text for row in people][-2:] == ["", ""]


def shop_of(root: Path, holds: int, people: int = 10) -> Board:
    """A shop with so many holds that run, and so many people who said that they come."""
    tasks = "\n".join(
        f'[tasks.t{n}]\ntitle = "Glue joint {n} of the long frame side behind the wheel arch"\n'
        'hold = { kind = "glue", lasts = "3 days" }\n'
        for n in range(holds)
    )
    make_shop(root, components={"joints": f'name = "Joints"\n\n{tasks}'})
    crew = "\n".join(
        f'[people.p{n}]\nname = "Bartholomew Featherstonehaugh {n}"\nadult = true\n'
        for n in range(people)
    )
    with (root / "crew.toml").open("a") as file:
        file.write("\n" + crew)
    (root / "days/2026").mkdir(parents=True)
    lines = [
        f"h{n} = {{ at = 2026-05-01T{8 + n % 10:02}:00:00, "
        f'kind = "finished", task = "joints/t{n}" }}'
        for n in range(holds)
    ]
    (root / "days/2026/2026-05-01.toml").write_text(
        "date = 2026-05-01\n\n[entries]\n" + "\n".join(lines) + "\n"
    )
    return board_of(root)


def test_forty_holds_and_sixty_people_are_counted_where_the_page_has_no_room(
    tmp_path: Path,
) -> None:
    rows = morning_rows(shop_of(tmp_path / "van", 40, 60))
    alone = in_part(rows, "leave alone")
    shown = len([row for row in alone if row.about])
    assert shown >= 6
    assert alone[-1].text == f"+{40 - shown} more on the tags, and under Holds"
    people = in_part(rows, "who is here")
    named = [row for row in people if row.about]
    assert people[-1].text == f"+{70 - len(named)} more expected: on the sign-in sheet"


@pytest.mark.parametrize("holds", [0, 5, 40])
@pytest.mark.parametrize("people", [0, 8, 60])
@pytest.mark.parametrize("title", ["Glue it", "Glue " + "the long joint " * 12, "x" * 300])
def test_the_morning_sheet_never_takes_more_than_its_page(
    tmp_path: Path, holds: int, people: int, title: str
) -> None:
    root = tmp_path / "van"
    shop_of(root, holds, people)
    joints = root / "components/joints.toml"
    joints.write_text(joints.read_text().replace("Glue joint", title))
    for at in (MORNING, MORNING + timedelta(days=4)):
        rows = morning_rows(board_of(root, at), taken=34)
        assert millimetres(rows) <= PAGE - 34
        assert in_part(rows, "first jobs")


def test_everybody_has_a_line_on_the_sign_in_sheet(sample: Board, tmp_path: Path) -> None:
    board = shop_of(tmp_path / "van", 1, 60)
    text = text_of("sign-in", board)
    today = [one for one in board.plan.crew.values() if one.with_us_on(board.at.date())]
    assert len(today) == 70
    assert all(volunteer.name in text for volunteer in today)
    named = text_of("sign-in", sample)
    assert named.index("Mirela Vandrey") < named.index("The others of the crew")
    assert named.index("Wei Torralve") > named.index("The others of the crew")  # is not coming


def test_a_sheet_of_an_empty_plan_can_be_filled_in_all_the_same(tmp_path: Path) -> None:
    (tmp_path / "vehicle.toml").write_text('name = "Van"\n')
    board = board_of(tmp_path)
    rows = morning_rows(board)
    assert in_part(rows, "first jobs")[0].text == "another job"
    assert in_part(rows, "who is here")
    for name in ("morning", "checks", "talk", "tags", "piece-tags", "shelf-list", "day"):
        assert "Van" in page_of(name, board), name


# --- checks, tags, pieces -------------------------------------------------------------------------


def test_the_check_sheet_has_every_check_to_open_and_to_close_the_shop(sample: Board) -> None:
    text = text_of("checks", sample)
    for asked in checks_of_the_day(sample):
        assert " ".join(asked.text.split()) in text


def test_there_is_a_tag_for_each_thing_to_leave_alone(sample: Board) -> None:
    text = text_of("tags", sample)
    assert text.count("DO NOT TOUCH:") == len(left_alone(sample))
    assert (
        "DO NOT TOUCH: Rear crate doors until: Sat 2 May 2026 13:48 "
        "look at it on: Sat 2 May 2026" in text
    )
    assert "why: glue is setting since Sat 25 Apr 2026 13:48" in text
    assert "ask: Luis Narvekar, or " in text
    assert "awaiting delivery" not in text


def test_no_tags_is_said(tmp_path: Path) -> None:
    board = board_of(make_shop(tmp_path / "van"), MORNING - timedelta(days=300))
    assert "Nothing has to be left alone now" in page_of("tags", board)


def test_a_tag_for_a_piece_has_its_id_what_it_is_and_a_line_for_the_shelf(sample: Board) -> None:
    text = text_of("piece-tags", sample, component="windows")
    assert "windows/panes/1: Pane 1 what: window pane, safety glass from: Windows" in text
    pieces = [p for p in sample.plan.pieces.values() if p.id.startswith("windows/")]
    assert text.count("to shelf: ______") == len(pieces)
    assert "arches/" not in text
    kept = next(piece for piece in pieces if piece.keep)
    assert f"{kept.id}: {kept.name}" in text
    assert "keep: FOR EVER" in text
    rows = text_of("shelf-list", sample, component="windows")
    assert all(piece.id in rows for piece in pieces)


def test_every_page_has_vehicle_and_day_on_top_and_page_numbers(sample: Board) -> None:
    for name in ("day", "checks", "tags", "piece-tags", "shelf-list", "incidents", "hours"):
        page = page_of(name, sample)
        assert "<span>Marigold</span><span>Sat 2 May 2026</span>" in page, name
        assert "counter(page)" in page
        assert "size:" not in page.partition("@page")[2].partition("}")[0]
