"""Whatever happens to any one file of any folder: nothing becomes ready, no hold shorter, no check
signed, no date earlier by it. With CREWBOARD_LONG=1 as many folders as CREWBOARD_FOLDERS says.
"""

from __future__ import annotations

import os
import shutil
from collections import Counter
from pathlib import Path
from random import Random

import pytest

from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.may.ask import against_beginning
from crewboard.order.safety.checks import checks_of
from crewboard.order.unreadable import not_to_be_told
from crewboard.workbench import Workbench
from tests.folder.random_folder import NOW, RandomFolder
from tests.long_form import LONG

FOLDERS = int(os.environ.get("CREWBOARD_FOLDERS", "2000")) if LONG else 12
SEED = int(os.environ.get("CREWBOARD_SEED", "1"))
WAYS = ("broken", "garbage", "empty", "cut off", "gone", "a folder", "a link to nowhere")


def damage(path: Path, how: str, dice: Random) -> None:
    data = path.read_bytes()
    path.unlink()
    match how:
        case "broken":
            path.write_bytes(data + b"x = = 3\n")
        case "garbage":
            at = dice.randrange(len(data))
            path.write_bytes(data[:at] + b"\x00\xff" + data[at:])
        case "empty":
            path.touch()
        case "cut off":
            path.write_bytes(data[: dice.randrange(len(data))])
        case "a folder":
            path.mkdir()
        case "a link to nowhere":
            path.symlink_to("nowhere.toml")


def board_of(bench: Workbench) -> Board:
    bench.refresh()
    return bench.board(NOW)


def checks(board: Board, *, still_open: bool) -> set[tuple[str, str, str]]:
    return {
        (task, asked.hazard.id, asked.check.id)
        for task in board.plan.tasks
        for asked in checks_of(board, task)
        if asked.open == still_open
    }


def may_begin(board: Board) -> set[str]:
    return {t for t in board.plan.tasks if not against_beginning(board, t, ("ada", "tom"))}


def is_done_behind(board: Board, task: str) -> bool:
    return all(board[follower].work_done for follower in board.order.tasks_right_behind(task))


def is_not_braver(before: Board, after: Board, file: str) -> None:
    ready = {standing.task.id for standing in after.in_state("ready")}
    assert ready <= {standing.task.id for standing in before.in_state("ready")}
    assert may_begin(after) <= may_begin(before)
    assert not checks(after, still_open=False) & checks(before, still_open=True)
    for task_id, standing in after.standings.items():
        then = before.standings.get(task_id)
        if then is not None and standing.until is not None:
            assert then.until is not None, task_id
            assert standing.until >= then.until, task_id
    forgotten = any(one.file == file and not one.remembered for one in after.unreadable)
    for hold in before.stopping():
        now = after.holds.get(hold.id)
        if now is None:
            assert forgotten, f"{hold.id} is gone"  # the sentence on the screen says so
            continue
        # It ended as far as is known, all behind it is done, and what is not known is named.
        settled = forgotten and not now.stops_work and is_done_behind(before, hold.task)
        assert now.stops_work or settled, hold
        if settled:
            continue
        if hold.until is None:
            assert now.until is None, hold
        elif now.until is not None:
            assert now.until >= hold.until, hold
    placed = {placing.task for placing in plan_day(after, effort=0).placed}
    assert not any(after[task].unreadable for task in placed)
    partly = any(one.partly for one in after.unreadable)  # the forecast's remarks name it
    if not partly and not not_to_be_told(after.unreadable):
        assert calendar_path(after).end >= calendar_path(before).end


def told(board: Board, file: str) -> bool:
    """Whether it is said that something of the file, or of what it would hold, is not known."""
    return any(one.file == file or file in one.mend for one in board.unreadable)


@pytest.mark.parametrize("seed", range(SEED, SEED + (12 if not LONG else 1)))
def test_whatever_happens_to_one_file_makes_nothing_braver(tmp_path: Path, seed: int) -> None:
    counted: Counter[str] = Counter()
    seeds = range(seed, seed + (FOLDERS if LONG else 1))
    for number in seeds:
        _one_folder(tmp_path / "van", number, counted)
        shutil.rmtree(tmp_path / "van")
    if LONG:
        print(f"\n{len(seeds)} folders, {sum(counted.values())} damages: {dict(counted)}")


def _one_folder(root: Path, seed: int, counted: Counter[str]) -> None:
    dice, random = Random(seed), RandomFolder(seed)
    for path, text in random.files.items():
        target = root / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
    before = board_of(Workbench(root))
    assert not before.unreadable
    for file in random.files:
        how = dice.choice(WAYS)
        running = Workbench(root)
        board_of(running)
        damage(root / file, how, dice)
        warm, cold = board_of(running), board_of(Workbench(root))
        where = f"seed {seed}, {file} {how}"
        if told(warm, file):
            counted[f"{how}, seen on a running screen"] += 1
            _check(before, warm, file, f"{where}, warm")
        else:  # what is left reads like a file that somebody has edited
            assert how in ("cut off", "garbage"), where
        if told(cold, file):
            counted[f"{how}, seen by a first look"] += 1
            _check(before, cold, file, f"{where}, cold")
        else:
            assert how in ("cut off", "gone", "garbage"), where
        _put_back(root / file, random.files[file])


def _check(before: Board, after: Board, file: str, where: str) -> None:
    try:
        is_not_braver(before, after, file)
    except AssertionError as braver:
        raise AssertionError(f"{where}: {braver}") from braver


def _put_back(path: Path, text: str) -> None:
    if path.is_dir():
        path.rmdir()
    elif path.is_symlink():
        path.unlink()
    path.write_text(text, encoding="utf-8")
