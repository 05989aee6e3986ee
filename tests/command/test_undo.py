"""`crewboard undo`: what somebody wrote last is taken back, from one call to the next."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.command.calling import SAMPLE, Shell


def counting(call: Shell, folder: Path) -> list[str]:
    """What the logbook's lines of 2 May say that still count, but for those that take back."""
    lines = call("log", folder, "--day", "2026-05-02", "--json").form["entries"]
    return sorted(
        f"{e['kind']} {e.get('who') or e.get('text') or e.get('task') or ''}"
        for e in lines
        if e["counts"] and e["kind"] != "taken back"
    )


def at(time: str, by: str = "ada") -> tuple[str, ...]:
    return ("--at", f"2026-05-02T{time}", "--by", by)


def test_undo_goes_back_operation_by_operation_from_one_call_to_the_next(
    call: Shell, van: Path
) -> None:
    before = counting(call, van)
    assert call("sign-in", van, "tom", *at("15:10")).code == 0
    assert call("note", van, "first", *at("15:20")).code == 0
    assert call("hours", van, "tom", "2", *at("15:30")).code == 0
    assert call("undo", van, "--by", "ada").code == 0
    assert counting(call, van) == sorted([*before, "sign-in tom", "note first"])
    assert call("undo", van, "--by", "ada").code == 0
    assert call("undo", van, "--by", "ada").code == 0
    assert counting(call, van) == before


def test_what_was_written_together_is_undone_together(call: Shell, van: Path) -> None:
    before = counting(call, van)
    assert call("sign-out", van, "ada", *at("15:00")).code == 0
    assert call("sign-in", van, "ada", "tom", *at("15:10")).code == 0
    ended = call("undo", van, "--by", "ada")
    assert len(ended.out.splitlines()) == 2
    assert counting(call, van) == sorted([*before, "sign-out ada"])


def test_undo_is_of_ones_own_lines(call: Shell, van: Path) -> None:
    assert call("note", van, "of ada", *at("15:10")).code == 0
    assert call("note", van, "of tom", *at("15:20", "tom")).code == 0
    assert call("undo", van, "--by", "ada").code == 0
    assert "note of tom" in counting(call, van)
    assert "note of ada" not in counting(call, van)


def test_an_undone_correction_leaves_the_first_wording(call: Shell, van: Path) -> None:
    note = call("note", van, "two boards", *at("15:10"), "--json").form["entries"][0]["id"]
    assert call("correct", van, note, "--set", "text=three boards", "--by", "ada").code == 0
    assert "note three boards" in counting(call, van)
    assert call("undo", van, "--by", "ada").code == 0
    assert "note two boards" in counting(call, van)


def test_where_there_is_nothing_of_ones_own_undo_says_so(call: Shell, van: Path) -> None:
    ended = call("undo", van, "--by", "tom")
    assert ended.code == 1
    assert ended.err == "there is nothing to undo\n"


@pytest.mark.parametrize("calls", [1, 2])
def test_in_an_example_whose_clock_stands_still_calls_are_told_apart_by_their_kind(
    call: Shell, tmp_path: Path, calls: int
) -> None:
    shutil.copytree(SAMPLE, tmp_path / "sample")
    folder = tmp_path / "sample"
    before = counting(call, folder)
    assert call("sign-in", folder, "aiko", "kwame", "--by", "mirela").code == 0
    assert call("note", folder, "x", "--by", "mirela").code == 0
    for _ in range(calls):
        assert call("undo", folder, "--by", "mirela").code == 0
    kept = ["sign-in aiko", "sign-in kwame"] if calls == 1 else []
    assert counting(call, folder) == sorted([*before, *kept])


def test_in_an_example_the_closing_of_the_day_is_undone_with_its_sign_outs(
    call: Shell, tmp_path: Path
) -> None:
    shutil.copytree(SAMPLE, tmp_path / "sample")
    folder = tmp_path / "sample"
    before = counting(call, folder)
    assert call("close-day", folder, "--despite", "no heating", "--by", "mirela").code == 0
    assert call("undo", folder, "--by", "mirela").code == 0
    assert counting(call, folder) == before
