"""What was taken in stays as it was: `check` and `gaps` say which file is gone or was changed."""

from __future__ import annotations

import tracemalloc
from hashlib import sha256
from pathlib import Path

import pytest

from crewboard.folder.check.taken_in import files_amiss
from crewboard.folder.intake.safe_name import told_apart
from crewboard.folder.read.folder import Folder
from crewboard.workbench import Workbench
from tests.command.calling import Shell
from tests.intake.a_camera import MP4, jpeg, png, put

A, B = jpeg("2026:05:01 09:00:00"), png("2026:05:01 09:10:00")
PICTURE_A, PICTURE_B = (
    f"pictures/2026/{told_apart(name, sha256(data).hexdigest())}"
    for name, data in (("a.jpg", A), ("b.png", B))
)
AT = ("--by", "ada", "--at", "2026-05-02T10:00")
NOW = AT[2:]


@pytest.fixture
def taken(call: Shell, shop: Path, tmp_path: Path) -> Path:
    """The phone, from which three files were taken in."""
    phone = tmp_path / "phone"
    put(phone, "a.jpg", A)
    put(phone, "b.png", B)
    put(phone, "walk 2026-05-01.mp4", MP4)
    assert call("take-in", shop, phone, *AT).code == 0
    return phone


def test_files_that_are_as_they_were_are_not_told(call: Shell, shop: Path, taken: Path) -> None:
    ended = call("check", shop, *NOW)
    assert ended.code == 0, ended.out
    assert "Files that were taken in" not in call("gaps", shop, *NOW).out
    assert call("gaps", shop, *NOW, "--json").form["files"] == []


def test_a_file_that_was_changed_is_told_with_its_line_and_how_to_mend_it(
    call: Shell, shop: Path, taken: Path
) -> None:
    picture = shop / PICTURE_A
    picture.write_bytes(picture.read_bytes()[:-1] + b"\xd8")  # as many bytes as before
    ended = call("check", shop, *NOW)
    assert ended.code == 1
    (line,) = [line for line in ended.out.splitlines() if "was changed" in line]
    number = 1 + next(
        at
        for at, text in enumerate((shop / "days/2026/2026-05-02.toml").read_text().splitlines())
        if PICTURE_A in text
    )
    assert line.startswith(f"days/2026/2026-05-02.toml:{number}:")
    says = f'"{PICTURE_A}" was changed since it was taken in on Sat 2 May 2026'
    assert says in line
    assert call("gaps", shop, *NOW, "--json").form["files"] == [{"file": PICTURE_A, "says": says}]
    told = " ".join(call("gaps", shop, *NOW).out.split())
    assert f"Files that were taken in: 1 - {says}: move it out of the folder and take it" in told
    picture.rename(shop.parent / "changed.jpg")
    assert "which was gone, is back" in call("take-in", shop, taken, *AT).err
    assert call("check", shop, *NOW).code == 0


def test_a_file_that_is_gone_or_leads_elsewhere_is_told(
    call: Shell, shop: Path, taken: Path
) -> None:
    (shop / PICTURE_A).unlink()
    (shop / PICTURE_B).unlink()
    (shop / PICTURE_B).symlink_to(taken / "b.png")
    assert [(one.file, one.says, one.gone) for one in files_amiss(Folder(shop))] == [
        (PICTURE_A, f'there is no picture "{PICTURE_A}"', True),
        (
            PICTURE_B,
            f'the picture "{PICTURE_B}" is not inside the folder',
            True,
        ),
    ]
    assert call("check", shop, *NOW).code == 1
    told = " ".join(call("gaps", shop, *NOW).out.split())
    assert f'there is no picture "{PICTURE_A}": take it in again' in told


def test_what_was_taken_back_is_asked_about_no_more(call: Shell, shop: Path, taken: Path) -> None:
    (shop / PICTURE_A).unlink()
    (entry,) = [one.entry for one in files_amiss(Folder(shop))]
    assert call("take-back", shop, entry.id, "--by", "ada").code == 0
    assert list(files_amiss(Folder(shop))) == []


def test_a_large_film_is_read_in_pieces(call: Shell, shop: Path, tmp_path: Path) -> None:
    film = put(tmp_path / "phone", "long.mp4", MP4)
    with film.open("r+b") as file:
        file.truncate(60_000_000)
    assert call("take-in", shop, film, *AT).code == 0
    folder = Folder(shop)
    tracemalloc.start()
    assert list(files_amiss(folder)) == []
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 8_000_000


def test_neither_the_day_nor_an_entry_reads_them(
    call: Shell, shop: Path, taken: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def read(path: str) -> None:
        raise AssertionError(path)

    monkeypatch.setattr("crewboard.folder.check.taken_in.read_through", read)
    monkeypatch.setattr("crewboard.folder.intake.copied.read_through", read)
    assert call("day", shop, *NOW).code == 0
    assert call("fabric", shop, *NOW).code == 0
    assert Workbench(shop).faults == []
    with pytest.raises(AssertionError):
        call("check", shop, *NOW)
