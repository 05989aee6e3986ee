"""Files that are not where they are read from: each is named, and brought there by a command."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES

pytestmark = pytest.mark.usefixtures("begun")

AT = ("--at", "2026-05-02T15:30")
DAY = "days/2026/2026-05-02.toml"
DECK = "components/deck.toml"


def _move(old: str, new: str) -> Callable[[Path], None]:
    def act(van: Path) -> None:
        (van / new).parent.mkdir(parents=True, exist_ok=True)
        (van / old).rename(van / new)

    return act


def _copy(old: str, new: str, change: tuple[str, str] = ("", "")) -> Callable[[Path], None]:
    def act(van: Path) -> None:
        (van / new).parent.mkdir(parents=True, exist_ok=True)
        text = (van / old).read_text(encoding="utf-8").replace(*change)
        (van / new).write_text(text, encoding="utf-8")

    return act


def _change(path: str, change: tuple[str, str]) -> Callable[[Path], None]:
    return _copy(path, path, change)


def _both(*acts: Callable[[Path], None]) -> Callable[[Path], None]:
    def act(van: Path) -> None:
        for one in acts:
            one(van)

    return act


OTHER = ("Lay the boards", "Lay all the boards")

# What happened, the file that is named for it, and what is said behind "crewboard fold DIR".
MISPLACED: list[tuple[Callable[[Path], None], str, tuple[str, ...]]] = [
    (_move("crew.toml", "Crew.toml"), "Crew.toml", ()),
    (_move("vehicle.toml", "VEHICLE.TOML"), "VEHICLE.TOML", ()),
    (_copy("crew.toml", "crew (1).toml"), "crew (1).toml", ()),
    (_copy("supplies.toml", "supplies - Kopie.toml", ("oak", "elm")), "supplies - Kopie.toml",
     ("supplies - Kopie.toml", "--aside")),
    (_move("days", "Days"), "Days/", ()),
    (_move("components", "COMPONENTS"), "COMPONENTS/", ()),
    (_move(DECK, "components/deck.TOML"), "components/deck.TOML", ()),
    (_move(DECK, "components/deck (1).toml"), "components/deck (1).toml", ()),
    (_copy(DECK, "components/Deck.toml"), "components/Deck.toml", ()),
    (_copy(DECK, "components/Deck.toml", ('name = "Deck"', 'name = "Rear deck"')),
     "components/Deck.toml", ("components/Deck.toml", "--as", "rear-deck")),
    (_copy(DECK, "components/deck copy.toml", OTHER), "components/deck copy.toml",
     ("components/deck copy.toml", "--instead")),
    (_copy(DECK, "components/deck-LAPTOP-7H.toml", OTHER), "components/deck-LAPTOP-7H.toml",
     ("components/deck-LAPTOP-7H.toml", "--aside")),
    (_copy(DECK, "components/deck (1).toml", OTHER), "components/deck (1).toml",
     ("components/deck (1).toml", "--as", "rear-deck")),
    (_move(DAY, "days/2026/2026-05-02.TOML"), "days/2026/2026-05-02.TOML", ()),
    (_move(DAY, "days/2025/2026-05-02.toml"), "days/2025/2026-05-02.toml", ()),
    (_move(DAY, "days/2026-05-02.toml"), "days/2026-05-02.toml", ()),
    (_move(DAY, "days/2026/05/2026-05-02.toml"), "days/2026/05/2026-05-02.toml", ()),
    (_copy(DAY, "days/2025/2026-05-02.toml"), "days/2025/2026-05-02.toml", ()),
    (_copy(DAY, "days/2026/2026-05-09.toml"), "days/2026/2026-05-09.toml", ()),
    (_move(DAY, "days/2026/2026-05-09.toml"), "days/2026/2026-05-09.toml", ()),
    (_change(DAY, ("date = 2026-05-02", "date = 2026-05-09")), DAY, ()),
    (_both(_change(DAY, ("date = 2026-05-02", "date = 2026-05-09")),
           _change(DAY, ("at = 2026-05-02T09:10", "at = 2026-05-01T09:10"))), DAY,
     (DAY, "--day", "2026-05-02")),
    (_both(_copy(DAY, "days/2026/2026-05-02 (1).toml"), _change(DAY, ("date", "date = date"))),
     "days/2026/2026-05-02 (1).toml", ("days/2026/2026-05-02 (1).toml", "--instead")),
    (_copy(DAY, "days/2026/2026-05-02 (1).toml", ("date", "date = date")),
     "days/2026/2026-05-02 (1).toml", ("days/2026/2026-05-02 (1).toml", "--aside")),
]  # fmt: skip


@pytest.mark.parametrize(("happens", "named", "typed"), MISPLACED)
def test_a_misplaced_file_is_named_and_brought_to_its_place(
    van: Path, call: Shell, happens: Callable[[Path], None], named: str, typed: tuple[str, ...]
) -> None:
    before = Folder(van)
    happens(van)
    told = call("check", van, *AT).out
    assert f"{named}:" in told
    shown = call("fold", van, *typed)
    assert named in shown.out
    assert call("check", van, *AT).out == told, "showing changes nothing"
    done = call("fold", van, *typed, "--do-it")
    assert done.code == 0, done
    assert "crewboard fold" not in call("check", van, *AT).out
    after = Folder(van)
    assert _ids(after) == _ids(before)
    assert after.plan.crew == before.plan.crew
    assert after.plan.tasks.keys() >= before.plan.tasks.keys()


def _ids(folder: Folder) -> dict[date, list[str]]:
    return {day.date: [entry.id for entry in day.entries] for day in folder.logbook.days.values()}


def test_a_copy_that_says_otherwise_stays_until_somebody_says_which_counts(
    van: Path, call: Shell
) -> None:
    _copy(DECK, "components/deck (2).toml", OTHER)(van)
    shown = call("fold", van, "--do-it")
    assert shown.code == 1
    assert "of tasks.lay;" in shown.out
    assert "--instead" in shown.out
    assert (van / "components/deck (2).toml").exists()
    assert (van / DECK).read_text(encoding="utf-8") == FILES[DECK]


def test_the_file_that_a_copy_takes_the_place_of_is_kept_aside(van: Path, call: Shell) -> None:
    _copy(DECK, "components/deck (2).toml", OTHER)(van)
    assert call("fold", van, "components/deck (2).toml", "--instead", "--do-it").code == 0
    assert "Lay all the boards" in (van / DECK).read_text(encoding="utf-8")
    assert (van / ".crewboard/aside/deck.toml").read_text(encoding="utf-8") == FILES[DECK]


def test_two_components_that_are_alike_are_no_copies(van: Path, call: Shell) -> None:
    _copy(DECK, "components/deck-rear.toml", ('name = "Deck"', 'name = "Rear deck"'))(van)
    assert call("check", van, *AT).out == ""
    assert "nothing to fold in" in call("fold", van).err


def test_two_folders_of_days_become_one(van: Path, call: Shell) -> None:
    shutil.copytree(van / "days", van / "DAYS")
    _move("DAYS/2026/2026-05-02.toml", "DAYS/2026/2026-05-02 b.toml")(van)
    _copy(DAY, "DAYS/2026/2026-05-03.toml", ("2026-05-02", "2026-05-03"))(van)
    assert "DAYS/:" in call("check", van, *AT).out
    assert call("fold", van, "--do-it").code == 0
    assert not (van / "DAYS").exists()
    assert len(Folder(van).logbook.days) == 2


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (("--aside",), "say which file"),
        (("nothing.toml", "--aside"), "there is no file"),
        ((DECK, "--instead"), "is not known as a copy"),
        (("../out.toml", "--aside"), "leads out of the folder"),
        ((DECK, "--as", "no name"), "cannot name a component"),
        ((DECK, "--as", "frame"), "already"),
        (("crew.toml", "--as", "people"), "among the components"),
        ((DECK, "--day", "2026-05-02"), "among the days"),
    ],
)
def test_what_cannot_be_brought_anywhere_is_refused_in_a_sentence(
    van: Path, call: Shell, typed: tuple[str, ...], says: str
) -> None:
    before = {path: path.read_bytes() for path in van.rglob("*.toml")}
    ended = call("fold", van, *typed, "--do-it")
    assert ended.code in (1, 2, 3)
    assert says in ended.err + ended.out
    assert {path: path.read_bytes() for path in van.rglob("*.toml")} == before


def test_a_copy_of_a_component_brings_no_second_of_its_tasks(van: Path, call: Shell) -> None:
    _copy(DECK, "components/deck-LAPTOP-7H.toml", OTHER)(van)
    assert [task for task in Folder(van).plan.tasks if "LAPTOP" in task] == []
    assert "Lay all" not in call("vehicle", van, "--tasks", *AT).out
    told = call("check", van, *AT).out.splitlines()
    assert [line.partition(":")[0] for line in told] == ["components/deck-LAPTOP-7H.toml"]
