"""Files of a phone or camera are taken into the folder: whole, once, in order, never changed."""

from __future__ import annotations

import os
from datetime import datetime
from hashlib import sha256
from pathlib import Path

import pytest

from crewboard.folder.intake.safe_name import told_apart
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import TookIn
from tests.command.calling import Ended, Shell
from tests.intake.a_camera import MP4, WAVE, jpeg, plain, png, put

AT = ("--at", "2026-05-02T10:00", "--by", "ada")


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    """Two pictures, a spoken note and a film, none of them in the order of their names."""
    folder = tmp_path / "phone"
    put(folder, "IMG_2.jpg", jpeg("2026:05:01 09:00:00", colour=2))
    put(folder / "more", "IMG_1.JPG", jpeg("2026:05:01 11:00:00", colour=1))
    put(folder, "walk 2026-05-01 10.30.00.wav", WAVE)
    put(folder, "MOV_3.mp4", MP4, datetime(2025, 12, 31, 8, 0))
    return folder


def entries_of(shop: Path) -> list[TookIn]:
    return [e.act for e in Folder(shop).logbook.record() if isinstance(e.act, TookIn)]


def take(call: Shell, shop: Path, *sources: object, at: tuple[str, ...] = AT) -> Ended:
    return call("take-in", shop, *sources, *at)


def test_each_file_is_copied_hashed_and_written_down_in_the_order_in_which_it_was_taken(
    call: Shell, shop: Path, phone: Path
) -> None:
    before = {path: path.read_bytes() for path in phone.rglob("*") if path.is_file()}
    ended = take(call, shop, phone)
    assert ended.code == 0, ended.err
    acts = entries_of(shop)
    assert [(plain(act.file), act.called, act.taken_by) for act in acts] == [
        ("recordings/2025/MOV_3.mp4", "MOV_3.mp4", "its file's time"),
        ("pictures/2026/IMG_2.jpg", "IMG_2.jpg", ""),
        (
            "recordings/2026/walk-2026-05-01-10-30-00.wav",
            "walk 2026-05-01 10.30.00.wav",
            "its name",
        ),
        ("pictures/2026/IMG_1.jpg", "IMG_1.JPG", ""),
    ]
    for act in acts:
        copy = shop / act.file
        assert act.hash == sha256(copy.read_bytes()).hexdigest()
        assert copy.read_bytes() in before.values()
        assert not copy.stat().st_mode & 0o111
    assert {path: path.read_bytes() for path in before} == before, "the originals stay as they are"
    assert ended.out.count("\n") == 4
    assert "4 files taken in; to sort: crewboard waiting" in ended.err


def test_what_was_taken_in_before_is_passed_over_and_said(
    call: Shell, shop: Path, phone: Path
) -> None:
    assert take(call, shop, phone).code == 0
    put(phone, "renamed.jpg", (phone / "IMG_2.jpg").read_bytes())
    put(phone, "new.png", png())
    put(phone, "new again.png", png())
    ended = take(call, shop, phone, phone / "new.png")
    assert ended.code == 0
    assert ended.out.count("\n") == 1
    assert ended.err.count("it was taken in before, as ") == 5
    assert "renamed.jpg is not taken in: it was taken in before, as pictures/2026/IMG_2-" in (
        ended.err
    )
    assert ended.err.count("another of these files is the same") == 1
    assert len(entries_of(shop)) == 5
    again = take(call, shop, phone)
    assert again.code == 0
    assert not again.out


def test_a_whole_card_that_was_taken_in_before_is_one_sentence(
    call: Shell, shop: Path, tmp_path: Path
) -> None:
    for number in range(9):
        put(tmp_path / "card", f"IMG_{number}.jpg", jpeg(colour=number))
    assert take(call, shop, tmp_path / "card").code == 0
    put(tmp_path / "card", "notes.jpg", b"words")
    ended = take(call, shop, tmp_path / "card")
    assert len(ended.err.splitlines()) == 2
    assert "IMG_0.jpg and 8 more are not taken in: they were taken in before" in ended.err
    assert len(take(call, shop, tmp_path / "card", "--json").form["passed_over"]) == 10


