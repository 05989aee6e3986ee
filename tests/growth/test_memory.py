"""A large plan fits into the memory of an old laptop: nothing is kept for each pair of tasks."""

import os
import random
import subprocess
import sys
import tracemalloc
from pathlib import Path

import pytest

from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.reasons import onward
from tests.growth.shapes import AT, finished_half, three_links
from tests.growth.test_growth import write
from tests.long_form import LONG

MOST_MEGABYTES = 500


def board_of(root: Path, texts: dict[str, str]) -> Board:
    folder = write(root, texts)
    return assess(folder.plan, folder.logbook, AT)


@pytest.mark.parametrize("bits", [1, 5_000, 100_000_000])
def test_what_waits_behind_each_task_is_the_same_in_whatever_portions_it_is_counted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, bits: int
) -> None:
    board = board_of(tmp_path, finished_half(120))
    monkeypatch.setattr(onward, "_MOST_BITS", bits)
    counts = onward.counts_behind.__wrapped__(board)
    assert counts == {
        task: sum(not board[behind].work_done for behind in board.order.all_behind(task))
        for task in board.standings
    }


def test_counting_what_waits_takes_no_more_memory_than_it_may(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    board = board_of(tmp_path, three_links(4000))  # a bit for each pair: two million bytes
    monkeypatch.setattr(onward, "_MOST_BITS", 8 * 50_000)
    tracemalloc.start()
    onward.counts_behind.__wrapped__(board)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 2 * 50_000 + 4000 * 250, f"{peak:,} bytes"  # and a count for each task


def write_large(root: Path, tasks: int, files: int) -> None:
    """So many tasks in so many files, each after three others."""
    (root / "components").mkdir()
    (root / "vehicle.toml").write_text('name = "Large"\n[work_days]\nevery = ["saturday"]\n')
    names = [f"c{n * files // tasks}/t{n}" for n in range(tasks)]
    for file in range(files):
        lines = [f'name = "Component {file}"\n']
        for n in range(file * tasks // files, (file + 1) * tasks // files):
            some = sorted(random.Random(n).sample(range(n), min(3, n)))
            after = ", ".join(f'"{names[one]}"' for one in some)
            lines.append(
                f'[tasks.t{n}]\ntitle = "Task {n}"\nhours = [1, 2, 4]\nafter = [{after}]\n'
            )
        (root / f"components/c{file}.toml").write_text("".join(lines))


def peak_of(command: list[str]) -> int:
    """Megabytes at the most, of one command in a process of its own."""
    process = subprocess.Popen(
        [sys.executable, "-m", "crewboard", *command],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    )
    _, status, usage = os.wait4(process.pid, 0)
    assert os.waitstatus_to_exitcode(status) == 0
    return usage.ru_maxrss // 1024


@pytest.mark.skipif(not LONG, reason="minutes: with CREWBOARD_LONG=1")
@pytest.mark.skipif(sys.platform != "linux", reason="others count the memory in other units")
@pytest.mark.parametrize("files", [10, 100])
def test_a_hundred_thousand_tasks_take_less_than_500_megabytes(tmp_path: Path, files: int) -> None:
    write_large(tmp_path, 100_000, files)
    root, task = str(tmp_path), "c5/t59999" if files == 10 else "c50/t50123"
    for command in (["day"], ["check"], ["review"], ["vehicle"], ["holds"], ["why"], ["then"]):
        words = [task] if command[0] in ("why", "then") else []
        peak = peak_of([*command, root, *words])
        print(f"{command[0]}, {files} files: {peak} MB")
        assert peak < MOST_MEGABYTES, command[0]
