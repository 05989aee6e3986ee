"""`crewboard reckon` and `crewboard bent`: filled in from the plan, kept, redone, shown."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Bent, Reckoned
from tests.command.calling import Shell
from tests.trade.reckoned import PANEL_TO_VARNISH

AT = ("--at", "2026-05-03T10:00", "--by", "ada")
ARC = ("--given", "chord=2060 mm", "rise=320 mm")
RIBS = f"""
[pieces.ribs]
name = "Rib"
count = 2
material = "ash"
size = "26 x 52 x 2300 mm"

[tasks.bend]
title = "Bend the ribs"
each = ["ribs"]
hold = {{ kind = "bend set", lasts = "1 month" }}

{PANEL_TO_VARNISH}"""


@pytest.fixture
def shop(van: Path) -> Path:
    with (van / "components/frame.toml").open("a", encoding="utf-8") as frame:
        frame.write(RIBS)
    return van


def bend(call: Shell, shop: Path, came_to: str, species: str = "ash", *more: str) -> None:
    typed = ("bent", shop, species, "--thickness", "26 mm", "--chord", "2060 mm")
    ended = call(*typed, "--form", "355 mm", "--came-to", came_to, *more, *AT)
    assert ended.code == 0, ended.err


def kept(shop: Path) -> list[Reckoned]:
    acts: list[Any] = [entry.act for entry in Folder(shop).logbook.record()]
    return [act for act in acts if isinstance(act, Reckoned)]


def test_without_a_kind_all_are_listed_and_those_that_fit_a_task_first(
    call: Shell, shop: Path
) -> None:
    assert "What can be reckoned" in call("reckon", shop).out
    fits = call("reckon", shop, "--task", "bend").out.partition("What else")[0]
    assert "form:" in fits
    assert "coats:" not in fits
    form = call("reckon", shop, "--task", "varnish", "--json").form
    assert [one["kind"] for one in form["kinds"] if one["fits"]] == [
        *("coats", "film", "may-we-coat"),
    ]


def test_without_anything_given_it_says_what_is_asked(call: Shell, shop: Path) -> None:
    asked = call("reckon", shop, "coats", "--task", "varnish")
    assert asked.code == 0
    assert "area= area, 12.5 m2 or 140 sq ft; 7.5 m2, as the plan has Panel" in " ".join(
        asked.out.split()
    )
    asks = call("reckon", shop, "coats", "--json").form["asks"]
    assert {"name": "coats", "needed": True}.items() <= asks[1].items()


def test_a_task_fills_in_its_area_and_what_its_label_says(call: Shell, shop: Path) -> None:
    given = ("--given", "coats=2", "rate=8 m2/l")
    form = call("reckon", shop, "coats", "--task", "varnish", *given, "--json").form
    assert form["figures"]["litres"] == pytest.approx(7.5 * 2 / 8 / 0.9)
    assert "the label: next coat after 16 hours" in form["result"]
    assert "area = 7.5 m2 | as the plan has Panel" in form["known"]


def test_the_last_reading_fills_in_the_air(call: Shell, shop: Path) -> None:
    form = call("reckon", shop, "may-we-coat", "--given", "surface=12", "--json", *AT[:2]).form
    assert form["known"] == [
        "temperature = 12.5 °C | shop reading of Sat 2 May 2026 15:20, 19 h old",
        "humidity = 70 % | shop reading of Sat 2 May 2026 15:20, 19 h old",
    ]
    before = call("reckon", shop, "moisture", "--at", "2026-05-02T09:00")
    assert "temperature=" in before.out  # nobody had read it yet: so it asks


def test_an_imperial_folder_has_the_air_in_fahrenheit(call: Shell, shop: Path) -> None:
    """12.5 °C are 54.5 °F exactly."""
    vehicle = shop / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("[", 'units = "imperial"\n[', 1))
    form = call("reckon", shop, "moisture", "--json", *AT[:2]).form
    assert form["known"][0].startswith("temperature = 54.5 °F | shop reading")
    assert any(line.startswith("readings = 54.5 °F 70 %") for line in form["known"])


def test_what_is_typed_goes_before_what_is_known(call: Shell, shop: Path) -> None:
    given = ("--given", "temperature=20", "humidity=65")
    form = call("reckon", shop, "moisture", *given, "--json").form
    assert form["known"] == []
    assert round(form["figures"]["moisture_percent"], 1) == 12.0


def test_an_answer_is_kept_and_shown_on_the_sheets_of_its_series(call: Shell, shop: Path) -> None:
    bend(call, shop, "322 mm", "ash", "--days", "21", "--stored", "loft")
    ended = call("reckon", shop, "form", "--task", "bend", *ARC, "--keep", *AT)
    assert ended.code == 0, ended.err
    (act,) = kept(shop)
    assert act.task == "frame/bend/ribs/1"  # the first that is still to do
    assert act.given == ("chord = 2060 mm", "rise = 320 mm")
    assert act.known[-1] == (
        "bend = ash, 26 mm thick, over a chord of 2060 mm, form 355 mm, came to 322 mm, "
        "21 days after, stored loft"
    )
    for rib in ("1", "2"):
        sheet = call("task", shop, f"bend/{rib}", *AT[:2])
        assert "Reckoned" in sheet.out
        assert act.answer in " ".join(sheet.out.split())
    assert "Reckoned" not in call("task", shop, "varnish", *AT[:2]).out
    assert "Reckoned" not in call("task", shop, "bend/1", "--at", "2026-05-02T09:00").out
    assert call("check", shop).code == 0
    assert "one bend" in " ".join(ended.out.split())


def test_it_is_redone_when_the_shop_has_learned_more_and_both_are_shown(
    call: Shell, shop: Path
) -> None:
    bend(call, shop, "322 mm")
    call("reckon", shop, "form", "--task", "bend", *ARC, "--keep", *AT)
    first = call("log", shop, "--kind", "reckoned", "--json").form["entries"][0]["id"]
    same = call("reckon", shop, "--again", first, *AT[:2])
    assert "now: the same" in same.out
    bend(call, shop, "310 mm")
    bend(call, shop, "100 mm", "oak")  # another wood: no new ground
    again = call("reckon", shop, "--again", first, "--keep", *AT)
    assert again.code == 0, again.err
    old, new = kept(shop)
    assert new.before == first
    assert old.answer != new.answer
    said = " ".join(again.out.split())
    assert f"before: {old.answer}" in said
    assert f"now: {new.answer}" in said
    assert "because: new: bend = ash" in said
    assert "oak" not in said
    sheet = " ".join(call("task", shop, "bend/1", *AT[:2]).out.split())
    assert old.answer in sheet
    assert new.answer in sheet
    assert "reckoned anew" in sheet
    form = call("reckon", shop, "--again", first, "--json", *AT[:2]).form
    assert form["before"] == first
    assert len(form["learned"]) == 1


def test_a_bend_taken_back_or_corrected_is_no_more_fitted(call: Shell, shop: Path) -> None:
    bend(call, shop, "322 mm")
    asked = ("reckon", shop, "form", "--task", "bend", *ARC, "--json", *AT[:2])
    assert call(*asked).form["figures"]["bends"] == 1
    entry = call("log", shop, "--kind", "bent", "--json").form["entries"][0]["id"]
    assert call("correct", shop, entry, "--set", "came_to=310 mm", "--by", "ada").code == 0
    ratio = call(*asked).form["figures"]["ratio"]
    assert call("take-back", shop, entry, "--by", "ada").code == 0
    assert call(*asked).form["figures"]["bends"] == 0
    assert ratio < 0.9


def test_a_reckoning_stays_off_the_work(call: Shell, shop: Path) -> None:
    bend(call, shop, "322 mm")
    call("reckon", shop, "form", "--task", "bend", *ARC, "--keep", *AT)
    days = Folder(shop).logbook.days.values()
    counting = [entry.act for day in days for entry in day.counting]
    assert not any(isinstance(act, Reckoned | Bent) for act in counting)


def test_the_ways_that_a_command_told_are_those_that_were_looked_at(
    call: Shell, shop: Path
) -> None:
    """Between 96 in and an eighth of one lie five (of the published combinations)."""
    deck = ("width=96 in", "stock=12 x 3 7/8, 10 x 5 1/4, 6 x 7 1/2 in", "tolerance=1/8 in")
    chosen = ("--given", *deck, "choose=2", "--task", "varnish", "--keep", *AT)
    told = call("reckon", shop, "boards", *chosen)
    assert told.code == 0, told.err
    assert told.out.count("way ") >= 4
    (act,) = kept(shop)
    assert act.way == "way 2 of 5, looked at 1, 2, 3, 4, 5"


def test_boards_are_drawn_and_the_drawing_is_had_as_svg(
    call: Shell, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    deck = ("--given", "width=96 in", "stock=12 x 3 7/8, 10 x 5 1/4, 6 x 7 1/2 in")
    ended = call("reckon", shop, "boards", *deck)
    assert "│ B │" in ended.out
    for columns in (80, 60, 40):
        monkeypatch.setenv("COLUMNS", str(columns))
        lines = call("reckon", shop, "boards", *deck).out.splitlines()
        assert all(len(line) <= columns for line in lines)
    svg = call("reckon", shop, "boards", *deck, "--svg").out
    assert svg.startswith("<?xml")
    assert svg.rstrip().endswith("</svg>")
    refused = call("reckon", shop, "arc", *ARC, "--svg")
    assert refused.code == 1
    assert "there is no drawing" in refused.err


def test_what_cannot_be_read_is_refused_in_one_sentence(call: Shell, shop: Path) -> None:
    for typed, says in (
        (("nonsense",), 'nothing is reckoned by "nonsense"'),
        (("arc", "--given", "chord=1/0", "rise=1"), 'chord, straight across: "1/0"'),
        (("arc", "--given", "chord"), "does not say what it is"),
        (("arc", "--given", "chord=1", "chord=2"), "given twice"),
        (("arc", "--given", "colour=red"), 'does not ask for "colour"'),
        (("arc", "--keep"), "is missing"),
        (("--again", "k7f3q2mk"), "is no reckoning"),
        (("arc", "--given", "chord=1 m", "--task", "nothing"), 'there is no task "nothing"'),
    ):
        ended = call("reckon", shop, *typed)
        assert ended.code in (1, 2), typed
        assert says in ended.err
        assert "Traceback" not in ended.err
    assert kept(shop) == []


def test_a_kept_one_with_a_line_that_is_none_is_refused_when_redone(
    call: Shell, shop: Path
) -> None:
    with (shop / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        day.write(
            'zzreckon = { at = 2026-05-02T12:20:00, by = "ada", kind = "reckoned", about = "form", '
            'answer = "x", given = ["chord"], known = ["bend = [M8]"] }\n'
        )
    ended = call("reckon", shop, "--again", "zzreckon")
    assert ended.code == 2
    assert '"[M8]" is no bend' in ended.err
    assert call("log", shop).code == 0


def test_a_data_loggers_rows_tell_the_air_of_the_weeks(call: Shell, shop: Path) -> None:
    (shop / "readings").mkdir()
    (shop / "readings/2026-05.csv").write_text(
        "2026-05-01T08:00,10,12,50,60\n2026-05-01T20:00,12,14,60,70\n2026-05-03T08:00,18,18,65,65\n"
    )
    form = call("reckon", shop, "moisture", "--json", *AT[:2]).form
    assert form["known"][:2] == [
        "temperature = 18 °C | data logger of Sun 3 May 2026 08:00",
        "humidity = 65 % | data logger of Sun 3 May 2026 08:00",
    ]
    # A mean for each day: of the logger where it has the day, else of the readings.
    assert form["known"][2].partition(" | ")[0] == (
        "readings = 12 °C 60 %; 12.5 °C 70 %; 18 °C 65 %"
    )
    assert form["figures"]["readings"] == 3
    later = call("reckon", shop, "moisture", "--json", "--at", "2026-07-01T09:00").form
    assert later["figures"]["readings"] == 0


def test_an_answer_that_rests_on_what_nobody_verified_says_so_below_its_result(
    call: Shell, shop: Path
) -> None:
    """The wood handbook's minutes an inch are from memory; that an inch is 25.4 mm is verified."""
    steaming = call("reckon", shop, "steaming", "--given", "thickness=26 mm").out.splitlines()
    assert steaming[2].startswith("unverified: in part")
    assert "unverified" not in call("reckon", shop, "length", "--given", "length=1 in").out


def test_a_count_that_is_none_is_asked_as_a_whole_number(call: Shell, shop: Path) -> None:
    for typed in ("2x", "1.5"):
        given = ("area=1 m2", f"coats={typed}", "rate=8 m2/l")
        ended = call("reckon", shop, "coats", "--given", *given)
        assert f'"{typed}" is not a count; write a whole number' in ended.err
