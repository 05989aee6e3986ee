"""The programme in words: as a lead would read it out, and on one page for the wall."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from time import process_time

import pytest

from crewboard.logbook.acts import Expected, Planned, Reading, SignIn
from crewboard.order.programme.around import around
from crewboard.order.programme.programme import make, programme
from crewboard.paper.page import escaped, sheet_page
from crewboard.paper.plain_sheet import sheet_text
from crewboard.paper.reports import made as report_made
from crewboard.plan.hazard import CAUTION
from crewboard.plan.hold import Conditions
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from crewboard.telling.programme import programme_sheet
from crewboard.telling.report import Request, Sheet, sheet_lines
from crewboard.workbench import Workbench
from tests.command.calling import SAMPLE, Shell
from tests.order.day_plan.random_days import HAZARDS
from tests.order.programme.lived import refused
from tests.order.small_plans import board, hold, logbook, plan, task

ADA = Volunteer("ada", "Ada Test", ("welding",), adult=True, lead=True)
TOM = Volunteer("tom", "Tom Test", ("joinery",), adult=True)
SATURDAYS = WorkDays((parse_rule("saturday"),))


def _plan(*tasks: Task, crew: tuple[Volunteer, ...] = (ADA, TOM)) -> Plan:
    return plan(tasks, crew=crew, work_days=SATURDAYS, hazards=HAZARDS)


def _text(sheet: Sheet) -> str:
    return "\n".join(sheet_text(sheet, 200))


def test_a_day_is_read_from_top_to_bottom() -> None:
    glue = task("c/glue", 4, title="Glue the doors", least_people=2, hold=hold("clamp", "2 days"))
    said = logbook((datetime(2026, 5, 2, 8), Expected("ada")))
    text = _text(programme_sheet(board(_plan(glue), log=said), 2))
    assert "Sat 2 May 2026, 09:00 to 16:00 (1 expected, 1 usually comes; its own plan" in text
    assert '09:00 Ada and Tom: "Glue the doors" (2 h)' in text
    assert "then in clamps until Mon 4 May 11:00, then look at it" in text
    second = text.partition("Sat 9 May")[2]
    assert 'falls due: look at "Glue the doors" (Mon 4 May)' in second


def test_the_first_day_says_by_what_plan_it_runs_or_where_that_is_made() -> None:
    of = _plan(task("c/saw", 2, title="Saw the laths"), task("c/far", 2))
    open_yet = _text(programme_sheet(board(of), 2))
    assert open_yet.count("its own plan is made with the day plan)") == 1
    nine, noon = datetime(2026, 5, 2, 9), datetime(2026, 5, 2, 12)
    turn = Planned(("tom",), nine.time(), noon.time(), "c/saw", taking="1 09:00 ada")
    sweep = Planned(("ada",), nine.time(), noon.time(), what="sweep", taking="1 09:00 ada")
    log = logbook(*((nine, act) for act in (turn, sweep)))
    first = _text(programme_sheet(board(of, log=log), 2)).partition("Sat 9 May")[0]
    assert "; by the plan taken over at 09:00)" in first
    assert '09:00 Tom: "Saw the laths" (3 h, not finished by then)' in first
    assert "09:00 Ada: sweep" in first
    assert "make the day plan anew" not in first
    gone = logbook((nine, SignIn("ada")), (nine, turn))
    text = _text(programme_sheet(board(of, log=gone), 1))
    assert 'make the day plan anew: not as it was taken over: "Saw the laths"' in text


def test_who_is_wanted_is_said_once_with_who_could_come() -> None:
    away = logbook(
        *((datetime(2026, 5, day, 8), Expected("ada", coming=False)) for day in (2, 9)),
    )
    weld = task("c/weld", 2, title="Weld the bracket", skills=("welding",))
    text = _text(programme_sheet(board(_plan(weld), log=away), 3))
    wanted = 'ask to come: somebody with the skill welding, for "Weld the bracket": Ada'
    assert text.count(wanted) == 1


def test_hazards_are_named_with_the_work_and_the_caution_stands_on_the_page() -> None:
    saw = task("c/saw", 2, title="Saw the laths", hazards=("varnish",))
    sheet = programme_sheet(board(_plan(saw)), 1)
    text = _text(sheet)
    assert "hazards: varnish: checks first" in text
    assert CAUTION in sheet.foot
    assert sheet.caution == "It decides nothing: the lead does."


def test_a_word_that_points_to_a_hazard_is_a_question_to_a_lead() -> None:
    hot = HAZARDS[0]._replace(words=("weld",))
    of = plan([task("c/w", 2, title="Weld the lug")], crew=[ADA], hazards=[hot])
    of = of._replace(sheets={hot.id: hot})
    sheet = programme_sheet(board(of), 1)
    assert CAUTION in sheet.foot
    text = _text(sheet)
    assert 'hazards: it says "weld" and names none: a lead answers first' in text


def test_a_shop_too_cold_for_a_hold_says_that_its_clock_stands_still() -> None:
    glue = hold("glue", "36 hours", "time")._replace(conditions=Conditions(at_least_c=10))
    of = plan([task("c/glue", 2, hold=glue)], crew=[ADA])
    cold = logbook((datetime(2026, 5, 2, 8), Reading(4)))
    text = _text(programme_sheet(board(of, log=cold), 1))
    assert "not before Sun 3 May 23:00; its clock stands still: too cold (4 °C" in text


def test_a_day_on_which_nobody_comes_and_a_plan_without_days_say_so() -> None:
    away = [(datetime(2026, 5, 2, 8), Expected(who, coming=False)) for who in ("ada", "tom")]
    text = _text(programme_sheet(board(_plan(task("c/a", 2)), log=logbook(*away)), 1))
    assert "Nobody is expected: ask who comes." in text
    none = plan([task("c/a", 2)], crew=[ADA], work_days=WorkDays())
    assert "No work day is planned" in _text(programme_sheet(board(none), 4))


def test_days_on_which_there_is_nothing_are_told_as_one_and_say_whether_work_is_left() -> None:
    """Four hours fill the first of six days; then either nobody may weld, or all is done."""
    saw, weld = task("c/saw", 4), task("c/weld", 4, after=("c/wait",))
    wait = task("c/wait", 4, set_aside="no wood")
    for some, says in (
        ([saw], "No work is left."),
        ([saw, wait, weld], "There is nothing that those expected could do."),
    ):
        sheet = programme_sheet(board(_plan(*some)))
        first, rest = sheet.chapters
        assert "saw" in " ".join(line.text for line in first.points)
        assert rest.heading == "Sat 9 May 2026 to Sat 6 Jun 2026, 5 work days"
        assert [line.text for line in rest.points] == [says]
        assert sheet.title == "The next 6 work days"


def test_what_finds_no_day_is_named_after_the_last_with_the_reason() -> None:
    hot = Certificate("hot work", date(2027, 5, 2))
    of = _plan(
        task("c/bend", 14.5, title="Bend the ribs", in_one_go=True, most_people=2),
        task("c/heat", 12.5, title="Heat the bolts", hazards=("hot",), most_people=2),
        crew=(ADA._replace(certificates=(hot,)), TOM),
    )
    text = _text(programme_sheet(board(of), 3))
    last = text.partition("Finds no day\n")[2].splitlines()
    assert last[0].startswith('  "Bend the ribs": it has to be done in one go, and no day is long')
    assert last[1].startswith(
        '  "Heat the bolts": it must not be left half done, and has to end 60'
    )


def test_text_of_the_folder_is_data_on_the_page() -> None:
    odd = task("c/a", 2, title="<b>[red]Odd</b>")
    page = sheet_page(programme_sheet(board(_plan(odd)), 1))
    assert "<b>[red]" not in page
    assert "&lt;b&gt;[red]Odd" in page


# --- the sample ----------------------------------------------------------------------------------


def test_the_sample_can_be_lived_but_for_what_is_seen_to_by_people() -> None:
    """The opening of the shop names a first-aider, and what is temporary is undone by hand. Of the
    arch that failed the spare has taken the place; the checker of a day does not count them."""
    bench = Workbench(SAMPLE)
    on = bench.board(datetime(2026, 5, 2, 9))
    seen_to = ("the shop is not opened", "something temporary", "arches/true-up/arches/2")
    against = [says for says in refused(on, programme(on)) if not any(s in says for s in seen_to)]
    assert against == []


def test_the_sample_says_what_belongs_to_its_days() -> None:
    on = Workbench(SAMPLE).board(datetime(2026, 5, 2, 9))
    made = make(on)
    assert [day.date for day in made.programme.days[:3]] == [
        date(2026, 5, 2),
        date(2026, 5, 16),
        date(2026, 6, 6),
    ]
    beside = around(on, made)
    looks = [due.about for due in beside[0].due if due.kind == "look"]
    due = {h.task for h in on.stopping() if h.stage == "due" and h.asks}
    assert due <= set(looks)
    undone = {thing.undo for day in beside for thing in day.must_be if thing.undo}
    assert undone <= {left.what for left in on.history.temporary.values()}


def test_the_sample_takes_no_two_seconds() -> None:
    on = Workbench(SAMPLE).board(datetime(2026, 5, 2, 9))
    since = process_time()
    programme_sheet(on, 8)
    assert process_time() - since < 2


def test_the_page_for_the_wall_keeps_as_many_days_as_it_has_room_for() -> None:
    on = Workbench(SAMPLE).board(datetime(2026, 5, 2, 9))
    sheet = report_made("programme", Request(on))
    assert isinstance(sheet, Sheet)
    whole = programme_sheet(on)
    assert sheet.chapters == whole.chapters[: len(sheet.chapters)]
    assert 3 <= len(sheet.chapters) < len(whole.chapters)
    assert sheet.title == f"The next {len(sheet.chapters)} work days"


def test_a_page_of_so_many_days_has_them_all() -> None:
    on = Workbench(SAMPLE).board(datetime(2026, 5, 2, 9))
    for days in (2, 7):
        sheet = report_made("programme", Request(on, days=days))
        assert isinstance(sheet, Sheet)
        assert sheet.title == f"The next {days} work days"
        assert sheet.chapters == programme_sheet(on, days).chapters


def test_the_long_caution_is_whole_and_stands_at_the_foot_but_on_paper_above_all() -> None:
    saw = task("c/saw", 2, title="Saw the laths", hazards=("varnish",))
    sheet = programme_sheet(board(_plan(saw)), 1)
    lines = sheet_text(sheet, 2000)
    assert lines[1] == "It decides nothing: the lead does."
    assert lines[-1].endswith(CAUTION)
    on_screen = list(sheet_lines(sheet))
    assert on_screen[1].text == "It decides nothing: the lead does."
    assert on_screen[-1].text.endswith(CAUTION)
    page = sheet_page(sheet)
    assert page.index(escaped(CAUTION)) < page.index("Saw the laths")


def test_the_command_tells_it_and_gives_it_to_programs(
    capsys: pytest.CaptureFixture[str],
) -> None:
    call = Shell(capsys)
    said = call("programme", SAMPLE, "--days", "4")
    assert said.code == 0
    assert said.out.count(", 09:00 to 16:30 (") == 4
    form = call("programme", SAMPLE, "--days", "4", "--json").form
    assert (form["what"], len(form["days"])) == ("programme", 4)
    first = form["days"][0]["turns"][0]
    assert datetime.fromisoformat(first["end"]) - datetime.fromisoformat(
        first["start"]
    ) >= timedelta(minutes=30)
    page = call("report", "programme", SAMPLE, "--days", "2", "--as", "html")
    assert page.out.count(", 09:00 to 16:30 (") == 2
    for wrong in ("0", "13", "2.5", "many"):
        assert call("programme", SAMPLE, "--days", wrong).code == 2
        assert call("report", "programme", SAMPLE, "--days", wrong).code == 2
