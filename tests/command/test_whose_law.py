"""Whose law comes first, in the folder's commands; and what `check` asks of cards and places."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.plan.bench_card import MOST_WORDS
from tests.command.calling import Shell
from tests.command.trailer import VEHICLE, make_trailer

CREW = '[people.ada]\nname = "Ada"\nadult = true\nlead = true\n'


def placed(root: Path, jurisdiction: str) -> Path:
    make_trailer(root, CREW, 'name = "Body"\n')
    (root / "vehicle.toml").write_text(f'jurisdiction = "{jurisdiction}"\n{VEHICLE}')
    return root


@pytest.mark.parametrize("here", ["US", "GB", "EU"])
def test_the_law_of_the_folders_place_stands_first_under_its_name(
    here: str, tmp_path: Path, call: Shell
) -> None:
    sheet = call("hazards", placed(tmp_path, here), "lead paint").out
    first, _, elsewhere = sheet.rpartition(f"\nLaw, {here}\n")[2].partition("\nLaw elsewhere\n")
    laws = [line.strip() for line in first.splitlines() if line.strip().startswith("- ")]
    assert laws
    others = {"US", "GB", "EU"} - {here}
    assert not any(f"- {other}: " in first for other in others)
    assert all(f"- {other}: " in elsewhere for other in others)


def test_a_place_for_which_nothing_is_written_is_told_so_and_asked_about(
    tmp_path: Path, call: Shell
) -> None:
    folder = placed(tmp_path, "Ruritania")
    sheet = " ".join(call("hazards", folder, "lead paint").out.split())
    assert "Nothing is written here for Ruritania: look up what its law asks." in sheet
    assert "Ruritania's law" in call("hazards", folder, "lead paint", "--card").out
    told = call("check", folder)
    assert told.code == 0  # it may well be so
    assert 'quote no law of "Ruritania"' in told.out


def test_a_card_that_is_too_long_to_read_is_asked_about(tmp_path: Path, call: Shell) -> None:
    folder = placed(tmp_path, "GB")
    long = " ".join(["word"] * MOST_WORDS)
    (folder / "hazards.toml").write_text(f'[noise.card]\ncheck = ["{long}"]\n')
    assert f"at most {MOST_WORDS} are read in half a minute" in call("check", folder).out


def test_no_crew_undoes_that_something_is_not_used(tmp_path: Path, call: Shell) -> None:
    folder = placed(tmp_path, "GB")
    decided = 'decided_by = "ada"\nwhy = "we are careful people here"\n'
    (folder / "hazards.toml").write_text(f'[methylene-chloride]\n{decided}do_not_use = ""\n')
    told = call("check", folder)
    assert told.code != 0
    assert "is not used: no crew can change that" in told.out
    assert "Do not use" in call("hazards", folder, "methylene-chloride").out


def test_a_new_folder_says_whose_law_it_is_under(tmp_path: Path, call: Shell) -> None:
    assert call("new", tmp_path / "van", "--jurisdiction", "EU").code == 0
    assert "\nLaw, EU\n" in call("hazards", tmp_path / "van", "noise").out
