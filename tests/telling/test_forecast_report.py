"""The forecast and the day plan in lines and as a drawing."""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.command.json_forecast import forecast_form
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Wish
from crewboard.order.forecast.finish import Finish, Forecast, Growth, Sooner, Supposed
from crewboard.order.forecast.forecast import forecast
from crewboard.paper.forecast_svg import forecast_svg
from crewboard.paper.plain import plain_lines, plain_rows
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.date_ruler import Mark, Scale, Side, drawn, scale_of
from crewboard.telling.day_plan import day_plan_lines, day_plan_rows, worth_in_words
from crewboard.telling.drawn import cells, drawn_bar
from crewboard.telling.forecast import (
    chain_rows,
    date_lines,
    forecast_lines,
    growth_in_words,
    ruler,
    sooner_lines,
    supposed_lines,
)
from crewboard.telling.forecast_components import component_table, short_date
from tests.long_form import cases
from tests.order.small_plans import board, plan, task

CREW = [Volunteer("ada", "Ada Test"), Volunteer("tom", "Tom <b>[M8]</b>\x1b[31m")]


DAYS = st.lists(st.dates(date(2026, 5, 2), date(2070, 1, 1)), min_size=1, max_size=3)


@cases(100, 2000)
@given(above=DAYS, below=DAYS, width=st.integers(30, 120), plain=st.booleans())
def test_the_ruler_shows_each_date_in_its_place(
    above: list[date], below: list[date], width: int, plain: bool
) -> None:
    """A sign for each date, further right for a later one; nothing is wider than asked."""
    today = date(2026, 5, 2)
    scale = scale_of(today, [*above, *below], width, 6)
    sides = [Side("A", [Mark(d, "50 %") for d in sorted(above)])]
    sides.append(Side("B", [Mark(d, "50 %") for d in sorted(below)]))
    lines = drawn(scale, *sides, plain=plain)
    assert all(len(line) <= width for line in lines)
    assert len(lines) == 3
    assert not plain or all(line.isascii() for line in lines)
    for line, sign, side in zip(lines[::2], "v^" if plain else "▼▲", sides, strict=True):
        columns = {min(width - 1, round(scale.place(mark.day))) for mark in side.marks}
        assert {at for at, letter in enumerate(line) if letter == sign} == columns


def test_the_ruler_has_years_on_it_and_months_where_it_is_short() -> None:
    today = date(2026, 5, 2)
    for last, found in (
        (date(2029, 9, 1), ["2027", "2028", "2029"]),
        (date(2026, 8, 20), ["Jun", "Jul", "Aug"]),
        (date(2060, 1, 1), ["2030", "2035", "2040", "2045", "2050", "2055", "2060"]),
    ):
        line = drawn(scale_of(today, [last], 70, 6), Side("", ()), Side("", ()))[0]
        assert re.findall(r"[A-Z0-9a-z]+", line) == found


def test_dates_that_lie_close_still_say_their_chances() -> None:
    """Three in a row: the first says what it is to its left, the last to its right."""
    scale = Scale(date(2026, 1, 1), date(2026, 1, 1) + timedelta(days=60), 60)
    marks = [
        Mark(scale.start + timedelta(days=30 + n), f"{share} %")
        for n, share in enumerate((50, 80, 95))
    ]
    line = drawn(scale, Side("expected", marks), Side("", ()), plain=True)[0]
    assert line.split() == ["expected", "50", "%vvv95", "%"]
    apart = [
        mark._replace(day=scale.start + timedelta(days=25 + 5 * n)) for n, mark in enumerate(marks)
    ]
    line = drawn(scale, Side("expected", apart), Side("", ()), plain=True)[0]
    assert line.split() == ["expected", "50", "%v", "v80", "v95", "%"]


def test_a_bar_is_as_long_as_its_share() -> None:
    assert drawn_bar(1.0, 10) == "█" * 10
    assert drawn_bar(0.5, 10) == "█" * 5
    assert drawn_bar(0.05, 10) == "▌"
    assert drawn_bar(0.5, 10, plain=True) == "#####"
    assert drawn_bar(0.0, 10) == ""


@pytest.mark.parametrize("width", [40, 60, 80, 100])
def test_no_line_is_wider_than_asked(width: int) -> None:
    long = "A component with a name that goes on and on and on, 日本語 and all"
    tasks = [task("c/a", (1, 2, 3), title=long), task("d/b", 3, after=("c/a",))]
    on = board(plan(tasks, crew=CREW))
    found = forecast(on, 40)
    for plain in (False, True):
        lines = plain_lines(forecast_lines(on, found, width, plain=plain), width)
        assert all(cells(line) <= max(width, 56) for line in lines)
        table = component_table(on, found, width)
        assert all(cells(line) <= max(width, 52) for line in (*table, *ruler(found, width)))


