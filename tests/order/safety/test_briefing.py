"""The day's safety talk says what people have to hear before they begin."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from crewboard.logbook.acts import CheckSigned, Expected, HoldStarted
from crewboard.order.safety.briefing import Briefing, briefing
from crewboard.paper.page import sheet_page
from crewboard.paper.plain import plain_lines
from crewboard.plan.hazard import CAUTION, Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Shop, Vehicle
from crewboard.telling.briefing import briefing_sheet
from crewboard.telling.report import sheet_lines
from tests.order.safety.workshop import Book, at, sheets, shop_plan

NASTY = '<script>alert(1)</script> [red]x[/] \x1b[31m \u202e "quote" & <b>'


def talk(*hazards: str, people: tuple[str, ...] = ("ada", "ben", "cy", "dot")) -> Briefing:
    board = Book(shop_plan()).sign_in(*people).board(at(9, 30))
    return briefing(board, [f"shop/{each}" for each in hazards])


def printed(given: Briefing, width: int = 80) -> list[str]:
    return plain_lines(sheet_lines(briefing_sheet(given)), width)


def told(given: Briefing) -> str:
    return " ".join(" ".join(printed(given)).split())


@pytest.mark.parametrize(
    "hazard", [h for h in sheets().values() if h.concerns == "task"], ids=lambda h: h.id
)
def test_the_talk_has_every_danger_check_gear_and_figure_of_the_days_tasks(hazard: Hazard) -> None:
    given = talk(hazard.id)
    text = told(given)
    for words in (*hazard.harm, *hazard.gear, *hazard.if_wrong, *(c.text for c in hazard.checks)):
        assert " ".join(hazard.told(words).split()) in text
    assert " ".join(CAUTION.split()) in text
    assert "{" not in text


def test_the_talk_says_whom_to_call_where_to_meet_and_who_gives_first_aid() -> None:
    text = told(talk("noise"))
    for words in (
        "call: the emergency number",
        "say where: Mill Lane",
        "meet at: the gate",
        "first-aid kit: red box by the door",
        "first-aiders: Ada",
        "leads: Ada",
        "under 18: Dot",
    ):
        assert words in text


def test_what_vehicle_toml_leaves_out_is_missed_aloud() -> None:
    plan = shop_plan(vehicle=Vehicle("Dining trailer", shop=Shop()))
    text = told(briefing(Book(plan).sign_in("cy").board(at(9)), ["shop/noise"]))
    assert "call: not written down: add it to vehicle.toml" in text
    assert "first-aiders: nobody" in text


def test_the_talk_says_who_may_do_what_and_why_not() -> None:
    (danger,) = (d for d in talk("power-saws").dangers if d.hazard.id == "power-saws")
    assert danger.may == ("Ada", "Ben")
    assert danger.may_not == (("Cy", 'no certificate "machines"'), ("Dot", "under 18"))
    assert danger.needs == (
        "at least 2 people",
        'each with the certificate "machines" (Ada, Ben and Dot)',
    )


def test_the_talk_says_who_signs() -> None:
    (danger,) = talk("hot-work", people=("ada", "cy")).dangers
    by_check = {each.check.id: each.able for each in danger.to_sign}
    assert by_check["area"] == ("Ada",)
    assert by_check["extinguisher"] == ("Ada", "Cy")


def test_the_talk_says_what_must_end_when() -> None:
    given = talk("hot-work", "oily-rags", "steam-box")
    assert given.must_end == (
        "hot work must end by 15:00: the fire watch is 60 min and the shop closes at 16:00",
        "oily rags must end by 15:00: the rag watch is 1 hour and the shop closes at 16:00",
        "steam box and boiling must end by 15:30: the cooling is 30 min and the shop closes at "
        "16:00",
    )


def test_the_talk_names_dangers_of_the_day_that_may_not_meet() -> None:
    given = talk("hot-work", "solvent-strippers", "noise", people=("ada", "ben"))
    away = {danger.hazard.id: danger.keep_away for danger in given.dangers}
    assert away == {
        "hot-work": ("solvent paint strippers",),
        "solvent-strippers": ("hot work",),
        "noise": (),
    }


def test_an_under_18_in_the_shop_brings_their_sheet_into_the_talk() -> None:
    assert "young-people" in {d.hazard.id for d in talk("noise").dangers}
    assert "young-people" not in {d.hazard.id for d in talk("noise", people=("ada",)).dangers}


def test_who_is_expected_is_counted_among_those_who_may_until_they_come() -> None:
    book = Book(shop_plan()).sign_in("ada").say(at(8), Expected("ben"), Expected("eve"))
    book.say(at(8, 30), Expected("eve", coming=False))
    given = briefing(book.board(at(9)), ["shop/power-saws"])
    assert (given.people, given.expected) == (("Ada",), ("Ben",))
    assert given.dangers[0].may == ("Ada", "Ben")
    assert given.first_aiders == ("Ada",)
    assert "expected: Ben" in told(given)
    book.sign_in("ben", moment=at(9, 10))
    assert briefing(book.board(at(9, 15)), ["shop/power-saws"]).expected == ()


def test_work_without_dangers_stands_together_on_one_line() -> None:
    text = told(briefing(Book(shop_plan()).sign_in("ada").board(at(9)), ["shop/plain"]))
    assert "no hazards listed for: tidy the drawings" in text


def test_before_anybody_has_signed_in_the_talk_is_for_the_whole_crew() -> None:
    given = briefing(Book(shop_plan()).board(at(8)), ["shop/noise"])
    assert not given.here
    assert given.people == ("Ada", "Ben", "Cy", "Fay", "Dot", "Eve", "Lee", "Uma")


def test_the_talk_tells_what_still_runs_and_what_is_left_alone() -> None:
    book = Book(shop_plan()).sign_in("ada", "ben").begin("shop/hot-work", "ada", "ben")
    book.say(at(11), CheckSigned("hot-work", "ended", "ada", "shop/hot-work"))
    book.say(at(11), HoldStarted("cure", component="shop", leave_alone=True))
    given = briefing(book.board(at(11, 30)), ["shop/noise"])
    assert given.running == ('the fire watch after "hot work" runs until 12:00',)
    assert given.leave_alone == ("Shop, all of it: curing, until released",)


def test_without_a_choice_the_talk_is_for_what_is_ready_or_under_way() -> None:
    board = Book(shop_plan()).sign_in("ada").board(at(9))
    titles = {title for title, _, _ in briefing(board).work}
    assert titles == {task.title for task in board.plan.tasks.values()}


class Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: set[str] = set()
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


def nasty_plan() -> Plan:
    plan = shop_plan(tasks=[Task("shop/nasty", NASTY, "shop", hazards=("noise",), place=NASTY)])
    crew = {who: v._replace(name=NASTY) for who, v in plan.crew.items()}
    return plan._replace(crew=crew, vehicle=Vehicle(NASTY, shop=Shop(NASTY, NASTY, NASTY, NASTY)))


def test_the_printed_page_is_whole_and_holds_no_script_nor_anything_typed_as_markup() -> None:
    page = sheet_page(
        briefing_sheet(briefing(Book(nasty_plan()).sign_in("ada").board(at(9)), ["shop/nasty"]))
    )
    tags = Tags()
    tags.feed(page)
    assert tags.open == []
    allowed = (
        "html head meta title style body h1 h2 h3 p section ul li "
        "b header table thead tbody tr td th div span footer"
    )
    assert tags.seen <= set(allowed.split())
    assert "<script>alert(1)</script> [red]x[/]" in tags.text
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202e]", page)
    assert " ".join(CAUTION.split()) in " ".join(tags.text.split())


def test_the_plain_lines_show_typed_codes_as_marks_and_keep_to_the_width() -> None:
    given = briefing(Book(nasty_plan()).sign_in("ada").board(at(9)), ["shop/nasty"])
    for width in (60, 80, 120):
        for line in printed(given, width):
            assert not re.search(r"[\x00-\x1f\x7f-\x9f\u202e]", line)
            assert len(line) <= width or " " not in line.strip()


def test_a_weaker_rule_stands_in_the_talk_with_who_decided_it() -> None:
    from crewboard.folder.read.hazard_sheets import read_sheets

    own = {"noise": {"leave_out": ["quiet"], "decided_by": "the lead", "why": "one box for all"}}
    known = {**sheets(), "noise": read_sheets(["noise"], own).hazards["noise"]}
    board = Book(shop_plan(known)).sign_in("ada").board(at(9))
    assert "decided by the lead: one box for all" in told(briefing(board, ["shop/noise"]))
