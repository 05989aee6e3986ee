"""The forecast and the day plan in lines and as a drawing."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Wish
from crewboard.order.forecast.bars import bars
from crewboard.order.forecast.finish import Sooner
from crewboard.order.forecast.forecast import forecast, in_order
from crewboard.paper.forecast_svg import forecast_svg
from crewboard.paper.plain import plain_lines, plain_rows
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.day_plan import day_plan_lines, day_plan_rows, worth_in_words
from crewboard.telling.drawn import cells, drawn_bar
from crewboard.telling.forecast import bar_table, forecast_lines, short_date, sooner_lines
from tests.order.small_plans import board, plan, task

CREW = [Volunteer("ada", "Ada Test"), Volunteer("tom", "Tom <b>[M8]</b>\x1b[31m")]


@settings(max_examples=100, deadline=None)
@given(
    days=st.lists(
        st.one_of(st.none(), st.dates(date(2026, 1, 1), date(2070, 1, 1))), min_size=1, max_size=60
    )
)
def test_the_bars_hold_every_course_that_ended(days: list[date | None]) -> None:
    found = bars(in_order(days))
    ended = [day for day in days if day is not None]
    assert sum(bar.share for bar in found) == pytest.approx(len(ended) / len(days))
    for one, two in pairwise(found):
        assert one.until == two.first
        assert one.by_then <= two.by_then
    for bar in found:
        inside = sum(bar.first <= day < bar.until for day in ended)
        assert bar.share == pytest.approx(inside / len(days))
    assert len(found) <= 15
    if ended:
        assert found[-1].by_then == pytest.approx(len(ended) / len(days))


def test_the_bars_are_named_as_people_name_spans() -> None:
    year = [date(2027, 1, 1) + timedelta(days=30 * n) for n in range(12)]
    assert [bar.label for bar in bars(year)][:2] == ["Jan 2027", "Feb 2027"]
    decades = [date(2027 + n, 5, 1) for n in range(12)]
    assert bars(decades)[0].label == "2027"
    quarters = [date(2027, 1, 1) + timedelta(days=90 * n) for n in range(13)]
    assert bars(quarters)[0].label == "Jan to Mar 2027"


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
    assert all(line.isascii() for line in bar_table(found.courses, width, plain=True))


def test_what_cannot_be_told_is_said_and_not_drawn() -> None:
    on = board(plan([task("c/a")]))
    found = forecast(on, 20)
    lines = "\n".join(plain_lines(forecast_lines(on, found, 80, plain=False), 80))
    assert "by  not within fifty years" in lines
    assert "no trial run ended within fifty years" in lines
    assert short_date(None) == "> 50 years"
    assert "no trial run ended" in forecast_svg(on, found)


def test_changes_that_tell_nothing_come_in_one_line() -> None:
    ways = [
        Sooner("one more day", timedelta(days=30), timedelta(days=3)),
        Sooner("a new saw", timedelta(days=2), timedelta(days=3)),
        Sooner("more tea", timedelta(0), timedelta(0)),
    ]
    assert plain_lines(sooner_lines(ways), 80) == [
        "  4 weeks sooner: one more day",
        "  no clear gain: a new saw; more tea",
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


def test_the_curve_rises_from_left_to_right() -> None:
    on = board(plan([task(f"c/t{n}", (5, 10, 30)) for n in range(8)], crew=CREW))
    root = ElementTree.fromstring(forecast_svg(on, forecast(on, 120)))
    line = root.find("{http://www.w3.org/2000/svg}polyline")
    assert line is not None
    points = [tuple(map(float, p.split(","))) for p in line.attrib["points"].split()]
    assert points == sorted(points, key=lambda p: (p[0], -p[1]))
    assert points[0][1] > points[-1][1]


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