def worked_out(**fields: object) -> Forecast:
    """A forecast with these fields, of a plan of one task."""
    return forecast(board(plan([task("c/a", 10)], crew=CREW)), 20)._replace(
        too_little="",
        rough=None,
        **fields,  # type: ignore[arg-type]
    )


EXPECTED = Finish(date(2029, 9, 1), date(2030, 3, 16), date(2030, 10, 5))
PLANNED = Finish(date(2028, 9, 2), date(2029, 2, 3), date(2029, 8, 1))


@pytest.mark.parametrize("width", range(50, 100))
def test_the_last_date_has_room_for_its_chance_and_no_line_of_the_dates_is_broken(
    width: int,
) -> None:
    found = worked_out(vehicle=EXPECTED, as_planned=PLANNED, soonest=date(2027, 9, 25))
    on = board(plan([task("c/a", 10)], crew=CREW))
    lines = date_lines(on, found, width, plain=False, running="━━━━────── the trial runs; stops")
    dates = [line for line in lines if line.word or "▼" in line.text or "trial" in line.text]
    assert all(len(plain_lines([line], width)) == 1 for line in dates if width >= 58)
    assert any("▼95 %" in line.text for line in lines)


def in_lines(found: Forecast, width: int = 78) -> list[str]:
    on = board(plan([task("c/a", 10)], crew=CREW))
    return plain_lines(forecast_lines(on, found, width, plain=False), width)


def test_what_usually_turns_up_comes_first_and_the_plan_as_it_stands_beside_it() -> None:
    lines = in_lines(worked_out(vehicle=EXPECTED, as_planned=PLANNED))
    head, even = lines[1], lines[2]
    assert head.index("with what usually turns up") < head.index("as the plan stands")
    assert even.split("  ")[-1] == "Sat 2 Sep 2028"
    assert even.index("Sat 1 Sep 2029") == head.index("with what")
    assert even.index("Sat 2 Sep 2028") == head.index("as the plan")
    assert [line.split()[0] for line in lines[2:5]] == ["even", "four", "nearly"]


@pytest.mark.parametrize(
    ("growth", "says"),
    [
        (
            Growth(date(2025, 2, 1), 61, 14, 400.0, 92.0, 0.2, 0.1, 0.3),
            "The plan has grown by 23 % since Feb 2025: 14 tasks (92 h) turned up.",
        ),
        (
            Growth(date(2025, 2, 1), 61, 1, 400.0, 4.0, 0.2, 0.1, 0.3),
            "The plan has grown by 1 % since Feb 2025: 1 task (4 h) turned up.",
        ),
        (
            Growth(date(2025, 2, 1), 61, 0, 400.0, 0.0, 0.2, 0.1, 0.3),
            "The plan has not grown since Feb 2025: no task was found on the way.",
        ),
        (
            Growth(None, 61, 0, 400.0, 0.0, 0.2, 0.1, 0.3, 61),
            "How far the plan has grown is not known, as no task says when it came: the first "
            "dates go by what is usual elsewhere.",
        ),
    ],
)
def test_how_much_the_plan_has_grown_is_said_in_words(growth: Growth, says: str) -> None:
    assert growth_in_words(growth) == says
    assert says in " ".join(in_lines(worked_out(growth=growth)))


def test_what_is_supposed_is_named_and_what_is_alike_stands_together() -> None:
    weld = "nobody in the crew has the skill welding"
    found = [
        Supposed("nobody may", "c/w", "", '"Weld it"', weld),
        Supposed("nobody may", "c/x", "", '"Weld that"', weld),
        Supposed("nobody may", "c/y", "", '"Gild it"', "nobody in the crew has the skill gilding"),
        Supposed("not ordered", "glass", "", "Glass, laminated", ""),
        Supposed("not ordered", "ash", "", "Ash", ""),
        Supposed("not decided", "c/p", "", '"Paint it"', "awaited since"),
        Supposed("not approved", "c/p", "", '"Paint it"', "awaited since"),
    ]
    assert plain_lines(supposed_lines(found), 78) == [
        "The dates suppose what nobody has seen to yet:",
        '  found: somebody for "Weld it" and "Weld that": nobody in the crew has the',
        "    skill welding",
        '  found: somebody for "Gild it": nobody in the crew has the skill gilding',
        "  ordered: Glass, laminated; Ash",
        '  decided and approved: "Paint it"',
    ]
    assert supposed_lines([]) == []


