"""Bad input: one clear sentence for each mistake, at its line and column; the rest still opens."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.check.check import Checked, check
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Noted
from crewboard.order.assess import assess
from crewboard.workbench import Said, Workbench
from tests.folder.a_vehicle import FILES, make

DAY = "days/2026/2026-05-02.toml"
FRAME, DECK, CREW, VEHICLE = (
    "components/frame.toml",
    "components/deck.toml",
    "crew.toml",
    "vehicle.toml",
)
NOON = datetime(2026, 5, 3, 12)


def changed(root: Path, file: str, old: str, new: str) -> Path:
    """The usual folder with one thing changed in one file."""
    text = FILES[file]
    assert old in text
    files = {path: each.encode() for path, each in FILES.items()}
    files[file] = text.replace(old, new, 1).encode()
    return make(root, files)


def looked_over(root: Path) -> Checked:
    """What `crewboard check` finds; nothing may be written, and the board must still open."""
    before = {path: path.read_bytes() for path in root.rglob("*") if path.is_file()}
    folder = Folder(root)
    found = check(folder)
    assess(folder.plan, folder.logbook, NOON)
    assert {path: path.read_bytes() for path in root.rglob("*") if path.is_file()} == before
    return found


def test_the_usual_folder_has_no_mistake_and_no_question(tmp_path: Path) -> None:
    root = make(tmp_path)
    begin = 'kind = "begun", task = "frame/prime", crew = ["ada"]'
    with (root / DAY).open("a", encoding="utf-8") as day:
        day.write(f'zzbegun2 = {{ at = 2026-05-02T12:20:00, by = "ada", {begin} }}\n')
    assert looked_over(root) == Checked(7, (), ())


# What is wrong, where it stands, and how it is said.
MISTAKES = [
    (FRAME, 'after = ["scrape"]', 'after = ["scrap"]', (11, 10),
     'there is no task or component "scrap"; did you mean "scrape"?'),
    (DECK, 'supplies = ["oak"]', 'supplies = ["oaks"]', (10, 13),
     'there is no supply "oaks"; did you mean "oak"?'),
    (FRAME, 'hazards = ["lead-paint"]', 'hazards = ["led-paint"]', (7, 12),
     'there is no hazard sheet "led-paint"; did you mean "lead-paint"?'),
    (DECK, 'part = "boards"', 'part = "bords"', (9, 1),
     'there is no part "bords" here; did you mean "boards"?'),
    (FRAME, "hours = [2, 4, 8]", "hours = [8, 4, 2]", (6, 1),
     '"hours" is not a low, a likely and a high estimate; write person-hours from low to high'),
    (FRAME, '"36 hours"', '"36 houres"', (12, 24),
     '"36 houres" is not a time span; write "36 hours"'),
    (FRAME, 'kind = "dry"', 'kind = "drying"', (12, 10),
     '"drying" is no kind; did you mean "dry"?'),
    (FRAME, "title = \"Scrape the sills\"", "titel = \"Scrape the sills\"", (5, 1),
     '"titel" is not known here; did you mean "title"?'),
    (CREW, "lead = true", 'lead = "yes"', (4, 1), '"lead" is a text; write true or false'),
    (CREW, "eighteen_on = 2027-03-04", 'eighteen_on = "March"', (10, 1),
     '"eighteen_on" is a text; write a date without quotes'),
    (VEHICLE, '"first saturday"', '"second caturday"', (6, 10),
     '"second caturday" is not a rule for work days; write "first saturday"'),
    (VEHICLE, "closes = 16:00:00", "closes = 08:00:00", (8, 1),
     "the shop closes at 08:00, not after it opens at 09:00"),
    (VEHICLE, 'timezone = "CET"', 'timezone = "Mars"', (3, 1), '"Mars" is no known time zone'),
    (VEHICLE, "at_most_humidity = 85", "at_most_humidity = 850", (15, 33),
     '"at_most_humidity" is 850; write a number from 0 to 100'),
    (VEHICLE, "closed = [2026-08-01]", 'closed = ["August"]', (10, 11), '"closed" holds a text'),
    (DAY, 'who = "ada" }', 'who = "adda" }', (4, 70),
     'there is no person "adda"; did you mean "ada"?'),
    (DAY, 'task = "frame/scrape", crew', 'task = "frame/scape", crew', (5, 68),
     'there is no task "frame/scape"; did you mean "frame/scrape"?'),
    (DAY, "date = 2026-05-02", "date = 2026-05-03", (1, 1),
     "the file is named 2026-05-02 and says 2026-05-03"),
    (DAY, 'kind = "sign-in"', 'kind = "sign-inn"', (4, 52),
     '"sign-inn" is no kind of entry; did you mean "sign-in"?'),
    (DAY, "hours = 2.5", "hours = -2.5", (7, 81),
     '"hours" is -2.5; write a number from 0 to 10000'),
    (DAY, "at = 2026-05-02T09:10:00", "at = 2026-05-02T09:10:00Z", (4, 14),
     '"at" has an offset from UTC'),
    (DAY, 'hold = "k7f3q2mn"', 'hold = "k7f3q2mm"', (9, 71),
     'no entry "k7f3q2mm" starts a hold; did you mean'),
    (DAY, 'replaces = "k7f3q2mm"', 'replaces = "k7f3q2zz"', (11, 146),
     'this replaces "k7f3q2zz", which is no other entry of this day'),
    (DAY, "hours = 3,", "hours = 30,", (7, 81), "Ada Test has 30 hours on 2026-05-02, more than"),
]  # fmt: skip


@pytest.mark.parametrize(("file", "old", "new", "place", "says"), MISTAKES)
def test_a_mistake_is_told_at_its_place_with_what_mends_it(
    tmp_path: Path, file: str, old: str, new: str, place: tuple[int, int], says: str
) -> None:
    found = looked_over(changed(tmp_path, file, old, new))
    told = [fault for fault in found.mistakes if fault.file == file]
    assert told, found
    match = [fault for fault in told if says in f"{fault.sentence}; {fault.hint}"]
    assert match, told
    assert (match[0].line, match[0].column) == place


BROKEN: list[tuple[str, bytes]] = [
    ("is not TOML", b'name = "Deck"\nafter = [frame\n'),
    ("is not UTF-8", b'name = "Deck \xe9"\n'),
    ("holds zero bytes", b"name = \0\0\0"),
    ("is UTF-16", 'name = "Deck"'.encode("utf-16")),
    ("is 10 MB of comment", b"# filler\n" * 1_200_000),
    ("is 10 MB of nothing", b"\0" * 10_000_000),
    ("nests a hundred thousand lists", b"x = " + b"[" * 100_000),
    ("nests closed lists", b"x = " + b"[" * 50_000 + b"]" * 50_000),
    ("gives a table twice", b"[a]\nx = 1\n[a]\ny = 2\n"),
    ("is a picture", bytes(range(256)) * 40),
    ("ends in a string", b'name = "Deck'),
    ("has conflict marks", b'<<<<<<< ours\nname = "a"\n=======\nname = "b"\n>>>>>>> theirs\n'),
]


@pytest.mark.parametrize("file", [VEHICLE, CREW, "supplies.toml", "hazards.toml", DECK, DAY])
@pytest.mark.parametrize(("what", "data"), BROKEN, ids=[what for what, _ in BROKEN])
def test_a_broken_file_is_named_and_the_rest_opens(
    tmp_path: Path, file: str, what: str, data: bytes
) -> None:
    files = {path: text.encode() for path, text in FILES.items()}
    files[file] = data
    root = make(tmp_path, files)
    start = time.process_time()
    folder = Folder(root)
    found = looked_over(root)
    assert time.process_time() - start < 5
    told = [fault for fault in found.mistakes if fault.file == file]
    assert len(told) == 1
    assert told[0].line >= 1
    assert told[0].column >= 1
    assert told[0].sentence
    assert file in folder.broken
    assert ("deck/lay" in folder.plan.tasks) == (file != DECK)
    # Of a crew that cannot be read the logbook still knows the short names, and nothing else.
    assert folder.plan.crew["ada"].lead == (file != CREW)
    assert (folder.plan.vehicle.name == "Test van") == (file != VEHICLE)
    assert "frame/scrape" in folder.plan.tasks


def test_nothing_is_written_over_a_broken_day(tmp_path: Path) -> None:
    root = changed(tmp_path, DAY, "[entries]", "[entries")
    before = (root / DAY).read_bytes()
    said = [Said(Noted("x"), datetime(2026, 5, 2, 12))]
    outcome = Workbench(root).record(said, by="ada", now=datetime(2026, 5, 2, 12))
    assert not outcome.kept
    assert f"{DAY}:3:" in outcome.refused[0].says
    assert (root / DAY).read_bytes() == before


@pytest.mark.parametrize("data", [b"", b"  \n\n", b"\xef\xbb\xbf"], ids=["0", "blank", "mark"])
@pytest.mark.parametrize("file", [VEHICLE, CREW, "supplies.toml", "hazards.toml", DAY, DECK])
def test_a_file_of_no_bytes_or_only_spaces_is_a_lost_file(
    tmp_path: Path, file: str, data: bytes
) -> None:
    files = {path: text.encode() for path, text in FILES.items()}
    files[file] = data
    root = make(tmp_path, files)
    found = looked_over(root)
    assert [(fault.file, fault.code) for fault in found.mistakes] == [(file, "empty")]
    assert file in Folder(root).broken


@pytest.mark.parametrize("file", [CREW, "supplies.toml", "hazards.toml"])
def test_a_list_in_which_only_a_comment_stands_is_one_of_nothing_yet(
    tmp_path: Path, file: str
) -> None:
    root = make(tmp_path)
    (root / file).write_text("# nobody and nothing yet\n", encoding="utf-8")
    assert file not in Folder(root).broken


@pytest.mark.parametrize(
    "text", ["# Saturday\n", "date = 2026-05-02\n", 'note = "x"\n', "entries = 3\n"]
)
def test_a_day_without_entries_is_a_lost_day(tmp_path: Path, text: str) -> None:
    root = make(tmp_path)
    (root / DAY).write_text(text, encoding="utf-8")
    (fault,) = looked_over(root).mistakes
    assert fault.file == DAY
    assert DAY in Folder(root).broken
    said = [Said(Noted("x"), datetime(2026, 5, 2, 12))]
    assert not Workbench(root).record(said, by="ada", now=datetime(2026, 5, 2, 12)).kept
    assert (root / DAY).read_text(encoding="utf-8") == text


def test_a_folder_without_its_vehicle_says_so(tmp_path: Path) -> None:
    root = make(tmp_path)
    (root / VEHICLE).unlink()
    found = looked_over(root)
    assert [fault.code for fault in found.mistakes] == ["missing-file"]
    assert "deck/lay" in Folder(root).plan.tasks


def test_a_loop_is_told_whole_with_file_and_line_of_each_step(tmp_path: Path) -> None:
    root = changed(tmp_path, FRAME, 'title = "Scrape the sills"', 'title = "S"\nafter = ["deck"]')
    (fault,) = [f for f in looked_over(root).mistakes if f.code == "loop"]
    assert "components/frame.toml:6" in fault.whole
    assert "components/deck.toml:2" in fault.whole
    assert "frame/scrape" in fault.whole
    small = changed(
        tmp_path / "b", FRAME, 'title = "Scrape the sills"', 'title = "S"\nafter = ["prime"]'
    )
    (fault,) = [f for f in looked_over(small).mistakes if f.code == "loop"]
    assert "frame/scrape" in fault.whole
    assert "frame/prime" in fault.whole
    assert "frame.toml:6" in fault.whole
    assert "frame.toml:12" in fault.whole


def _add(file: str, text: str) -> Callable[[Path], None]:
    def act(root: Path) -> None:
        path = root / file
        path.parent.mkdir(parents=True, exist_ok=True)
        before = path.read_text() if path.exists() else ""
        path.write_text(before + text)

    return act


def _link(file: str, to: str) -> Callable[[Path], None]:
    return lambda root: (root / file).symlink_to(to)


ODD = [
    (_add(DAY, 'zz = { at = 2026-05-02T10:00:00, kind = "taken back", entry = "gone" }\n'),
     DAY, 'this takes back "gone", which is no entry of this day', True),
    (_add("days/2026/2026-05-16.toml",
          'date = 2026-05-16\n[entries]\n'
          'k7f3q2mh = { at = 2026-05-16T09:00:00, kind = "note", text = "x" }\n'),
     "days/2026/2026-05-16.toml", f'"k7f3q2mh" is also an entry of {DAY}', True),
    (_add(DAY, 'zz = { at = 2026-05-02T12:10:00, kind = "hours", who = "ada", hours = 4, '
               'task = "frame/scrape", replaces = "k7f3q2mm" }\n'),
     DAY, 'both correct "k7f3q2mm"', True),
    (_add(DAY, 'zz = { at = 2026-05-02T10:00:00, kind = "check", hazard = "lead-paint", '
               'check = "no-such", who = "ada" }\n'),
     DAY, 'the sheet "lead-paint" has no check "no-such"', True),
    (_add(DAY, 'k7f3q2mh = { at = 2026-05-02T10:00:00, by = "ada", kind = "note", text = "x" }\n'),
     DAY, '"k7f3q2mh" stands here with other words than on line 4', True),
    (_add("days/2026/2026-05-02 (1).toml", 'date = 2026-05-02\n[entries]\n'),
     "days/2026/2026-05-02 (1).toml", "this file among the days is not named for a day", True),
    (_add("days/2025/2026-05-16.toml", 'date = 2026-05-16\n[entries]\n'),
     "days/2025/2026-05-16.toml", "the file of a day, and stands in the wrong folder", True),
    (_add(DECK, 'pictures = ["no.jpg"]\n'), DECK, 'there is no picture "no.jpg"', True),
    (_add(DECK, 'pictures = ["../../etc/passwd"]\n'), DECK, "is not inside the folder", True),
    (_add(DECK, 'pictures = ["/etc/passwd"]\n'), DECK, "is not inside the folder", True),
    (_add(DECK, "pictures = [\"a\\u0000b\"]\n"), DECK, "is not inside the folder", True),
    (_link("components/lost.toml", "nowhere"),
     "components/lost.toml", "the link leads nowhere", True),
    (_link("components/round.toml", "round.toml"),
     "components/round.toml", "the link leads nowhere", True),
    (_link("components/out.toml", "/etc/hostname"),
     "components/out.toml", "leads out of the folder", True),
    (_add("crews.toml", "x = 1\n"), "crews.toml", "nothing reads this file", False),
    (_add(DAY, 'zz = { at = 2026-05-02T14:00:00, kind = "finished", task = "deck/trim" }\n'),
     DAY, '"Trim the boards" was finished before "Prime the sills" and 1 more', False),
    (_add(DAY, 'zy = { at = 2026-05-02T16:00:00, kind = "sign-out", who = "ada" }\n'
               'zz = { at = 2026-05-02T16:00:00, kind = "hours", who = "ada", hours = 9 }\n'),
     DAY, "Ada Test has 12 hours on 2026-05-02 and was there for 6.83", False),
]  # fmt: skip


@pytest.mark.parametrize(
    ("act", "file", "says", "mistake"), ODD, ids=[each[2][:40] for each in ODD]
)
def test_what_only_the_whole_shows_is_found(
    tmp_path: Path, act: Callable[[Path], None], file: str, says: str, mistake: bool
) -> None:
    root = make(tmp_path)
    act(root)
    found = looked_over(root)
    told = found.mistakes if mistake else found.questions
    assert any(says in f"{f.sentence}; {f.hint}" and f.file == file for f in told), found
    if not mistake:
        assert not found.mistakes


def test_a_line_that_a_merge_doubled_counts_once_and_is_no_mistake(tmp_path: Path) -> None:
    root = make(tmp_path)
    line = FILES[DAY].splitlines()[5]
    _add(DAY, line + "\n")(root)
    assert looked_over(root).mistakes == ()
    assert len(Folder(root).logbook.days[NOON.date().replace(day=2)].entries) == 8
    outcome = Workbench(root).record(
        [Said(Noted("goes on"), datetime(2026, 5, 2, 12))], by="ada", now=datetime(2026, 5, 2, 12)
    )
    assert outcome.kept
    assert (root / DAY).read_text().startswith(FILES[DAY] + line + "\n")


def test_a_picture_through_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "secret.jpg").write_bytes(b"x")
    root = make(tmp_path / "van")
    (root / "in.jpg").write_bytes(b"x")
    (root / "out.jpg").symlink_to(tmp_path / "secret.jpg")
    _add(DECK, 'pictures = ["in.jpg", "out.jpg"]\n')(root)
    (fault,) = looked_over(root).mistakes
    assert fault.sentence == 'the picture "out.jpg" is not inside the folder'
