"""The operations both faces call, on a real folder."""

from __future__ import annotations

import errno
import os
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.check.check import check
from crewboard.folder.disk import write
from crewboard.folder.edit.plan_edits import Add, Change, PlanEdit, Remove, Rename
from crewboard.logbook.acts import (
    Begun,
    Extended,
    Finished,
    HoursWorked,
    Noted,
    Released,
    SignIn,
)
from crewboard.order.reasons.why import why
from crewboard.workbench import Said, Workbench
from tests.a_bench import DAY, LATE, day_text, say
from tests.folder.a_vehicle import FILES, make


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    return Workbench(make(tmp_path))


def test_an_entry_is_one_new_line_at_the_end_and_old_lines_stay(bench: Workbench) -> None:
    outcome = say(bench, SignIn("tom"))
    assert outcome.kept
    assert outcome.files == (DAY,)
    assert day_text(bench).startswith(FILES[DAY])
    (line,) = day_text(bench).removeprefix(FILES[DAY]).splitlines()
    assert line == (
        f'{outcome.entries[0].id} = {{ at = 2026-05-02T15:30:00, by = "ada", '
        'kind = "sign-in", who = "tom" }'
    )


def test_of_several_acts_all_are_kept_or_none(bench: Workbench) -> None:
    said = [Said(SignIn("tom"), LATE), Said(Begun("deck/trim", ("tom",)), LATE)]
    outcome = bench.record(said, by="ada", now=LATE)
    assert not outcome.kept
    assert "Trim the boards" in outcome.refused[0].says
    assert day_text(bench) == FILES[DAY]


def test_acts_of_one_operation_see_those_before_them(bench: Workbench) -> None:
    again = [Said(SignIn("tom"), LATE), Said(SignIn("tom"), LATE)]
    assert bench.record(again, by="ada", now=LATE).refused[0].code == "here"


def test_waiting_work_may_be_begun_with_a_named_persons_reason(bench: Workbench) -> None:
    # Without its saws: those would ask for checks, too.
    assert bench.change(Change("task", "deck/trim", {"hazards": ()}), today=LATE.date()).kept
    # And not alone in the shop, for which there are checks as well.
    eve = Add("person", "eve", {"name": "Eve", "adult": True})
    assert bench.change(eve, today=LATE.date()).kept
    assert say(bench, SignIn("eve")).kept
    assert not say(bench, Begun("deck/trim", ("ada",))).kept
    nobody = bench.record(
        [Said(Begun("deck/trim", ("ada",), "a test piece"), LATE)], by="", now=LATE
    )
    assert not nobody.kept
    assert say(bench, Begun("deck/trim", ("ada",), "a test piece")).kept
    assert bench.board(LATE)["deck/trim"].state == "under way"


def test_a_correction_keeps_both_lines_and_counts_once(bench: Workbench) -> None:
    hours = say(bench, HoursWorked("tom", 2, "frame/prime")).entries[0]
    assert bench.board(LATE)["frame/prime"].hours == 2
    corrected = bench.correct(
        hours.id, HoursWorked("tom", 3.5, "frame/prime"), LATE, by="ada", now=LATE
    )
    assert corrected.kept
    assert bench.board(LATE)["frame/prime"].hours == 3.5
    assert day_text(bench).count('task = "frame/prime"') == 3  # finished, hours, hours corrected


def test_a_corrected_finish_keeps_its_hold_and_what_was_said_of_it(bench: Workbench) -> None:
    earlier = datetime(2026, 5, 2, 14)
    done = Finished("frame/prime", crew=("ada",), began=earlier)
    assert bench.correct("k7f3q2mn", done, earlier, by="ada", now=LATE).kept
    hold = bench.board(LATE).holds["k7f3q2mn"]
    assert hold.since == earlier
    assert len(hold.extended) == 1


def test_an_entry_taken_back_counts_no_more_and_can_be_taken_back_once(bench: Workbench) -> None:
    before = bench.board(LATE)["frame/scrape"].hours
    assert bench.take_back("k7f3q2mm", by="ada", now=LATE, why="wrong day").kept
    assert before == 3
    assert bench.board(LATE)["frame/scrape"].hours == 0
    assert not bench.take_back("k7f3q2mm", by="ada", now=LATE).kept
    assert not bench.take_back("nosuchid", by="ada", now=LATE).kept


