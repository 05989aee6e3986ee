"""Reckoning on the screens: what fits first, filled in, worked out, chosen, kept, done anew."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from textual.widgets import Input

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Reckoned, SizeDecided
from crewboard.paper.plain import plain_lines
from crewboard.telling.reckoning import answer_lines, card_lines
from crewboard.trade.kind import reckon
from crewboard.trade.kinds import KINDS, kind_named
from tests.terminal.shop import Watch, asked, make_shop, open_app, reads, seen, types, until
from tests.terminal.test_pictures import SAMPLE, SHOWN_AT
from tests.trade.reckoned import ENOUGH, PANEL_TO_VARNISH, given

WORK = f"""\
name = "Work"

{PANEL_TO_VARNISH}
[tasks.deck]
title = "Lay the [b]deck[/b]"
"""
SPELLED = {" ": "space", ",": "comma", "=": "equals_sign", ".": "full_stop", "/": "slash"}


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van", components={"work": WORK})


def keys(*typed: str) -> list[str]:
    """Names of keys, and texts to type, which begin with a quote: "'20x88"."""
    pressed: list[str] = []
    for one in typed:
        text = one[1:] if one.startswith("'") else ""
        pressed += [SPELLED.get(letter, letter) for letter in text] or [one]
    return pressed


def kept(shop: Path) -> list[Reckoned]:
    acts = (entry.act for entry in Folder(shop).logbook.record())
    return [act for act in acts if isinstance(act, Reckoned)]


async def test_a_coat_is_reckoned_from_its_task_and_kept_with_it(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        await pilot.press(*keys("3", "slash", "'Varnish", "enter", "equals_sign"))
        await until(pilot, lambda: "Reckon:" in asked(app))
        assert asked(app).index("paint for an area") < asked(app).index("a length in")
        await pilot.press("1")
        await until(pilot, lambda: "how many coats" in asked(app))
        assert "7.5 m2" in asked(app), "the area of its piece"
        assert "16 hours" in asked(app), "what its hold says"
        await pilot.press(*keys("'2", "tab", "'8 m2/l", "enter"))
        await until(pilot, lambda: "Enter keep" in asked(app))
        await pilot.press("end")
        await until(pilot, lambda: "source:" in asked(app))
        assert "assumes: area: 7.5 m2, as the plan has Panel" in asked(app)
        await pilot.press("enter")
        await until(pilot, lambda: kept(shop))
    (act,) = kept(shop)
    assert (act.about, act.task) == ("coats", "work/varnish")
    assert act.given == ("coats = 2", "rate = 8 m2/l")
    assert "area = 7.5 m2 | as the plan has Panel" in act.known


async def test_what_cannot_be_read_is_said_and_the_form_stays(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        await pilot.press(*keys("3", "slash", "'Lay the", "enter", "equals_sign"))
        await until(pilot, lambda: "[b]deck[/b]" in asked(app))
        await pilot.press("1")
        await until(pilot, lambda: "width to fill" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Not reckoned: width to fill is missing" in asked(app))
        await pilot.press(*keys("'2440", "enter"))  # goes to what is missing
        await pilot.press(*keys("'many [red]x", "enter"))
        await until(pilot, lambda: '"many [red]x"' in asked(app).partition("Not reckoned")[2])
        boxes = [box.value for box in app.screen.query(Input)]
        assert boxes[:2] == ["2440", "many [red]x"]
        await pilot.press("escape")
        await until(pilot, lambda: "Throw it away?" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: not asked(app))
    assert not kept(shop)


async def test_of_several_ways_one_is_chosen_by_arrow_drawn_kept_and_done_anew(shop: Path) -> None:
    app = open_app(shop, by="ada", plain=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        await pilot.press(*keys("3", "slash", "'Lay the", "enter", "equals_sign", "1"))
        await until(pilot, lambda: "width to fill" in asked(app))
        await pilot.press(*keys("'2440", "tab", "'20x88,10x104,9x152", "enter"))
        await until(pilot, lambda: "Way 1 of" in seen(app))
        first = seen(app)
        assert "+----" in first, "drawn in ASCII"
        await pilot.press("left", "right")
        await until(pilot, lambda: "Way 2 of" in seen(app))
        assert boxes_of(first) != boxes_of(seen(app)), "the drawing follows"
        await pilot.press("e")
        await until(pilot, lambda: "Enter reckon" in asked(app))
        await pilot.press("enter", "enter")
        await until(pilot, lambda: len(kept(shop)) == 1)
        assert "choose = 2" in kept(shop)[0].given
        await pilot.press("equals_sign")
        await until(pilot, lambda: "anew, of" in asked(app))
        await pilot.press("2")  # behind the one kind that fits
        await until(pilot, lambda: "Enter reckon" in asked(app))
        await pilot.press("delete", *keys("'2400", "enter"))
        await until(pilot, lambda: "Enter keep" in asked(app))
        await pilot.press("end")
        await until(pilot, lambda: "before:" in asked(app))
        assert "no more: width = 2440 mm" in asked(app)
        await pilot.press("enter")
        await until(pilot, lambda: len(kept(shop)) == 2)
        await pilot.press("enter")  # its sheet
        await until(pilot, lambda: seen(app).count("boards:") == 2)
    assert kept(shop)[1].before


def boxes_of(picture: str) -> list[str]:
    return [line for line in picture.splitlines() if line.count("|") > 6]


@pytest.fixture
def sample(tmp_path: Path) -> Path:
    shutil.copytree(SAMPLE, tmp_path / "sample")
    return tmp_path / "sample"


async def test_the_deck_of_the_sample_is_made_up_in_under_40_keys(sample: Path) -> None:
    """Its face widths stand in the plan: 88, 104 and 152 mm; gap and overhang were decided on."""
    pressed = keys("3", "slash", "'choose", "enter", "equals_sign", "1")
    pressed += keys("'2034", "tab", "'9x152,9x104,9x88", "enter", "enter")
    assert len(pressed) < 40
    app = open_app(sample, Watch(SHOWN_AT), by="mirela")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first")
        before = len(kept(sample))
        for key in pressed[:-1]:
            await pilot.press(key)
        await until(pilot, lambda: "Enter keep" in asked(app))
        assert "┌──" in seen(app), "what to lay where"
        assert "A 152 mm x" in seen(app)
        await pilot.press(pressed[-1])
        await until(pilot, lambda: len(kept(sample)) == before + 1)
    act = kept(sample)[-1]
    assert (act.about, act.task) == ("boards", "boards/lay-out-deck")
    assert "exact" in act.answer
    assert any(line.startswith("gap = 3 mm | gap between the deck boards") for line in act.known)
    assert any(line.startswith("overhang = 27 mm") for line in act.known)


DECK = """\
name = "Floor"

