"""What an earlier look learned changes nothing of what is read: with it, without it, with one that
is stale or damaged, whatever became of the files meanwhile."""

from __future__ import annotations

import os
import shutil
from datetime import datetime
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.fabric.fabric import fabric_of
from crewboard.folder.disk.watch import Trace
from crewboard.folder.read import learned, piece_texts
from crewboard.folder.read.file_read import FileRead
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.learned import FromEarlier
from crewboard.folder.read.one_file import read_bytes
from crewboard.logbook.record.waiting import files_waiting
from crewboard.on_this_computer import MOST_LEARNED
from crewboard.order.assess import assess
from tests.folder.a_vehicle import make
from tests.long_form import cases

NOW = datetime(2026, 5, 4, 10)
DECK = "components/deck.toml"
LINES = (
    'kind = "found", seen = "soft [foot] é", piece = "deck/b1", pictures = ["pictures/a.jpg"]',
    'kind = "found", seen = "puttied", component = "deck"',
    'kind = "done", piece = "deck/b2", action = "cleaned"',
    'kind = "taken in", file = "pictures/a.jpg"',
    'kind = "taken in", file = "pictures/b.jpg"',
    'kind = "stored", piece = "deck/b0", where = "shelf 3"',
    'kind = "hours", who = "ada", hours = 2, task = "deck/lay"',
    'kind = "hold", hold = "clamp", component = "deck", lasts = "9 days"',
    'kind = "note", text = "a note"',
    'kind = "found", seen = "again", replaces = "x0"',
    'kind = "taken back", entry = "x1"',
)


@pytest.fixture(autouse=True)
def _little_is_worth_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(FromEarlier, "worth", 1)
    for module in (learned, piece_texts):
        monkeypatch.setattr(module, "FEWEST", 3)


def a_folder(root: Path, chance: Random) -> list[Path]:
    """A vehicle with pieces and a record; the files that are worth an edit."""
    make(root)
    texts = ("", 'kind = "board"\n', 'extent = "2.4 m"\n', 'as_found = "original"\n')
    with (root / DECK).open("a", encoding="utf-8") as deck:
        for number in range(7):
            deck.write(f'\n[pieces.b{number}]\nname = "Board {number}"\n{chance.choice(texts)}')
            if chance.random() < 0.1:
                deck.write('\n[pieces.ribs]\nname = "Rib"\ncount = 2\n')
    days = []
    for day in ("2026-05-02", "2026-05-03"):
        path = root / f"days/2026/{day}.toml"
        lines = [
            f"x{number} = {{ at = {day}T{8 + number:02}:00:00, {chance.choice(LINES)} }}\n"
            for number in range(10)
        ]
        path.write_text(f"date = {day}\n\n[entries]\n{''.join(lines)}", encoding="utf-8")
        days.append(path)
    return [*days, root / DECK]


def edit(path: Path, chance: Random) -> None:
    """Change a file behind the tool's back; often of the same size, in the same tick."""
    before, data = path.stat(), path.read_bytes()
    lines = data.splitlines(keepends=True)
    at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    match chance.randrange(6):
        case 0:
            lines[at], lines[other] = lines[other], lines[at]
        case 1:
            lines[at] = lines[at].replace(b"b1", b"b2").replace(b"9 days", b"2 days")
        case 2:
            lines[at] = lines[at].replace(b'"found"', b'"nosuc"').replace(b"Board", b"Plank")
        case 3:
            del lines[at]
        case 4:
            lines.insert(at, lines[other])
        case 5:
            place = chance.randrange(max(len(lines[at]), 1))
            lines[at] = lines[at][:place] + b"\xff" + lines[at][place + 1 :]
    path.write_bytes(b"".join(lines))
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def seen(root: Path) -> dict[str, object]:
    """All that comes of a look, the lazy answers first."""
    folder = Folder(root)
    folder.remember()
    days = folder.logbook.days.values()
    found: dict[str, object] = {
        "named": [(day.named, day.ids, day.counting) for day in days],
        "waits": files_waiting(folder.logbook, NOW),
        "plan": folder.plan,
        "pieces": list(folder.plan.pieces),
        "faults": folder.faults,
        "unreadable": folder.unreadable,
        "missed": folder.missed,
    }
    board = assess(folder.plan, folder.logbook, NOW, unreadable=folder.unreadable)
    found |= {"holds": dict(board.holds), "standings": dict(board.standings)}
    found["days"] = [(day.date, day.entries, day.record) for day in days]
    fabric = fabric_of(folder.plan, folder.logbook, NOW)
    found["fabric"] = [(one.piece, one.current) for one in fabric.pieces.values()]
    return found


def kept(home: Path) -> list[Path]:
    folder = home / "crewboard" / "learned"
    return sorted(folder.iterdir()) if folder.is_dir() else []