def test_a_copy_that_was_lost_comes_back_without_a_second_entry(
    call: Shell, shop: Path, phone: Path
) -> None:
    take(call, shop, phone)
    (copy,) = (shop / "pictures/2026").glob("IMG_2*")
    bytes_there = copy.read_bytes()
    copy.unlink()
    ended = take(call, shop, phone / "IMG_2.jpg")
    assert "which was gone, is back" in ended.err
    assert copy.read_bytes() == bytes_there
    assert len(entries_of(shop)) == 4


def test_two_cameras_that_use_one_name_keep_both_pictures(
    call: Shell, shop: Path, tmp_path: Path
) -> None:
    one = put(tmp_path / "a", "IMG_1.jpg", jpeg("2026:05:01 09:00:00", colour=1))
    two = put(tmp_path / "b", "img_1.JPG", jpeg("2026:05:01 09:00:00", colour=2))
    assert take(call, shop, one, two).code == 0
    names = sorted(path.name for path in (shop / "pictures/2026").iterdir())
    assert {plain(name.lower()) for name in names} == {"img_1.jpg"}
    kept = {(shop / "pictures/2026" / name).read_bytes() for name in names}
    assert kept == {one.read_bytes(), two.read_bytes()}


def test_a_file_that_stands_in_the_way_is_left_and_the_next_number_taken(
    call: Shell, shop: Path, tmp_path: Path
) -> None:
    one = put(tmp_path / "a", "IMG_1.jpg", jpeg("2026:05:01 09:00:00", colour=1))
    name = told_apart("IMG_1.jpg", sha256(one.read_bytes()).hexdigest())
    put(shop / "pictures/2026", name.upper(), b"somebody's own")
    assert take(call, shop, one).code == 0
    names = {path.name: path.read_bytes() for path in (shop / "pictures/2026").iterdir()}
    second = name.replace(".jpg", "-2.jpg")
    assert names == {name.upper(): b"somebody's own", second: one.read_bytes()}


def test_what_cannot_be_taken_in_is_a_sentence_each_and_the_others_go_on(
    call: Shell, shop: Path, tmp_path: Path
) -> None:
    phone = tmp_path / "phone"
    put(phone, "good.jpg", jpeg())
    put(phone, "notes.jpg", b"these are words")
    put(phone, "empty.png", b"")
    put(phone, ".hidden.jpg", jpeg(colour=9))
    with (phone / "long.mp4").open("wb") as long:
        long.write(MP4)
        long.truncate(500_000_000)
    (phone / "out.jpg").symlink_to(put(tmp_path, "outside.jpg", jpeg(colour=5)))
    (phone / "round").symlink_to(phone)
    os.mkfifo(phone / "pipe.jpg")
    ended = take(call, shop, phone, tmp_path / "nowhere", "/dev/zero", shop, shop / "pictures")
    assert ended.code == 0
    reasons = dict(
        line.split(" is not taken in: ") for line in ended.err.splitlines() if " is not " in line
    )
    assert {os.path.basename(path): why for path, why in reasons.items()} == {
        "notes.jpg": "it is neither a picture nor sound nor a film, by what is in it",
        "empty.png": "it is empty",
        "long.mp4": "it has 500 MB, and files of 500 MB and more are taken in only when that "
        "is asked for (--large)",
        "out.jpg": f"it is a link; name what it leads to ({tmp_path}/outside.jpg)",
        "round": f"it is a link; name what it leads to ({phone})",
        "pipe.jpg": "it is a pipe, not a file",
        "nowhere": "there is no such file",
        "zero": "it is a device, not a file",
        "van": "it is the vehicle's own folder",
        "pictures": "it is in its place in the vehicle's folder already",
    }
    assert [act.called for act in entries_of(shop)] == ["good.jpg"]


