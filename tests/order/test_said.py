"""Names as the crew says them, also of what the plan does not hold any more."""

from crewboard.order.said import component_name, name_of, person, supply_name, task_title
from crewboard.plan.component import Component
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Volunteer
from tests.order.small_plans import plan, task

PLAN = plan(
    [task("frame/scrape", title="Scrape the frame")],
    [Component("frame", "Frame")],
    crew=[Volunteer("ada", "Ada Marsh")],
    supplies=[Supply("oil", "Linseed oil")],
)


def test_what_the_plan_knows_is_called_by_its_name() -> None:
    assert task_title(PLAN, "frame/scrape") == "Scrape the frame"
    assert component_name(PLAN, "frame") == "Frame"
    assert supply_name(PLAN, "oil") == "Linseed oil"
    assert person(PLAN, "ada") == "Ada Marsh"


def test_what_is_gone_is_called_as_it_was_written() -> None:
    for name in (task_title, component_name, supply_name, person):
        assert name(PLAN, "gone") == "gone"


def test_a_hold_is_called_after_its_task_else_after_its_component() -> None:
    assert name_of(PLAN, "frame/scrape", "frame") == "Scrape the frame"
    assert name_of(PLAN, "frame/gone", "frame") == "Frame"
    assert name_of(PLAN, "", "frame") == "Frame"
    assert name_of(PLAN, "frame/gone", "gone") == "frame/gone"
    assert name_of(PLAN, "", "gone") == "gone"
