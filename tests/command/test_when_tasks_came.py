"""`added`: when a task came into the plan."""

from __future__ import annotations

import os
import subprocess
from datetime import date
from pathlib import Path

import pytest

from crewboard.folder.disk.archive import make_copy
from crewboard.folder.read.first_seen import seen_by_git, seen_in_copies
from tests.command.a_shop import AShop
from tests.command.calling import Shell

FRAME = """\
name = "Frame"
[tasks.rub]
title = "Rub down"
added = {}
"""


@pytest.fixture
def shop(call: Shell, tmp_path: Path) -> AShop:
    return AShop(call, tmp_path / "wagon")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("1798-05-02", '"added" is in the year 1798; write a year from 1800 to 2200'),
        ("2199-05-02", '"Rub down" came into the plan on Thu 2 May 2199, which is still to come'),
        ('"May"', '"added" is a text; write a date'),
    ],
)
def test_a_date_on_which_it_cannot_have_come_is_one_sentence(
    shop: AShop, written: str, told: str
) -> None:
    shop.write(FRAME.format(written))
    ended = shop.call("check", shop.folder)
    assert told in ended.out
    assert "components/frame.toml:4" in ended.out
    assert ended.out.count("added") + ended.out.count("came into the plan") == 1


LATER = FRAME.format("2026-05-03").replace("added", "# added")


def git(folder: Path, *words: str, day: str = "2026-05-01") -> None:
    who = {"GIT_AUTHOR_NAME": "A", "GIT_AUTHOR_EMAIL": "a@b", "GIT_COMMITTER_NAME": "A"}
    when = {f"GIT_{one}_DATE": f"{day}T12:00:00+0000" for one in ("AUTHOR", "COMMITTER")}
    env = {**os.environ, **who, **when, "GIT_COMMITTER_EMAIL": "a@b"}
    subprocess.run(["git", *words], cwd=folder, env=env, check=True, capture_output=True)


def committed(folder: Path, day: str) -> None:
    git(folder, "add", "-A", day=day)
    git(folder, "commit", "-qm", "so", day=day)


def add_task(folder: Path, name: str, title: str) -> None:
    file = folder / "components/frame.toml"
    file.write_text(file.read_text() + f'\n[tasks.{name}] # by hand\ntitle = "{title}"\n')


def test_what_git_knows_is_shown_and_written_where_it_is_asked_for(shop: AShop) -> None:
    shop.write(LATER)
    git(shop.folder, "init", "-q")
    committed(shop.folder, "2026-05-01")
    add_task(shop.folder, "splice", "Splice the foot")
    committed(shop.folder, "2026-05-20")
    before = (shop.folder / "components/frame.toml").read_text()
    shown = shop.call("came", shop.folder)
    assert "-           Frame: Rub down  (there already on 2026-05-01, by git)" in shown.out
    assert "2026-05-20  Frame: Splice the foot  (git)" in shown.out
    assert "--do-it" in shown.err
    assert "Of 1 nothing says" in shown.err
    assert (shop.folder / "components/frame.toml").read_text() == before
    assert shop.call("came", shop.folder, "--do-it").code == 0
    assert (shop.folder / "components/frame.toml").read_text() == before + "added = 2026-05-20\n"
    again = shop.call("came", shop.folder, "--do-it")
    assert (again.code, "nothing to write" in again.err) == (0, True)


def test_a_component_that_was_renamed_keeps_the_days_of_its_tasks(shop: AShop) -> None:
    shop.write(LATER)
    git(shop.folder, "init", "-q")
    committed(shop.folder, "2026-05-01")
    add_task(shop.folder, "splice", "Splice the foot")
    committed(shop.folder, "2026-05-20")
    git(shop.folder, "mv", "components/frame.toml", "components/chassis.toml")
    committed(shop.folder, "2026-06-01")
    known = seen_by_git(shop.folder).days
    assert known["chassis/splice"] == date(2026, 5, 20)
    assert known["chassis/rub"] == date(2026, 5, 1)


def test_a_folder_above_which_another_git_lies_is_read_by_its_own_files(shop: AShop) -> None:
    shop.write(LATER)
    git(shop.folder.parent, "init", "-q")
    committed(shop.folder.parent, "2026-05-01")
    assert seen_by_git(shop.folder).days == {"frame/rub": date(2026, 5, 1)}


def test_nothing_that_a_folder_says_to_git_is_run(shop: AShop, tmp_path: Path) -> None:
    shop.write(LATER)
    git(shop.folder, "init", "-q")
    (shop.folder / ".gitattributes").write_text("*.toml diff=odd\n")
    committed(shop.folder, "2026-05-01")
    ran = tmp_path / "ran"
    for key in ("diff.external", "core.pager", "core.fsmonitor", "diff.odd.textconv"):
        git(shop.folder, "config", key, f"touch {ran}; cat")
    assert seen_by_git(shop.folder).days == {"frame/rub": date(2026, 5, 1)}
    assert not ran.exists()


def test_without_git_the_daily_copies_tell(shop: AShop) -> None:
    shop.write(LATER)
    make_copy(shop.folder, date(2026, 5, 1))
    make_copy(shop.folder, date(2026, 5, 2))
    add_task(shop.folder, "splice", "Splice the foot")
    make_copy(shop.folder, date(2026, 5, 16))
    known = seen_in_copies(shop.folder)
    assert known.from_the_start == {"frame/rub"}
    assert known.days["frame/splice"] == date(2026, 5, 2)  # the last day on which it was not there
    shown = shop.call("came", shop.folder)
    assert "2026-05-02  Frame: Splice the foot  (the daily copies)" in shown.out


def test_where_nothing_knows_that_is_said(shop: AShop) -> None:
    shop.write(LATER)
    shown = shop.call("came", shop.folder)
    assert "-           Frame: Rub down  (nothing says)" in shown.out
