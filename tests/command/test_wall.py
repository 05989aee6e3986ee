"""The page for the wall: what stands on it, and that it is kept up to date when asked."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.command.run import main
from crewboard.folder.read.folder import Folder
from crewboard.order.assess import assess
from crewboard.paper.wall import wall_page
from crewboard.telling.wall import wall
from tests.command.calling import SAMPLE, Shell
from tests.terminal.shop import make_shop

AT = ("--at", "2026-05-02T10:00")


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    root = make_shop(tmp_path / "van")
    with (root / "vehicle.toml").open("r+") as file:
        text = file.read()
        file.seek(0)
        file.write("shown_at = 2026-05-02T09:30:00\n" + text)
    return root


def words(page: str) -> str:
    body = page.partition("<body>")[2].partition("<script>")[0]
    return " ".join("".join(f" {part.partition('>')[2]}" for part in body.split("<")).split())


def test_the_wall_says_what_to_leave_alone_who_is_here_what_to_look_at_and_what_is_next() -> None:
    folder = Folder(SAMPLE)
    board = assess(folder.plan, folder.logbook, datetime(2026, 5, 2, 10, 40))
    text = words(wall_page(board))
    assert "Marigold emergency: 112 as of Sat 2 May 2026 10:40" in text
    assert "LEAVE ALONE (" in text
    assert "Rear crate doors until 13:48" in text
    assert "HERE (2) Mirela Vandrey, Henrik Mbalani" in text
    assert "NEXT LOOK now: Arches 3 and 4" in text
    assert "13:48" in text.partition("NEXT LOOK")[2]
    assert "NEXT JOB Plumb the frame and brace it 3 to 5 people" in text


def test_the_wall_counts_what_it_has_no_room_for() -> None:
    folder = Folder(SAMPLE)
    board = assess(folder.plan, folder.logbook, datetime(2026, 5, 2, 10, 40))
    shown = wall(board)
    count = int(shown.alone.heading.partition("(")[2].rstrip(")"))
    assert len(shown.alone.lines) + shown.alone.more == count


def test_work_that_goes_on_stands_on_the_wall_with_its_people(call: Shell, van: Path) -> None:
    assert "nothing is under way" in call("wall", van, *AT).out
    call("sign-in", van, "ada", "ben", *AT)
    call("begin", van, "scrape", "--who", "ada", "ben", *AT)
    assert "Scrape the frame Ada Marsh, Ben Holt" in words(call("wall", van, *AT).out)
    call("sign-out", van, "ada", "ben", "--at", "2026-05-02T12:00")
    assert "nothing is under way" in call("wall", van, "--at", "2026-05-02T12:30").out


def test_the_page_fetches_nothing_runs_its_own_script_and_refreshes_itself(
    call: Shell, van: Path
) -> None:
    page = call("wall", van, *AT).out
    assert '<meta http-equiv="refresh" content="20">' in page
    assert "default-src 'none'" in page
    assert page.count("<script>") == page.count("<script") == 1  # its own, known by its hash
    assert not any(sign in page for sign in ("href=", "src=", "url(", "@import", "XMLHttp"))


def test_text_on_the_wall_is_data(call: Shell, van: Path) -> None:
    frame = van / "components/frame.toml"
    frame.write_text(frame.read_text().replace("Scrape the frame", "<b onclick=x>Scrape</b> & [b]"))
    call("sign-in", van, "ada", *AT)
    call("begin", van, "frame/scrape", "--who", "ada", *AT)
    page = call("wall", van, *AT).out
    assert "&lt;b onclick=x&gt;Scrape&lt;/b&gt; &amp; [b]" in page


def test_a_page_once_asked_for_is_made_anew_after_each_entry(call: Shell, van: Path) -> None:
    page = van.parent / "wall.html"
    assert call("wall", van, "--keep", page, *AT).code == 0
    assert "nobody is signed in" in page.read_text()
    assert "written" not in call("day", van, *AT).err
    call("sign-in", van, "ada", *AT)
    assert "Ada Marsh" in page.read_text()
    assert not [path for path in page.parent.iterdir() if path.suffix == ".part"]
    call("wall", van, "--no-more")
    call("sign-in", van, "ben", *AT)
    assert "Ben Holt" not in page.read_text()


def test_an_entry_of_the_past_does_not_turn_the_wall_back(call: Shell, van: Path) -> None:
    page = van.parent / "wall.html"
    call("wall", van, "--keep", page)
    call("note", van, "it rained", "--at", "2026-04-04T10:00")
    assert "as of Sat 2 May 2026 09:30" in page.read_text()


def test_a_file_that_is_no_page_for_the_wall_is_never_written_over(call: Shell, van: Path) -> None:
    page = van.parent / "index.html"
    page.write_text("<h1>mine</h1>")
    ended = call("wall", van, "--keep", page, *AT)
    assert ended.code == 1
    assert "was left as it is" in ended.err
    assert page.read_text() == "<h1>mine</h1>"
    assert call("wall", van, "--keep", van.parent / "crew.toml", *AT).code == 2


def test_a_wall_that_cannot_be_written_never_fails_the_entry(call: Shell, van: Path) -> None:
    page = van.parent / "wall.html"
    call("wall", van, "--keep", page, *AT)
    page.write_text("mine now")
    ended = call("sign-in", van, "ada", *AT)
    assert ended.code == 0
    assert "Ada" in ended.out
    assert ended.err.count("was left as it is") == 1
    assert page.read_text() == "mine now"
    page.unlink()
    page.mkdir()
    assert call("sign-in", van, "ben", *AT).code == 0


def test_another_computers_wall_is_not_ours(van: Path) -> None:
    (van / ".crewboard").mkdir(exist_ok=True)
    page = van.parent / "theirs.html"
    (van / ".crewboard/wall").write_text(f"0badcafe\t{page}\n")
    assert main(["sign-in", str(van), "ada", *AT]) == 0
    assert not page.exists()