def test_a_hold_is_never_made_shorter_and_let_go_early_only_with_a_reason(
    bench: Workbench,
) -> None:
    hold = bench.board(LATE).holds["k7f3q2mn"]
    assert hold.until is not None
    assert say(bench, Extended("k7f3q2mn", until=LATE, why="x")).refused[0].code == "earlier"
    assert say(bench, Extended("k7f3q2mn", until=hold.until, why="x")).refused[0].code == "earlier"
    assert say(bench, Released("k7f3q2mn")).refused[0].code == "why"
    assert say(bench, Released("k7f3q2mn", "dry to the touch, checked with a card")).kept
    assert bench.board(LATE)["frame/prime"].state == "finished"


def test_an_edit_made_outside_is_seen_and_never_overwritten(bench: Workbench) -> None:
    path = bench.folder.root / DAY
    outside = 'zz3q2mxy = { at = 2026-05-02T15:25:00, kind = "note", text = "from an editor" }\n'
    path.write_text(path.read_text() + outside)
    assert say(bench, SignIn("tom")).kept
    assert outside in day_text(bench)
    assert {v.who for v in bench.board(LATE).present} == {"ada", "tom"}


def test_a_broken_days_file_is_told_and_nothing_is_written_over_it(bench: Workbench) -> None:
    path = bench.folder.root / DAY
    path.write_text(path.read_text() + "this is not TOML\n")
    wounded = path.read_bytes()
    outcome = say(bench, SignIn("tom"))
    assert outcome.refused[0].code == "cannot-keep"
    assert f"{DAY}:12:" in outcome.refused[0].says
    assert path.read_bytes() == wounded
    assert [f.line for f in bench.faults] == [12]
    # What the day said when it was last read is kept; what it may hold back waits.
    board = bench.board(LATE)
    assert board["frame/scrape"].state == "finished"
    assert [one.file for one in board.unreadable] == [DAY]
    assert not list(board.in_state("ready"))


@pytest.mark.parametrize(
    ("error", "word"),
    [
        (errno.ENOSPC, "full"),
        (errno.EROFS, "read-only"),
        (errno.EACCES, "may not write"),
        (errno.EIO, "fault"),
    ],
)
def test_a_failing_disk_is_one_sentence_and_the_file_is_untouched(
    bench: Workbench, monkeypatch: pytest.MonkeyPatch, error: int, word: str
) -> None:
    def fails(*_args: object, **_keywords: object) -> None:
        raise OSError(error, os.strerror(error))

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", fails)
        outcome = say(bench, SignIn("tom"))
    assert outcome.refused[0].code == "disk"
    assert word in outcome.refused[0].says
    assert day_text(bench) == FILES[DAY]
    assert say(bench, SignIn("tom")).kept, "trying again works once the disk does"


def test_a_folder_of_a_newer_format_is_only_shown(tmp_path: Path) -> None:
    root = make(tmp_path)
    vehicle = root / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1", "format = 2"))
    bench = Workbench(root)
    assert bench.board(LATE)["frame/scrape"].state == "finished"
    assert say(bench, SignIn("tom")).refused[0].code == "newer"
    assert day_text(bench) == FILES[DAY]


def test_names_the_plan_does_not_know_are_refused_with_the_nearest(bench: Workbench) -> None:
    outcome = say(bench, HoursWorked("ad", 2, "frame/prine"))
    said = [str(each) for each in outcome.refused]
    assert any('"frame/prine"' in each and "frame/prime" in each for each in said)
    assert any('"ad"' in each and "ada" in each for each in said)


def test_hours_are_taken_whatever_the_task_stands_at(bench: Workbench) -> None:
    assert say(bench, HoursWorked("tom", 1, "deck/trim")).kept
    assert not say(bench, HoursWorked("tom", 25, "deck/trim")).kept
    assert not say(bench, HoursWorked("tom", 0, "deck/trim")).kept