@given(st.integers(0, 10**9))
@cases(15, 2000)
def test_what_was_learned_stale_or_damaged_changes_nothing(seed: int) -> None:
    chance = Random(seed)
    with TemporaryDirectory() as scratch, pytest.MonkeyPatch.context() as patch:
        root, home = Path(scratch, "bus"), Path(scratch, "home")
        patch.setenv("XDG_STATE_HOME", str(home))
        patch.setenv("LOCALAPPDATA", str(home))
        files = a_folder(root, chance)
        (root / ".crewboard").mkdir()
        memory, looks = root / ".crewboard" / "known", list[bytes]()
        for _ in range(4):
            remembers = memory.read_bytes() if memory.exists() else None
            with_it = seen(root)
            # The same look by somebody who never saw the folder, with the same memory of it.
            memory.write_bytes(remembers or b"")
            patch.setenv("XDG_STATE_HOME", str(home / "another"))
            patch.setenv("LOCALAPPDATA", str(home / "another"))
            shutil.rmtree(home / "another", ignore_errors=True)
            assert with_it == seen(root), seed
            patch.setenv("XDG_STATE_HOME", str(home))
            patch.setenv("LOCALAPPDATA", str(home))
            for file in kept(home):
                looks.append(file.read_bytes())
                match chance.randrange(5):
                    case 0:
                        file.write_bytes(chance.choice(looks))  # an old one
                    case 1:
                        data = bytearray(file.read_bytes())
                        data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
                        file.write_bytes(data)
                    case 2:
                        file.write_bytes(file.read_bytes()[: chance.randrange(400)])
            for _ in range(chance.randrange(3)):
                edit(chance.choice(files), chance)


def state(folder: Path) -> list[tuple[str, int, int]]:
    return [(str(p), p.stat().st_mtime_ns, p.stat().st_ino) for p in sorted(folder.rglob("*"))]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("XDG_STATE_HOME", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    return tmp_path / "home"


def test_a_look_goes_by_it_and_writes_only_where_something_is_new(
    tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bus = tmp_path / "bus"
    files = [path.relative_to(bus).as_posix() for path in a_folder(bus, Random(2))]
    first, before, gone_through = seen(bus), state(home), list[str]()

    def reads(path: str, trace: Trace, data: bytes) -> FileRead:
        gone_through.append(path)
        return read_bytes(path, trace, data)

    monkeypatch.setattr(learned, "read_bytes", reads)
    assert seen(bus) == first
    assert not set(files) & set(gone_through)
    assert state(home) == before
    deck = bus / files[2]
    deck.write_text(deck.read_text().replace("Board 3", "Plank 3"))
    seen(bus)
    assert set(files) & set(gone_through) == {files[2]}
    assert state(home) != before


def test_little_is_not_worth_a_file(
    tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(FromEarlier, "worth", 200)
    a_folder(tmp_path / "bus", Random(2))
    seen(tmp_path / "bus")
    assert not home.exists()


def test_nothing_of_it_lies_in_the_folder_and_none_from_elsewhere_counts(
    tmp_path: Path, home: Path
) -> None:
    """Somebody hands over a folder; what they learned of it is not believed, wherever it lies."""
    bus, other = tmp_path / "bus", tmp_path / "other"
    a_folder(bus, Random(2))
    (bus / ".crewboard").mkdir()
    first = seen(bus)
    assert {path.name for path in (bus / ".crewboard").iterdir()} == {"known"}
    shutil.copytree(bus, other)
    for file in kept(home):
        shutil.copy(file, other / ".crewboard" / file.name)
    assert seen(other) == first
    assert len(kept(home)) == 2


def test_a_program_with_other_rules_learns_for_itself(
    tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    a_folder(tmp_path / "bus", Random(2))
    seen(tmp_path / "bus")
    assert FromEarlier(str(tmp_path / "bus"))._of
    monkeypatch.setattr(learned, "_rules", lambda: "others")
    assert not FromEarlier(str(tmp_path / "bus"))._of


def test_where_it_cannot_be_kept_the_look_is_the_same(tmp_path: Path, home: Path) -> None:
    home.write_text("a file where a folder would have to be")
    a_folder(tmp_path / "bus", Random(2))
    assert seen(tmp_path / "bus") == seen(tmp_path / "bus")


def test_what_was_learned_of_old_folders_goes(tmp_path: Path, home: Path) -> None:
    for number in range(MOST_LEARNED + 3):
        a_folder(tmp_path / f"bus{number}", Random(2))
        seen(tmp_path / f"bus{number}")
    assert len(kept(home)) == MOST_LEARNED
    newest = FromEarlier(str(tmp_path / f"bus{MOST_LEARNED + 2}"))
    assert newest._of
    assert not FromEarlier(str(tmp_path / "bus0"))._of
