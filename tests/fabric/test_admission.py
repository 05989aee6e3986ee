"""What may be written into the record, and what is refused, asked about, or a lead's to say."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Ended, Shell

VEHICLE = """\
name = "The Plank Wagon"
shows = "market"
[periods.market]
name = "the market years"
[periods.depot]
name = "the depot years"
[work_days]
every = ["saturday"]
"""
CREW = """\
[people.ada]
name = "Ada"
lead = true
adult = true
[people.tom]
name = "Tom"
adult = true
"""
ROOF = """\
name = "Roof"
[pieces.arches]
name = "Arch"
count = 4
as_found = "original"
[pieces.arches.4]
as_found = "missing"
[pieces.patch]
name = "Green patch"
as_found = "original"
keep = true
[pieces.vent]
name = "Vent"
as_found = "later change"
period = "depot"
[tasks.strip]
title = "Take off the old paint"
each = ["patch", "vent"]
changes = "strips"
hours = [1, 2, 3]
"""
ON = "--at=2026-05-02T10:00"


class Wagon:
    """The folder, and calls on it by name of the person and the hour of the day."""

    def __init__(self, folder: Path, call: Shell) -> None:
        self.folder, self.call, self.hour = folder, call, 9

    def __call__(self, command: str, *words: str, by: str = "tom", at: str = "") -> Ended:
        self.hour += 1
        moment = at or f"2026-05-02T{self.hour:02}:00"
        return self.call(command, self.folder, *words, "--by", by, "--at", moment)

    def refused(self, sentence: str, command: str, *words: str, by: str = "tom") -> None:
        ended = self(command, *words, by=by)
        assert ended.code, ended.out
        assert sentence in ended.err

    def kept(self, command: str, *words: str, by: str = "tom", at: str = "") -> None:
        ended = self(command, *words, by=by, at=at)
        assert not ended.code, ended.err

    def fabric(self, piece: str) -> dict[str, object]:
        ended = self.call("fabric", self.folder, piece, "--json", "--at", "2026-06-01T09:00")
        pieces: list[dict[str, object]] = ended.form["pieces"]
        return pieces[0]


@pytest.fixture
def wagon(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Wagon:
    (tmp_path / "components").mkdir()
    for name, text in (("vehicle", VEHICLE), ("crew", CREW), ("components/roof", ROOF)):
        (tmp_path / f"{name}.toml").write_text(text)
    return Wagon(tmp_path, Shell(capsys))


def test_two_people_agree_before_a_piece_is_discarded_or_a_lead_answers_for_it(
    wagon: Wagon,
) -> None:
    gone = ("gone", "arches/1", "discarded", "--why", "rotten")
    wagon.refused("two people agree before Arch 1 is discarded", *gone)
    wagon.refused("two people agree", *gone, "--agreed", "tom", "--agreed", "tom")
    wagon.refused("two people agree", *gone, "--despite", "it fell to dust")
    wagon.kept(*gone, "--agreed", "tom", "--agreed", "ada")
    wagon.kept("gone", "arches/2", "discarded", "--despite", "it fell to dust", by="ada")
    assert "all the same: it fell to dust" in wagon.call("log", wagon.folder).out


def test_a_copy_by_conjecture_is_a_leads_word_and_one_without_evidence_is_asked_about(
    wagon: Wagon,
) -> None:
    copy = ("done", "arches/4", "copied on evidence")
    wagon.refused("nobody said how well the copy of Arch 4 is borne out", *copy)
    wagon.refused("it is conjecture", *copy, "--grade", "E", "--despite", "it looks well")
    wagon.kept(*copy, "--grade", "E", "--despite", "the owner wants one", by="ada")
    wagon.kept("done", "arches/4", "cleaned")
    assert wagon.fabric("arches/4")["state"] == "copied by conjecture"


@pytest.mark.parametrize(
    "words",
    [
        ("done", "patch", "replaced in kind"),
        ("done", "patch", "spliced"),
        ("gone", "patch", "given away", "--to", "a museum"),
        ("done", "patch", "repaired in place"),
        ("reuse", "patch", "--into", "arches/1"),
        ("begin", "strip/patch", "--who", "tom"),
    ],
)
def test_what_is_kept_for_ever_is_changed_on_a_leads_reason_alone(
    wagon: Wagon, words: tuple[str, ...]
) -> None:
    if words[0] == "begin":
        wagon.kept("sign-in", "ada", "tom")
    ended = wagon(*words)
    assert "Green patch is kept for ever" in ended.err, ended
    assert "Green patch is kept for ever" in wagon(*words, "--despite", "we want to").err
    if words[0] != "begin":  # other things stand in its way as well
        wagon.kept(*words, "--despite", "the owner decided", by="ada")


def test_what_is_kept_for_ever_may_be_cleaned_and_taken_off_by_anybody(wagon: Wagon) -> None:
    wagon.kept("done", "patch", "cleaned")
    wagon.kept("take-off", "patch")


def test_nothing_is_in_two_places(wagon: Wagon) -> None:
    wagon.kept("done", "arches/1", "replaced in kind")
    agreed = ("--agreed", "tom", "--agreed", "ada", "--why", "rotten")
    wagon.kept("gone", "arches/1", "discarded", "--old", *agreed)
    after = "the old Arch 1 was discarded on Sat 2 May 2026: it cannot be {} after that"
    wagon.refused(after.format("put away"), "store", "arches/1", "shelf 3", "--old")
    wagon.refused(after.format("reused"), "reuse", "arches/1", "--into", "arches/2", "--old")
    wagon.refused(after.format("discarded"), "gone", "arches/1", "discarded", "--old", *agreed)
    wagon.kept("gone", "arches/2", "discarded", *agreed)
    wagon.refused("it cannot be fitted after that", "done", "arches/2", "fitted")
    wagon.kept("reuse", "arches/3", "--into", "arches/1", "--all-of-it")
    wagon.refused("all of Arch 3 went into other pieces", "store", "arches/3", "shelf 3")
    wagon.refused("Arch 4 was missing when the crew began", "done", "arches/4", "cleaned")
    things = wagon.fabric("arches/1")["things"]
    assert isinstance(things, list)
    assert [thing["where"] for thing in things] == ["discarded", "on the vehicle"]


def test_no_piece_is_made_of_itself_and_no_wood_goes_round(wagon: Wagon) -> None:
    wagon.refused("no piece is made of itself", "reuse", "arches/1", "--into", "arches/1")
    wagon.kept("reuse", "arches/1", "--into", "arches/2")
    wagon.kept("reuse", "arches/2", "--into", "arches/3")
    wagon.refused("the wood would go round", "reuse", "arches/3", "--into", "arches/1")


def test_a_feature_of_another_time_is_recorded_before_it_goes(wagon: Wagon) -> None:
    asked = "nothing of Vent (of the depot years) is recorded before it goes"
    wagon.refused(asked, "take-off", "vent")
    wagon.refused(asked, "done", "vent", "replaced in kind")
    wagon.kept("take-off", "arches/1")
    wagon.kept("found", "three slots in tin", "--piece", "vent")
    wagon.kept("take-off", "vent")


def test_the_new_one_goes_only_where_that_is_said(wagon: Wagon) -> None:
    gone = ("gone", "arches/1", "discarded", "--agreed", "tom", "--agreed", "ada")
    wagon.kept("take-off", "arches/1")
    wagon.kept("store", "arches/1", "the loft")
    wagon.kept("made", "arches/1", "--of", "ash")
    wagon.refused("the new Arch 1 would be discarded; the one before it is put away", *gone)
    wagon.kept(*gone, "--old")
    things = wagon.fabric("arches/1")["things"]
    assert [thing["where"] for thing in things] == ["discarded", "made"]  # type: ignore[attr-defined]


def test_what_awaits_an_approval_does_not_go_before_the_answer(wagon: Wagon) -> None:
    gone = ("gone", "arches/1", "discarded", "--agreed", "tom", "--agreed", "ada")
    wagon.kept("hold", "approval", "--piece", "arches/1", "--why", "the owner sees it in June")
    wagon.refused("Arch 1 awaits an approval since Sat 2 May 2026 (the owner sees", *gone)
    wagon.refused("Arch 1 awaits", "done", "arches/1", "replaced in kind", "--why", "rot")
    wagon.kept("done", "arches/1", "cleaned")
    wagon.kept("gone", "arches/2", *gone[2:])
    wagon.kept("release", "arches/1", "--why", "she agrees", by="ada")
    wagon.kept(*gone)


@pytest.mark.parametrize("minute", ["12:75", "soon", "-1", "1:2:3:4"])
def test_a_finding_cites_a_recording_by_a_minute_that_can_be(wagon: Wagon, minute: str) -> None:
    (wagon.folder / "recordings").mkdir()
    (wagon.folder / "recordings/walk.wav").write_bytes(b"RIFF")
    said = ("found", "hollow", "--piece", "arches/1", "--recording", "recordings/walk.wav")
    wagon.refused(f'"{minute}" is no place in a recording', *said, f"--minute={minute}")
    wagon.refused("no recording is named", "found", "hollow", "--minute", "1:05")
    wagon.kept(*said, "--minute", "1:05")
    assert "said in recordings/walk.wav at 1:05" in wagon.call("log", wagon.folder).out


def test_what_came_back_is_asked_about_and_what_was_lost_may_be_found(wagon: Wagon) -> None:
    wagon.kept("gone", "arches/1", "given away", "--to", "the depot", "--why", "lent")
    wagon.refused("Arch 1 was given away to the depot", "store", "arches/1", "the loft")
    wagon.kept("store", "arches/1", "the loft", "--despite", "they brought it back")
    wagon.kept("gone", "arches/2", "lost")
    wagon.kept("store", "arches/2", "under the bench")
    assert not wagon.call("check", wagon.folder).out


def test_an_entry_of_a_past_day_that_makes_a_later_one_impossible_is_asked_about(
    wagon: Wagon,
) -> None:
    wagon.kept("store", "arches/1", "shelf 3")
    gone = ("gone", "arches/1", "discarded", "--agreed", "tom", "--agreed", "ada", "--why", "rot")
    ended = wagon(*gone, at="2026-04-25T10:00")
    assert "then what was written for Sat 2 May 2026 could not be" in ended.err
    wagon.kept(*gone, "--despite", "it is so", at="2026-04-25T10:00")
    told = wagon.call("check", wagon.folder)
    assert told.code == 1
    assert "Arch 1 was discarded on Sat 25 Apr 2026: it cannot be put away after that" in told.out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("take-off", "arches/9"), "arches/9"),
        (("reuse", "arches/1", "--into", "nothing"), "nothing"),
        (("found", "  "), "say seen"),
        (("store", "arches/1", " "), "say where"),
        (("done", "arches/1", "copied on evidence", "--grade", "B", "--sources", "xx"), "xx"),
        (("done", "arches/1", "replaced in kind", "--share", "40"), "so it was spliced"),
    ],
)
def test_what_says_nothing_or_names_nothing_is_refused(
    wagon: Wagon, words: tuple[str, ...], sentence: str
) -> None:
    wagon.refused(sentence, *words)


def test_a_line_written_by_hand_that_names_no_entry_is_named_by_check(wagon: Wagon) -> None:
    wagon.kept("found", "a split", "--piece", "arches/1")
    day = wagon.folder / "days" / "2026" / "2026-05-02.toml"
    line = (
        'byhand = { at = 2026-05-02T12:00:00, kind = "found", seen = "x", sources = ["nothing"] }'
    )
    day.write_text(f"{day.read_text()}{line}\n")
    told = wagon.call("check", wagon.folder)
    assert told.code == 1
    assert 'there is no entry "nothing"' in told.out
