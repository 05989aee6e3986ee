"""What was reckoned, where the work is told: the task as JSON, the book, the safety talk."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.fabric.fabric import fabric_of
from crewboard.folder.read.folder import Folder
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.safety.briefing import briefing
from crewboard.paper.plain import plain_lines
from crewboard.telling.book.of_component import component_book
from crewboard.telling.book.statement import Sentence
from crewboard.telling.briefing import briefing_sheet
from crewboard.telling.report import sheet_lines
from crewboard.telling.short_talk import short_talk_sheet
from tests.command.calling import Shell
from tests.command.test_reckon import ARC, AT, RIBS, bend

SHARP = ("--given", "species=ash", "thickness=26 mm", "radius=400 mm")


@pytest.fixture
def shop(van: Path) -> Path:
    with (van / "components/frame.toml").open("a", encoding="utf-8") as frame:
        frame.write(RIBS)
    return van


def board(shop: Path) -> Board:
    folder = Folder(shop)
    return assess(folder.plan, folder.logbook, datetime(2026, 5, 3, 18))


def keep(call: Shell, shop: Path, *typed: str) -> str:
    """The id of the entry."""
    ended = call("reckon", shop, *typed, "--keep", "--json", *AT)
    assert ended.code == 0, ended.err
    return str(ended.form["entries"][0]["id"])


def told(shop: Path) -> dict[str, list[Sentence]]:
    """The sentences of the frame's page, by the entries behind them."""
    here = board(shop)
    book = component_book(here, fabric_of(here.plan, here.logbook, here.at), "frame")
    sentences: dict[str, list[Sentence]] = {}
    for one in book.every_statement():
        for entry in one.entries:
            sentences.setdefault(entry, []).append(one)
    return sentences


def test_a_task_as_json_has_all_that_was_reckoned_for_its_series(call: Shell, shop: Path) -> None:
    first = keep(call, shop, "form", "--task", "bend", *ARC, "--note", "for [both]")
    bend(call, shop, "322 mm")
    second = keep(call, shop, "--again", first)
    for rib in ("bend/1", "bend/2"):
        one, two = call("task", shop, rib, "--json", *AT[:2]).form["reckoned"]
        assert (one["entry"], two["entry"], two["before"]) == (first, second, first)
        assert one["answer"].startswith("no published springback")
        assert two["given"] == ["chord = 2060 mm", "rise = 320 mm"]
        assert two["known"][-1].startswith("bend = ash, 26 mm thick")
        assert (one["by"], one["about"], one["note"]) == ("ada", "form", "for [both]")
    assert call("task", shop, "varnish", "--json", *AT[:2]).form["reckoned"] == []
    series = call("task", shop, "bend", "--json", *AT[:2]).form["tasks"]
    assert all(len(form["reckoned"]) == 2 for form in series.values())


def test_the_book_tells_each_answer_with_its_entry_and_both_of_one_redone(
    call: Shell, shop: Path
) -> None:
    first = keep(call, shop, "form", "--task", "bend", *ARC)
    bend(call, shop, "322 mm", "ash", "--task", "bend/1")
    second = keep(call, shop, "--again", first)
    sentences = told(shop)
    assert [one.entries for one in sentences[first]] == [(first,), (second, first)]
    (again,) = sentences[second]
    assert again.word == "form"
    assert 'reckoned for "Bend the ribs: Rib 1" from chord = 2060 mm; rise = 320 mm' in again.says
    assert "1 bend of the shop's own" in again.says
    assert "it stands for the answer of Sun 3 May 2026" in again.says
    assert call("take-back", shop, first, "--by", "ada").code == 0
    assert set(told(shop)) & {first, second} == {second}


def test_an_answer_for_a_piece_stands_in_the_section_of_that_piece(call: Shell, shop: Path) -> None:
    entry = keep(call, shop, "arc", "--piece", "ribs/1", *ARC)
    here = board(shop)
    book = component_book(here, fabric_of(here.plan, here.logbook, here.at), "frame")
    sections = [part for section in book.sections for part in section.parts]
    (rib,) = [part for part in sections if part.piece == "frame/ribs/1"]
    (said,) = [one for one in rib.statements if entry in one.entries]
    assert "reckoned for Rib 1" in said.says


def talks(shop: Path, *tasks: str) -> list[str]:
    talk = briefing(board(shop), tasks)
    sheets = (briefing_sheet(talk), short_talk_sheet(talk))
    return [" ".join(" ".join(plain_lines(sheet_lines(sheet), 80)).split()) for sheet in sheets]


def test_the_talk_says_what_an_answer_warns_of_for_the_work_of_the_day(
    call: Shell, shop: Path
) -> None:
    keep(call, shop, "arc", "--task", "bend", *ARC)
    assert briefing(board(shop), ["frame/bend/ribs/1"]).reckoned == ()  # it warns of nothing
    first = keep(call, shop, "form", "--task", "bend", *SHARP)
    for text in talks(shop, "frame/bend/ribs/1"):
        assert "without a strap with end stops not sharper than" in text
        assert "expect to break" in text or "the outside stretches" in text
        assert "no table of the sharpest bend" not in text
    both = briefing(board(shop), ["frame/bend/ribs/1", "frame/bend/ribs/2"]).reckoned
    assert len(both) == 1  # once, though it is of use to both
    assert not any("strap" in text for text in talks(shop, "frame/varnish"))
    keep(call, shop, "--again", first, "--given", "radius=9 m")  # nothing is sharp about that
    assert briefing(board(shop), ["frame/bend/ribs/1"]).reckoned == ()


def test_an_answer_that_cannot_be_worked_out_again_warns_of_nothing(shop: Path) -> None:
    kept = 'answer = "x", given = ["chord"], task = "frame/bend/ribs/1" }'
    with (shop / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        for name, about in (("zzreckon", "form"), ("zzreckom", "nothing")):
            start = f'at = 2026-05-02T12:20:00, by = "ada", kind = "reckoned", about = "{about}"'
            day.write(f"{name} = {{ {start}, {kept}\n")
    assert briefing(board(shop), ["frame/bend/ribs/1"]).reckoned == ()
    assert {"zzreckon", "zzreckom"} <= set(told(shop))
