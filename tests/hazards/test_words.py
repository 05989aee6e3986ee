"""Words of a task's title that point to a hazard: sixty-four titles, what is missed and what
is asked for nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.folder.read.hazard_sheets import read_sheets
from crewboard.order.safety.unnamed import unnamed_hazards
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task
from tests.order.safety.workshop import shop_plan

PLAN = shop_plan()._replace(sheets=read_sheets(None).hazards)
TITLES = Path(__file__).with_name("titles.txt").read_text(encoding="utf-8").splitlines()


def asked(title: str, *, method: str = "", hazards: tuple[str, ...] = ()) -> list[set[str]]:
    """The sheets that each word of the title points to."""
    task = Task("shop/it", title, "shop", hazards=hazards, method=method)
    return [set(question.hazards) for question in unnamed_hazards(PLAN, task)]


def judged(line: str) -> tuple[int, int]:
    """How many hazards of a title are missed, and how many words ask for nothing."""
    wanted, _, title = line.partition("  ")
    needed = [set(group.split("|")) for group in wanted.split() if group != "-"]
    questions = asked(title.strip())
    missed = sum(not any(group & sheets for sheets in questions) for group in needed)
    false = sum(not any(group & sheets for group in needed) for sheets in questions)
    return missed, false


def test_of_sixty_four_titles_no_hazard_is_missed_and_none_is_asked_about_for_nothing(
    capsys: pytest.CaptureFixture[str],
) -> None:
    lines = [line for line in TITLES if line and not line.startswith("#")]
    assert len(lines) == 64
    counted = {line: judged(line) for line in lines}
    missed, false = map(sum, zip(*counted.values(), strict=True))
    with capsys.disabled():
        print(f"\n{len(lines)} titles: {missed} hazards missed, {false} false alarms")
    assert {line: each for line, each in counted.items() if any(each)} == {}


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("Weld it", True),
        ("It was welded", True),
        ("welding", True),
        ("Welds", True),
        ("the welder comes", True),
        ("We'd rather glue", False),
        ("Bead-welding of the joint", True),
        ("the weld-through primer", False),  # the head of the word is the primer
    ],
)
def test_a_word_is_known_in_its_forms_and_as_the_head_of_a_compound(text: str, word: bool) -> None:
    assert (asked(text) != []) is word
    assert (asked("the joint", method=text) != []) is word


@pytest.mark.parametrize(
    ("title", "sheet"), [("Solder the tails", "soldering"), ("Use the heat gun", "heat-guns")]
)
def test_an_iron_and_a_heat_gun_ask_for_their_own_sheets_and_no_hot_work(
    title: str, sheet: str
) -> None:
    assert asked(title) == [{sheet}]


def test_a_task_that_names_one_of_the_hazards_a_word_points_to_is_asked_nothing() -> None:
    assert asked("Lift the motor", hazards=("slings",)) == []
    assert asked("Lift the motor", hazards=("noise",)) != []


def test_a_crew_adds_words_of_its_own_language_and_beginnings_of_words() -> None:
    sheet = PLAN.sheets["hot-work"]
    own: dict[str, Hazard] = {"hot-work": sheet._replace(words=(*sheet.words, "schweiß-", "löten"))}
    plan = PLAN._replace(sheets={**PLAN.sheets, **own})

    def words(title: str) -> list[str]:
        return [q.word for q in unnamed_hazards(plan, Task("shop/it", title, "shop"))]

    assert words("Schweißarbeiten am Rahmen") == ["schweiß-"]
    assert words("Halter LÖTEN") == ["löten"]
    assert words("Weiß streichen") == []