@pytest.mark.parametrize("left", ["nothing", "an empty place"])
def test_a_drive_pulled_out_is_told_and_what_was_read_stays(bench: Workbench, left: str) -> None:
    root = bench.folder.root
    away = root.rename(root.with_name("away"))
    if left == "an empty place":  # a mount point without its drive
        root.mkdir()
    bench.refresh()
    assert bench.folder.gone
    outcome = bench.record([Said(Noted("found a bolt"), LATE)], by="", now=LATE)
    assert outcome.refused[0].says.startswith("nothing was saved: the folder is gone")
    assert "Plug the drive in again" in outcome.refused[0].mend
    assert bench.board(LATE).plan.vehicle.name == "Test van"
    assert bench.board(LATE)["frame/scrape"].state == "finished"
    assert not root.exists() or [each.name for each in root.iterdir()] in ([], [".crewboard.lock"])
    for each in root.iterdir() if root.exists() else ():
        each.unlink()
    if root.exists():
        root.rmdir()
    away.rename(root)
    bench.refresh()
    assert not bench.folder.gone
    assert bench.faults == []
    assert say(bench, SignIn("tom")).kept


def test_an_entry_of_a_day_that_is_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    outside = tmp_path / "outside.toml"
    outside.write_text(FILES[DAY])
    bench = Workbench(make(tmp_path / "van"))
    (bench.folder.root / DAY).unlink()
    (bench.folder.root / DAY).symlink_to(outside)
    bench.refresh()
    assert [str(fault) for fault in bench.faults] == [
        f"{DAY}:1:1: the file cannot be read: it is a link that leads out of the folder"
    ]
    outcome = say(bench, SignIn("tom"))
    assert "the path leads out of the folder" in outcome.refused[0].says
    assert outside.read_text() == FILES[DAY]


def test_the_folder_and_files_in_it_may_be_links_and_stay_links(tmp_path: Path) -> None:
    """Links within the folder are followed; a write changes what they lead to."""
    real = make(tmp_path / "van")
    (tmp_path / "link").symlink_to(real)
    for path in (DAY, "components/frame.toml"):
        moved = real / "kept" / Path(path).name
        moved.parent.mkdir(exist_ok=True)
        (real / path).rename(moved)
        (real / path).symlink_to(moved)
    bench = Workbench(tmp_path / "link")
    assert bench.faults == []
    assert say(bench, SignIn("tom")).kept
    assert bench.change(Change("task", "frame/scrape", {"title": "Sand"}), today=LATE.date()).kept
    for path in (DAY, "components/frame.toml"):
        assert (real / path).is_symlink()
    assert "sign-in" in (real / "kept/2026-05-02.toml").read_text().splitlines()[-1]
    assert '"Sand"' in (real / "kept/frame.toml").read_text()
    assert (tmp_path / "link").is_symlink()


@pytest.mark.parametrize("end", ["\r\n", "\n"])
@pytest.mark.parametrize("last", [True, False], ids=["last line ended", "last line open"])
def test_line_ends_stay_through_every_way_of_writing(tmp_path: Path, end: str, last: bool) -> None:
    files = {
        path: (text if last else text.rstrip("\n")).replace("\n", end).encode()
        for path, text in FILES.items()
    }
    bench = Workbench(make(tmp_path / "van", files))
    note = say(bench, Noted("one")).entries[0]
    assert bench.correct(note.id, Noted("two"), LATE, by="ada", now=LATE).kept
    assert bench.take_back("k7f3q2mp", by="ada", now=LATE).kept
    assert bench.undo(by="ada", now=LATE).kept
    changes: list[PlanEdit] = [
        Change("task", "frame/scrape", {"title": "Sand", "hours": [1.0, 2.0, 3.0]}),
        Add("task", "deck/oil", {"title": "Oil the boards"}),
        Change("person", "ada", {"note": "keys"}),
        Add("supply", "oil", {"name": "Oil"}),
        Change("vehicle", "", {"currency": "EUR"}),
        Rename("task", "deck/lay", "put"),
        Remove("task", "deck/trim"),
    ]
    for change in changes:
        outcome = bench.change(change, today=LATE.date())
        assert outcome.kept, (change, outcome)
    for path in files:
        data = (bench.folder.root / path).read_bytes()
        assert data.count(b"\n") == data.count(end.encode()), path
    day = (bench.folder.root / DAY).read_bytes()
    assert day.startswith(files[DAY])
    while bench.done:
        assert bench.undo(by="ada", now=LATE).kept
    for path, data in files.items():
        if path != DAY:
            assert (bench.folder.root / path).read_bytes() == data