def test_a_folder_that_holds_the_vehicles_own_is_taken_in_without_it(
    call: Shell, shop: Path, tmp_path: Path
) -> None:
    put(tmp_path, "sill.jpg", jpeg())
    put(shop / "drawings", "deck.jpg", jpeg(colour=3))
    ended = take(call, shop, tmp_path)
    assert f"{shop} is not taken in: it is the vehicle's own folder" in ended.err
    assert [act.called for act in entries_of(shop)] == ["sill.jpg"]


def test_a_long_film_is_taken_in_where_that_is_asked_for(
    call: Shell, shop: Path, phone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crewboard.folder.intake.looked_through.MOST", len(MP4))
    refused = take(call, shop, phone / "MOV_3.mp4")
    assert refused.code == 1
    assert not entries_of(shop)
    assert take(call, shop, phone / "MOV_3.mp4", "--large").code == 0
    assert [plain(act.file) for act in entries_of(shop)] == ["recordings/2025/MOV_3.mp4"]


def test_undo_takes_the_entries_back_and_the_files_can_be_taken_in_again(
    call: Shell, shop: Path, phone: Path
) -> None:
    take(call, shop, phone)
    assert call("undo", shop, "--by", "ada").code == 0
    assert not entries_of(shop)
    assert take(call, shop, phone).code == 0
    assert len(entries_of(shop)) == 4
    assert sum(path.is_file() for path in (shop / "pictures").rglob("*")) == 2, "no second copies"


def test_what_waits_is_listed_until_something_is_said_of_it(
    call: Shell, shop: Path, phone: Path
) -> None:
    assert "Nothing waits to be sorted." in call("waiting", shop, *AT[:2]).err
    take(call, shop, phone)
    listing = call("waiting", shop, *AT[:2])
    recording = entries_of(shop)[0].file
    assert listing.out.splitlines()[0] == f"{recording}  Wed 31 Dec 08:00, by its file's time"
    assert "(was IMG_1.JPG)" in listing.out.splitlines()[3]
    assert "2 pictures and 2 recordings wait to be sorted" in listing.err
    day = call("day", shop, *AT[:2]).out
    assert "Sort: 2 pictures and 2 recordings wait to be sorted." in day
    assert call("day", shop, *AT[:2], "--json").form["to_sort"] == 4
    picture = next(act.file for act in entries_of(shop) if act.called == "IMG_2.jpg")
    assert call("caption", shop, picture, "--words", "the sill", *AT).code == 0
    found = ("--recording", recording, "--minute", "12:30")
    assert call("found", shop, "soft at the foot", *found, *AT).code == 0
    form = call("waiting", shop, *AT[:2], "--json").form
    assert [plain(one["file"]) for one in form["files"]] == [
        "recordings/2026/walk-2026-05-01-10-30-00.wav",
        "pictures/2026/IMG_1.jpg",
    ]
    assert form["files"][0] | {"entry": ""} == {
        "entry": "",
        "file": form["files"][0]["file"],
        "kind": "recording",
        "taken": "2026-05-01T10:30:00",
        "taken_by": "its name",
        "called": "walk 2026-05-01 10.30.00.wav",
    }
    before = ("--at", "2026-05-02T09:00")
    assert not call("waiting", shop, *before).out, "an hour before nothing was there"


def test_json_tells_what_was_kept_and_what_was_passed_over(
    call: Shell, shop: Path, phone: Path
) -> None:
    put(phone, "notes.jpg", b"words")
    form = take(call, shop, phone, "--json").form
    assert form["what"] == "kept"
    assert len(form["entries"]) == 4
    assert form["passed_over"] == [
        {
            "path": str(phone / "notes.jpg"),
            "why": "it is neither a picture nor sound nor a film, by what is in it",
            "here": None,
        }
    ]


def test_where_the_entries_cannot_be_written_no_copies_are_left(
    call: Shell, shop: Path, phone: Path
) -> None:
    (shop / "days/2026").mkdir(parents=True)
    (shop / "days/2026/2026-05-02.toml").write_text("date = 2026-05-02\n[entries\n")
    ended = take(call, shop, phone)
    assert ended.code == 1
    assert not ended.out
    assert not [path for path in (shop / "pictures").rglob("*") if path.is_file()]