def test_where_too_little_is_known_there_is_a_range_and_no_chance() -> None:
    on = board(plan([task("c/a", (100, 200, 400))], crew=CREW))
    found = forecast(on, 20)
    text = "\n".join(plain_lines(forecast_lines(on, found, 78, plain=False), 78))
    assert "Too little is known: after 3 work days with hours this becomes a date" in text
    assert "by the estimates alone: between " in text
    assert "from" in text
    assert "%" not in text
    assert "No chance can be given yet" in " ".join(text.split())
    assert not any("%" in cell for row in chain_rows(on, found) for cell in row.cells)
    picture = forecast_svg(on, found)
    assert "too little is known" in picture
    assert re.search(r">from: \w+ 20\d\d<", picture)  # a month, not a day
    form = forecast_form(found)
    assert form["finish"] == {"even": None, "likely": None, "nearly_sure": None}
    assert form["rough"]["last"] is not None
    assert form["courses"] == form["on_chain"] == []


def test_a_date_further_off_than_is_looked_says_from_when_on() -> None:
    never = worked_out(vehicle=Finish(EXPECTED.even, None, None), as_planned=PLANNED)
    lines = in_lines(never)
    last = re.compile(r"  nearly sure \(95 %\) +later than 2076 +Wed 1 Aug 2029")
    assert any(last.fullmatch(line) for line in lines)
    assert short_date(None, datetime(2026, 5, 2)) == "> 2076"
    lost = worked_out(vehicle=Finish(None, None, None), as_planned=Finish(None, None, None))
    assert ruler(lost, 70) == []
    assert "no date before 2076" in forecast_svg(board(plan([task("c/a")])), lost)


def test_changes_that_tell_nothing_are_only_counted() -> None:
    ways = [
        Sooner("one more day", timedelta(days=30), timedelta(days=3)),
        Sooner("a new saw", timedelta(days=2), timedelta(days=3)),
        Sooner("more tea", timedelta(0), timedelta(0)),
    ]
    assert plain_lines(sooner_lines(ways), 80) == [
        "  4 weeks sooner: one more day",
        "  no clear gain: 2 other changes",
    ]


def test_the_drawing_is_sound_xml_whatever_the_names_hold() -> None:
    on = board(plan([task("c/a", (1, 2, 3))], crew=CREW))
    vehicle = on.plan.vehicle._replace(name='</svg><script>&"\x1b[31m\u202e')
    odd = board(on.plan._replace(vehicle=vehicle))
    drawn = forecast_svg(odd, forecast(odd, 40))
    root = ElementTree.fromstring(drawn)
    assert not [each for each in root.iter() if each.tag.endswith("script")]
    assert "\x1b" not in drawn
    assert "\u202e" not in drawn


def test_the_drawing_flags_six_dates_from_left_to_right() -> None:
    found = worked_out(vehicle=EXPECTED, as_planned=PLANNED)
    root = ElementTree.fromstring(forecast_svg(board(plan([task("c/a")])), found))
    flags = [
        (float(one.attrib["x"]), one.text)
        for one in root.iter("{http://www.w3.org/2000/svg}text")
        if one.text and " %: " in one.text
    ]
    assert [text for _, text in sorted(flags)] == [
        "50 %: 2 Sep 2028",
        "80 %: 3 Feb 2029",
        "95 %: 1 Aug 2029",
        "50 %: 1 Sep 2029",
        "80 %: 16 Mar 2030",
        "95 %: 5 Oct 2030",
    ]
    desc = root.find("{http://www.w3.org/2000/svg}desc")
    assert desc is not None
    assert desc.text is not None
    assert desc.text.startswith("with what usually turns up: even chance by Sat 1 Sep 2029")


def test_the_day_plan_tells_each_persons_day() -> None:
    on = board(plan([task("c/a", 3), task("c/b", 30, most_people=1)], crew=CREW))
    wish = Wish(("ada", "tom"))
    found = plan_day(on, wish, 0)
    lines = plain_rows(day_plan_rows(on, found, wish), 80) + plain_lines(
        day_plan_lines(on, found), 80
    )
    text = "\n".join(lines)
    assert "Plan for Sat 2 May 2026, 09:00 to 16:00: 2 tasks\n  Ada\n" in text
    assert "Tom <b>[M8]</b>" in text
    assert "\x1b" not in text
    assert "goes on another day" in text
    assert "plain rule" in worth_in_words(found)
    assert datetime(2026, 5, 2, 9) == found.opens
