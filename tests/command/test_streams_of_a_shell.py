"""The same in processes of their own: streams closed by a shell, letters that they cannot spell,
Ctrl-C while an entry is written."""

from __future__ import annotations

import os
import shlex
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from crewboard.command.exits import Exit
from tests.command.calling import REPOSITORY, SAMPLE
from tests.command.faulty_streams import call
from tests.long_form import LONG

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs a POSIX shell")

DAY = "days/2026/2026-05-02.toml"
NOTE = ("note", ".", "Grüße, 漢", "--at", "2026-05-02T10:00")


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("PYTHONPATH", str(REPOSITORY))
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    folder = shutil.copytree(SAMPLE, tmp_path / "van")
    monkeypatch.chdir(folder)
    return folder


def in_a_shell(*typed: str, redirected: str, **environment: str) -> tuple[int, bytes]:
    """The exit code of a call that is redirected so, and what could be read of it."""
    line = shlex.join([sys.executable, "-m", "crewboard", *typed])
    run = subprocess.run(
        ["/bin/sh", "-c", f"{{ {line}; echo $? >code; }} {redirected}"],
        capture_output=True, timeout=60, env={**os.environ, **environment},
    )  # fmt: skip
    return int(Path("code").read_text()), run.stdout + run.stderr


CLOSED = (">&-", ">&- 2>&-", "<&- >&- 2>&-", "<&-", ">/dev/full 2>&1", "| true", "2>&1 | true")


@pytest.mark.parametrize("redirected", CLOSED)
def test_an_entry_is_kept_and_nothing_that_is_said_lands_in_the_folder(
    redirected: str, shop: Path
) -> None:
    before = (shop / DAY).read_bytes().count(b"\n")
    code, said = in_a_shell(*NOTE, redirected=redirected)
    assert code == 0
    assert b"Traceback" not in said
    kept = (shop / DAY).read_text(encoding="utf-8")
    assert kept.count("Grüße, 漢") == 1
    assert kept.count("\n") == before + 1
    assert (shop / ".crewboard.lock").read_bytes() == b""


@pytest.mark.parametrize("redirected", ["| true", "2>&1 | true", ">/dev/full", ">&- 2>&-"])
def test_a_copy_is_brought_back_whole_though_nobody_reads_what_comes_back(
    redirected: str, shop: Path
) -> None:
    for number in range(300):  # more than a pipe or a buffer holds
        (shop / f"components/{'a' * 90}-{number}.toml").write_text(f'name = "{number}"\n')
    assert call(list(NOTE)).code == 0
    (copy,) = (shop / ".crewboard/copies").iterdir()  # of the real day
    copy.rename(copy.with_name("2026-05-02.zip"))
    shutil.rmtree(shop / "components")
    code, said = in_a_shell("restore", ".", "2026-05-02", "--do-it", redirected=redirected)
    assert code == 0
    assert b"Traceback" not in said
    assert len(list((shop / "components").glob("*.toml"))) == 319


@pytest.mark.parametrize("coding", ["ascii", "ascii:strict", "cp1252", "utf-16"])
def test_what_the_streams_cannot_spell_is_kept_as_it_was_typed(coding: str, shop: Path) -> None:
    code, said = in_a_shell(*NOTE, redirected="", PYTHONIOENCODING=coding)
    assert code == 0
    assert b"Traceback" not in said
    assert "Grüße, 漢" in (shop / DAY).read_text(encoding="utf-8")


def test_what_was_typed_in_a_shell_without_a_language_is_kept(shop: Path) -> None:
    code, _ = in_a_shell(*NOTE, redirected="", LC_ALL="C", LANG="C")
    assert code == 0
    assert "Grüße, 漢" in (shop / DAY).read_text(encoding="utf-8")


PRESSED = """
import os, signal, sys
from crewboard.folder.disk import write
in_place = write._put_in_place
def pressed(*args, **more):
    in_place(*args, **more)
    if args[1].endswith(".toml"):
        os.kill(os.getpid(), signal.SIGINT)
write._put_in_place = pressed
from crewboard.command.run import main
sys.exit(main())
"""


def test_ctrl_c_while_an_entry_is_written_lets_it_be_kept_and_told(shop: Path) -> None:
    run = subprocess.run([sys.executable, "-c", PRESSED, *NOTE], capture_output=True, timeout=60)
    assert run.returncode == 0, run.stderr
    assert "Grüße, 漢" in run.stdout.decode()
    assert (shop / DAY).read_text(encoding="utf-8").count("Grüße, 漢") == 1


@pytest.mark.parametrize("turn", range(120 if LONG else 3))
def test_ctrl_c_at_any_moment_ends_well_where_the_entry_was_kept_and_only_there(
    turn: int, shop: Path
) -> None:
    run = subprocess.Popen(
        [sys.executable, "-m", "crewboard", *NOTE], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    time.sleep(0.1 + turn * (0.005 if LONG else 0.15))
    run.send_signal(signal.SIGINT)
    _, said = run.communicate(timeout=60)
    kept = "Grüße" in (shop / DAY).read_text(encoding="utf-8")
    assert (run.returncode == 0) == kept, said


def test_a_file_that_the_disk_takes_only_a_part_of_is_not_left_behind(shop: Path) -> None:
    import resource

    limits = resource.getrlimit(resource.RLIMIT_FSIZE)
    before = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (300, limits[1]))
    try:
        ended = call(["report", "day", ".", "--to", "day.txt"])
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        signal.signal(signal.SIGXFSZ, before)
    assert ended.code == Exit.DISK
    assert "File too large: day.txt" in ended.err
    assert not (shop / "day.txt").exists()
