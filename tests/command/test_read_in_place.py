"""What is written stands where it is read from, or is refused and nothing half kept."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from crewboard.folder.edit.plan_edits import Change
from crewboard.workbench import Workbench
from tests.command.calling import Shell

AT = ("--at", "2026-05-02T15:30")
NOTE = ("note", "DIR", "kept", "--by", "ada", *AT)


def _linked(folder: str, to: str) -> Callable[[Path], None]:
    def act(van: Path) -> None:
        target = (van / to) if not to.startswith("..") else (van.parent / to.removeprefix("../"))
        target.parent.mkdir(parents=True, exist_ok=True)
        (van / folder).rename(target)
        (van / folder).symlink_to(target)

    return act


def _dangling(folder: str) -> Callable[[Path], None]:
    def act(van: Path) -> None:
        shutil.rmtree(van / folder)
        (van / folder).symlink_to("nowhere")

    return act


def _a_file(folder: str) -> Callable[[Path], None]:
    def act(van: Path) -> None:
        shutil.rmtree(van / folder)
        (van / folder).write_text("x", encoding="utf-8")

    return act


NO_FOLDERS: list[tuple[str, Callable[[Path], None], str]] = [
    ("days/", _linked("days", "elsewhere/days"), "a link that leads to another place"),
    ("days/", _linked("days", "../out/days"), "a link that leads to another place"),
    ("days/", _dangling("days"), "a link that leads nowhere"),
    ("days/", _a_file("days"), "a folder has to be here"),
    ("days/2026/", _linked("days/2026", "elsewhere/2026"), "a link that leads to another place"),
    ("days/2026/", _dangling("days/2026"), "a link that leads nowhere"),
    ("days/2026/", _a_file("days/2026"), "a folder has to be here"),
    ("components/", _linked("components", "elsewhere/parts"), "a link that leads"),
    ("components/", _dangling("components"), "a link that leads nowhere"),
    ("components/", _a_file("components"), "a folder has to be here"),
]


@pytest.mark.skipif(os.name == "nt", reason="links are made otherwise there")
@pytest.mark.parametrize(("folder", "happens", "says"), NO_FOLDERS)
def test_a_folder_that_is_no_real_folder_is_said_first(
    van: Path, call: Shell, folder: str, happens: Callable[[Path], None], says: str
) -> None:
    happens(van)
    told = call("check", van, *AT)
    assert told.code == 1
    assert told.out.startswith(f"{folder}:1:1: this cannot be read: ")
    assert says in told.out.splitlines()[0]
    board = call("day", van, *AT).out
    assert f"{folder} cannot be read" in board.splitlines()[1]
    assert "ready" not in board


@pytest.mark.skipif(os.name == "nt", reason="links are made otherwise there")
@pytest.mark.parametrize(("folder", "happens", "says"), NO_FOLDERS[:7])
def test_an_entry_that_would_not_be_read_is_refused_and_nothing_kept(
    van: Path, call: Shell, folder: str, happens: Callable[[Path], None], says: str
) -> None:
    happens(van)
    before = {path: path.read_bytes() for path in van.parent.rglob("*.toml") if path.is_file()}
    ended = call(*(str(van) if word == "DIR" else word for word in NOTE))
    assert ended.code in (1, 3)
    assert says in ended.err or "not a folder" in ended.err, ended.err
    after = {path: path.read_bytes() for path in van.parent.rglob("*.toml") if path.is_file()}
    assert after == before


def test_what_the_reader_does_not_find_in_its_place_is_taken_back(
    van: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever the cause: here a reader that passes the new file over."""
    from datetime import datetime

    from crewboard.folder.disk.watch import Trace, fingerprint
    from crewboard.logbook.acts import Noted
    from crewboard.workbench import Said

    bench, at = Workbench(van), datetime(2026, 5, 9, 10)

    def blind(root: str, unread: dict[str, OSError] | None = None) -> dict[str, Trace]:
        return {p: t for p, t in fingerprint(root, unread).items() if "05-09" not in p}

    monkeypatch.setattr("crewboard.folder.read.folder.fingerprint", blind)
    outcome = bench.record([Said(Noted("x"), at)], by="ada", now=at)
    assert not outcome.kept
    assert "could not be read there" in outcome.refused[0].says
    assert not (van / "days/2026/2026-05-09.toml").exists()
    assert bench.done == []


def test_a_change_of_the_plan_through_a_linked_folder_is_refused(van: Path) -> None:
    bench = Workbench(van)
    _linked("components", "elsewhere/parts")(van)
    outcome = bench.change(Change("task", "deck/lay", {"title": "Lay them"}))
    assert not outcome.kept
    assert "Lay them" not in (van / "elsewhere/parts/deck.toml").read_text(encoding="utf-8")


def test_an_entry_through_a_link_to_a_file_of_the_folder_is_kept(van: Path, call: Shell) -> None:
    day = van / "days/2026/2026-05-02.toml"
    real = van / "kept.toml"
    day.rename(real)
    day.symlink_to(real)
    assert call(*(str(van) if word == "DIR" else word for word in NOTE)).code == 0
    assert "kept" in real.read_text(encoding="utf-8")
    assert day.is_symlink()