def test_copies_are_kept_for_the_days_the_crew_sets(tmp_path: Path) -> None:
    root = make(tmp_path)
    vehicle = root / "vehicle.toml"
    vehicle.write_text("copies_days = 3\n" + vehicle.read_text())
    bench = Workbench(root)
    for day in range(1, 9):
        now = datetime(2026, 6, day, 10)
        assert bench.record([Said(Noted("x"), now)], by="ada", now=now).kept
        assert bench.record([Said(Noted("y"), now)], by="ada", now=now).kept
    names = sorted(p.name for p in (root / ".crewboard/copies").iterdir())
    assert names == [f"2026-06-{day:02}.zip" for day in (5, 6, 7, 8)]
    vehicle.write_text(vehicle.read_text().replace("copies_days = 3", "copies_days = 0"))
    late = datetime(2026, 6, 20)
    assert bench.record([Said(Noted("z"), late)], by="ada", now=late).kept
    assert sorted(p.name for p in (root / ".crewboard/copies").iterdir()) == names


def test_a_line_corrected_again_follows_its_last_wording(bench: Workbench) -> None:
    entry = say(bench, SignIn("tom")).entries[0]
    for minute in (1, 2):
        at = LATE.replace(minute=minute)
        outcome = bench.correct(entry.id, SignIn("tom", f"at {minute}"), at, by="ada", now=LATE)
        assert outcome.kept, outcome.refused
    assert check(bench.folder).mistakes == ()
    assert [v.since for v in bench.board(LATE).present if v.who == "tom"] == [at]
    assert bench.take_back(entry.id, by="ada", now=LATE).kept
    assert "tom" not in {v.who for v in bench.board(LATE).present}


@pytest.mark.parametrize("saves", [1, 99])
def test_what_an_editor_saves_between_reading_and_writing_is_never_written_over(
    bench: Workbench, monkeypatch: pytest.MonkeyPatch, saves: int
) -> None:
    """The entry goes to the newer text; an editor that never rests gets its way and is named."""
    path, outside = bench.folder.root / DAY, list[str]()
    really = write.write_part

    def while_the_disk_takes_our_bytes(
        folder: str, data: bytes, *, in_place_of: str = "", run: bool = True
    ) -> str:
        if in_place_of == os.path.realpath(path) and len(outside) < saves:
            outside.append(f"# saved by an editor, {len(outside)}\n")
            path.write_text(path.read_text() + outside[-1])
        return really(folder, data, in_place_of=in_place_of, run=run)

    monkeypatch.setattr(write, "write_part", while_the_disk_takes_our_bytes)
    outcome = say(bench, SignIn("tom"))
    text = day_text(bench)
    assert text.startswith(FILES[DAY] + "".join(outside))
    assert all(text.count(line) == 1 for line in outside)
    assert outcome.kept == (saves == 1)
    assert text.count('kind = "sign-in", who = "tom"') == outcome.kept
    if not outcome.kept:
        assert outcome.refused[0].code == "changed"
        assert f"{DAY} is being changed by another program" in outcome.refused[0].says
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_nothing_behind_a_component_file_that_cannot_be_read_seems_ready(
    bench: Workbench,
) -> None:
    path = bench.folder.root / "components/frame.toml"
    path.write_text(path.read_text() + "broken [\n")
    bench.refresh()
    assert [fault.file for fault in bench.faults] == ["components/frame.toml"]
    board = bench.board(LATE)
    assert board["deck/lay"].unreadable == ("components/frame.toml",)
    assert board["deck/lay"].state == "waiting"  # as it stood when the file was last read
    assert Workbench(bench.folder.root).board(LATE)["deck/lay"].state == "waiting"
    told = [reason.says for reason in why(board, "deck/lay")]
    assert any("components/frame.toml cannot be read" in says for says in told)
