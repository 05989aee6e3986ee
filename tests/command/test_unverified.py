"""What nobody has verified, by what it would take: kinds, sources, sentences."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.folder.read.hazard_sheets import built_in_ids, built_in_sheet
from crewboard.folder.read.hazard_sources import source_kinds
from crewboard.plan.hazard import Hazard, Mark
from crewboard.plan.source import UNKNOWN, kind_of
from crewboard.telling.unverified import unverified
from tests.command.calling import Shell
from tests.command.trailer import make_trailer

CREW = '[people.ada]\nname = "Ada"\nadult = true\nlead = true\n'
SHEETS = [sheet for name in built_in_ids() if (sheet := built_in_sheet(name)) is not None]


def quoted(sheet: Hazard) -> list[tuple[str, Mark]]:
    laws = (*sheet.laws, *sheet.reporting, *sheet.first_aid)
    return [(n.source, n.mark) for n in sheet.numbers] + [(law.source, law.mark) for law in laws]


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: str(sheet.id))
def test_every_source_of_the_sheets_is_in_the_table(sheet: Hazard) -> None:
    unknown = {s for s, _ in quoted(sheet) if s and kind_of(s, source_kinds()) is UNKNOWN}
    assert unknown == set()


def test_each_source_stands_in_the_table_once() -> None:
    names = [source for kind in source_kinds() for source in kind.sources]
    assert sorted(set(names)) == sorted(names)


def test_the_longest_name_that_fits_counts() -> None:
    kinds = {kind.id: kind for kind in source_kinds()}
    assert kind_of("29 CFR 1910.134(f)(2)", kinds.values()) == kinds["law"]
    assert kind_of("NFPA 51B, 5.6.3", kinds.values()) == kinds["standard"]
    assert kind_of("EH40 workplace exposure limits", kinds.values()) == kinds["advice"]
    assert kind_of("the letter of an uncle", kinds.values()) == UNKNOWN


def test_all_that_is_not_verified_is_told_once_and_nothing_else() -> None:
    found = unverified(SHEETS, source_kinds())
    waiting = [m for s in SHEETS for _, m in quoted(s) if m not in ("verified", "crew's rule")]
    assert sorted(each.mark for each in found) == sorted(waiting)
    places = [each.kind.id for each in found]
    order = [kind.id for kind in source_kinds()]
    assert places == sorted(places, key=order.index)


def test_the_command_names_kind_source_sheet_and_sentence(tmp_path: Path, call: Shell) -> None:
    make_trailer(tmp_path, CREW, 'name = "Body"\n')
    out = " ".join(call("unverified", tmp_path, "hot work").out.split())
    assert "Standards that must be bought" in out
    assert "NFPA 51B, 2019" in out
    assert "the fire watch stays at least 60 min after the work (second-hand)" in out
    form = call("unverified", tmp_path, "--json").form
    assert form["kinds"][0]["says"] == "laws, free to read"
    told = sum(len(kind["sentences"]) for kind in form["kinds"])
    assert told == len(unverified(SHEETS, source_kinds()))