[tasks.floor]
title = "Lay the floor boards"
supplies = ["oak"]
"""


async def test_the_boards_chosen_become_pieces_and_their_count_an_amount_of_a_supply(
    tmp_path: Path,
) -> None:
    """With gaps of 3 mm 306 mm are 3 x 100, or 4 x 74.25."""
    shop = make_shop(tmp_path / "van", components={"floor": DECK})
    (shop / "supplies.toml").write_text(
        '[supplies.oak]\nname = "Oak"\nquantity = "9 boards"\n\n'
        '[supplies.glue]\nname = "Glue"\nquantity = "2 l"\n'
    )
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        app.record([SizeDecided("gap in the floor", "3 mm", component="floor")])
        await pilot.press(*keys("3", "slash", "'Lay the floor", "enter", "equals_sign", "1"))
        await until(pilot, lambda: "width to fill" in asked(app))
        assert "3 mm" in asked(app), "decided on for its component"
        await pilot.press(*keys("'306", "tab", "'5x100,9x74.25", "enter"))
        await until(pilot, lambda: "o other" in asked(app))
        await pilot.press("right", "left", "o")
        await until(pilot, lambda: "save the drawing" in asked(app))
        await pilot.press("down", "down", "enter")
        await until(pilot, lambda: "a new SVG file" in asked(app))
        svg = tmp_path / "floor.svg"
        await pilot.press("ctrl+u", *keys(f"'{svg}", "enter"))
        await until(pilot, lambda: "o other" in asked(app))  # back at the card, nothing kept
        assert svg.read_text().count("<rect") == 1 + 3, "a board each, on white"
        assert not kept(shop)
        await pilot.press("o")
        await until(pilot, lambda: "boards as pieces" in asked(app))
        assert "count into a supply" in asked(app)
        await pilot.press("enter")
        await until(pilot, lambda: "what they are called" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: len(kept(shop)) == 1)
        plan = Folder(shop).plan
        laid = [plan.pieces[one].size for one in plan.several["floor/boards"]]
        assert laid == ["100 mm wide"] * 3
        assert kept(shop)[0].note == "as pieces: boards"
        assert kept(shop)[0].way.endswith(", looked at 1, 2")
        assert kept(shop)[0].way.startswith("way 1 of ")
        await pilot.press("equals_sign", "2")
        await until(pilot, lambda: "width to fill" in asked(app))
        await pilot.press("enter", "o")
        await until(pilot, lambda: "boards as pieces" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "what they are called" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "are there already" in asked(app))
        await pilot.press("escape")
        await until(pilot, lambda: "o other" in asked(app))  # back at the card
        await pilot.press("o")
        await until(pilot, lambda: "count into a supply" in asked(app))
        await pilot.press("down", "enter")
        await until(pilot, lambda: "Which supply" in asked(app))
        assert "Oak" in asked(app)
        assert "Glue" not in asked(app), "that is counted in litres"
        await pilot.press("enter")
        await until(pilot, lambda: len(kept(shop)) == 2)
        assert Folder(shop).plan.tasks["floor/floor"].amounts == {"oak": 3}
        assert kept(shop)[1].note == '"Lay the floor boards" needs 3 boards: Oak'
        await pilot.press("equals_sign", "2")
        await until(pilot, lambda: "width to fill" in asked(app))
        await pilot.press("enter", "o")
        await until(pilot, lambda: "keep with a note" in asked(app))
        await pilot.press("end", "enter")
        await until(pilot, lambda: "Keep it with a note" in asked(app))
        await pilot.press(*keys("'chalked by Ben", "enter"))
        await until(pilot, lambda: len(kept(shop)) == 3)
    assert kept(shop)[2].note == "chalked by Ben"


async def test_who_chose_among_several_ways_is_asked_before_it_is_kept(tmp_path: Path) -> None:
    shop = make_shop(
        tmp_path / "van", components={"floor": DECK.replace('supplies = ["oak"]\n', "")}
    )
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        await pilot.press(*keys("3", "slash", "'Lay the floor", "enter", "equals_sign", "1"))
        await until(pilot, lambda: "width to fill" in asked(app))
        await pilot.press(*keys("'300", "tab", "'5x100,9x75", "enter"))
        await until(pilot, lambda: "Way 1 of 2" in seen(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Your name" in asked(app))
        await pilot.press("escape")
        await until(pilot, lambda: "Way 1 of 2" in seen(app))  # nothing is lost
        assert not kept(shop)
        await pilot.press("enter")
        await until(pilot, lambda: "Your name" in asked(app))
        await pilot.press(*keys("'Ben", "enter"))
        await until(pilot, lambda: len(kept(shop)) == 1)
    (entry,) = Folder(shop).logbook.record()
    assert entry.by == "ben"
    assert kept(shop)[0].way == "way 1 of 2, looked at 1"


async def test_what_is_typed_ahead_goes_where_it_belongs(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        await pilot.press(*keys("3", "slash", "'Varnish", "enter"))
        types(app, *keys("equals_sign", "1", "'2", "tab", "'8 m2/l", "enter", "enter"))
        await until(pilot, lambda: kept(shop), 20)
    assert kept(shop)[0].given == ("coats = 2", "rate = 8 m2/l")


def test_the_screens_start_without_the_shop_s_reckoning() -> None:
    code = (
        "import sys, crewboard.terminal.app, crewboard.terminal.screens.work_day;"
        "sys.exit(any('crewboard.trade' in name for name in sys.modules))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


HOSTILE = '\x1b[31m [red]x[/] \u202e ] " ' + "long " * 60


async def test_hostile_text_of_a_kept_answer_is_shown_as_text_and_given_back(shop: Path) -> None:
    given = (f"species = {HOSTILE.strip()}", "thickness = 26 mm", "chord = 2060 mm", "rise = 9 mm")
    app = open_app(shop, by="ada")
    app.record([Reckoned("form", HOSTILE.strip(), given, (), task="work/varnish", note=HOSTILE)])
    app.record([Reckoned("no such kind", "x", given, ("unread",), task="work/deck")])
    app.record([Reckoned("boards", "x", ("stock = 1",), ("unread",), task="work/deck")])
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        await pilot.press(*keys("3", "slash", "'Varnish", "enter", "equals_sign"))
        await until(pilot, lambda: "anew, of" in asked(app))
        assert "[red]x[/]" in asked(app)
        await pilot.press(*keys("'red", "enter"))
        await until(pilot, lambda: "which wood" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Enter keep" in asked(app))
        assert "\x1b" not in seen(app)
        await pilot.press("enter")
        await until(pilot, lambda: len(kept(shop)) == 4)
        assert kept(shop)[-1].given[0] == given[0], "each character as it was"
        assert app.is_running
        await pilot.press(*keys("escape", "escape", "slash", "'Lay the", "enter", "equals_sign"))
        await until(pilot, lambda: "anew, of" in asked(app))
        await pilot.press("2")
        await until(pilot, lambda: "Enter reckon" in asked(app))
        await pilot.press("escape")


async def test_a_card_is_short_enough_for_a_small_window_and_w_says_the_rest(shop: Path) -> None:
    """Every kind, as it would fill a window of 24 lines: 7 of them are not the card's."""
    sheets = Folder(shop).plan.sheets
    for name in KINDS:
        answer = reckon(kind_named(name), given(ENOUGH[name]))
        short, whole = (
            plain_lines(list(told(kind_named(name), answer, sheets, ()))[1:], 72)
            for told in (card_lines, answer_lines)
        )
        assert len(list(short)) <= 17, name
        text = " ".join(" ".join(whole).split())
        for said in (*answer.result, *answer.cautions, *(s.in_words for s in answer.sources)):
            assert " ".join(said.split()) in text, name
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ready")
        await pilot.press(*keys("3", "slash", "'Varnish", "enter", "equals_sign"))
        await until(pilot, lambda: "Reckon:" in asked(app))
        await pilot.press(*keys("1"))
        await until(pilot, lambda: "how many coats" in asked(app))
        await pilot.press(*keys("'2", "tab", "'8 m2/l", "enter"))
        await until(pilot, lambda: "w why" in asked(app))
        assert "1 more source" in asked(app)
        assert "oily rags" in asked(app), "what hurts stands on the short card too"
        await pilot.press("w")
        await until(pilot, lambda: "more source" not in asked(app))
        await pilot.press("w")
        await until(pilot, lambda: "1 more source" in asked(app))
