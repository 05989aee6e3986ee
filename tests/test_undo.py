"""What was done is undone step by step; an edit of several files is made whole or not at all."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from crewboard.folder.check.check import check
from crewboard.folder.disk import write
from crewboard.folder.edit.plan_edits import Add, Change, Remove, Rename
from crewboard.logbook.acts import (
    HoursWorked,
    Noted,
    Reading,
    SignIn,
)
from crewboard.workbench import Workbench
from tests.a_bench import DAY, LATE, day_text, say
from tests.folder.a_vehicle import FILES, make


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    return Workbench(make(tmp_path))


def test_undo_goes_back_step_by_step_and_leaves_a_trace(bench: Workbench) -> None:
    say(bench, SignIn("tom"))
    say(bench, HoursWorked("tom", 2, "frame/prime"))
    assert bench.undo(by="tom", now=LATE).kept
    assert bench.board(LATE)["frame/prime"].hours == 0
    assert {v.who for v in bench.board(LATE).present} == {"ada", "tom"}
    assert bench.undo(by="tom", now=LATE).kept
    assert {v.who for v in bench.board(LATE).present} == {"ada"}
    assert bench.undo(by="tom", now=LATE).refused[0].code == "nothing"
    assert day_text(bench).count('kind = "taken back"') == 2


def test_whatever_was_done_is_undone_and_the_logbook_shows_it(bench: Workbench) -> None:
    before = {p: p.read_bytes() for p in bench.folder.root.rglob("*.toml")}
    say(bench, Noted("one"))
    bench.correct("k7f3q2mq", Reading(13.0, 60.0), LATE, by="ada", now=LATE)
    bench.change(Add("component", "roof", {"name": "Roof"}), today=LATE.date())
    bench.take_back("k7f3q2mr", by="ada", now=LATE)
    bench.change(Rename("component", "roof", "top"), today=LATE.date())
    bench.change(Remove("component", "top"), today=LATE.date())
    assert len(bench.done) == 6
    board = Workbench(bench.folder.root).board(LATE)
    while bench.done:
        assert bench.undo(by="tom", now=LATE).kept
    counting = bench.logbook.days[LATE.date()].counting
    untouched = Workbench(make(bench.folder.root.parent / "untouched")).logbook
    assert counting == untouched.days[LATE.date()].counting
    assert board.plan == bench.board(LATE).plan
    after = {p: p.read_bytes() for p in bench.folder.root.rglob("*.toml")}
    assert {p: d for p, d in after.items() if p.name != "2026-05-02.toml"} == {
        p: d for p, d in before.items() if p.name != "2026-05-02.toml"
    }
    assert day_text(bench).startswith(FILES[DAY])
    assert day_text(bench).count('why = "undone"') == 3


def test_of_two_equal_steps_undo_goes_back_over_one(bench: Workbench) -> None:
    """The same change of the plan made, unmade and made again: three steps, two of them alike."""
    was = bench.plan.tasks["deck/trim"].title
    for title in ("Cut it back", was, "Cut it back"):
        assert bench.change(Change("task", "deck/trim", {"title": title})).kept
    for before in (was, "Cut it back", was):
        assert bench.undo(by="ada", now=LATE).kept
        assert bench.plan.tasks["deck/trim"].title == before
    assert bench.undo(by="ada", now=LATE).refused


def test_a_plan_edit_is_not_undone_over_what_somebody_changed_since(bench: Workbench) -> None:
    bench.change(Change("task", "frame/scrape", {"title": "Sand"}), today=LATE.date())
    path = bench.folder.root / "components/frame.toml"
    path.write_text(path.read_text() + "# from an editor\n")
    outcome = bench.undo(by="ada", now=LATE)
    assert "components/frame.toml was changed since" in outcome.refused[0].says
    assert path.read_text().endswith("# from an editor\n")
    assert bench.done, "it can still be undone once the file is as it was"


@pytest.mark.parametrize("broken", [1, 2], ids=["the second file", "the third file"])
def test_where_one_file_of_an_edit_cannot_be_written_the_others_are_put_back(
    bench: Workbench, broken: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A new name for a supply that two components need is an edit of three files."""
    assert bench.change(Change("task", "frame/prime", {"supplies": ("oak",)})).kept
    edit = Rename("supply", "oak", "oak-boards")
    (bench.folder.root / DAY).write_text("date = 2026-05-02\n\n[entries]\n")
    before = {p: p.read_bytes() for p in bench.folder.root.rglob("*.toml")}
    real, calls = write._put_in_place, list[str]()

    def full_disk(part: str, target: str, *, new: bool) -> None:
        calls.append(target)
        if len(calls) == broken + 1:
            raise OSError(errno.ENOSPC, "no space left")
        real(part, target, new=new)

    monkeypatch.setattr(write, "_put_in_place", full_disk)
    outcome = bench.change(edit)
    assert [refusal.code for refusal in outcome.refused] == ["disk"]
    assert len(calls) == broken + 1 + broken, "each file that was written is put back"
    assert {p: p.read_bytes() for p in bench.folder.root.rglob("*.toml")} == before
    assert "oak" in bench.plan.supplies
    assert bench.change(edit).kept, "and trying again does it"


@pytest.mark.parametrize("saves", [1, 99])
def test_what_an_editor_saves_in_one_file_of_an_edit_puts_the_others_back_first(
    bench: Workbench, monkeypatch: pytest.MonkeyPatch, saves: int
) -> None:
    """Then all of them are edited anew, or, where the editor never rests, none."""
    assert bench.change(Change("task", "frame/prime", {"supplies": ("oak",)})).kept
    before = {p: p.read_bytes() for p in bench.folder.root.rglob("*.toml")}
    really, written, outside = write.write_part, list[str](), list[str]()

    def while_the_disk_takes_the_second(
        folder: str, data: bytes, *, in_place_of: str, run: bool
    ) -> str:
        written.append(in_place_of)
        if len(written) > 1 and in_place_of == written[1] and len(outside) < saves:
            outside.append(f"# saved by an editor, {len(outside)}\n")
            path = Path(in_place_of)
            path.write_text(path.read_text() + outside[-1])
        return really(folder, data, in_place_of=in_place_of, run=run)

    monkeypatch.setattr(write, "write_part", while_the_disk_takes_the_second)
    outcome = bench.change(Rename("supply", "oak", "oak-boards"))
    texts = {p: p.read_text() for p in before}
    assert outcome.kept == (saves == 1), outcome.refused
    assert all(line in texts[Path(written[1])] for line in outside)
    if outcome.kept:
        assert len(outcome.files) == 3
        assert check(bench.folder).mistakes == ()
    else:
        assert [p for p in before if p.read_bytes() != before[p]] == [Path(written[1])]
