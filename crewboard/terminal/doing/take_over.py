"""Take a plan of the day over, so that the day runs by it; give it up."""

from __future__ import annotations

from collections.abc import Callable

from crewboard.logbook.acts import TakenBack
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan
from crewboard.order.day_plan.taken_over import planned_lines, taking_over
from crewboard.order.said import day_in_words, how_many
from crewboard.terminal.board_app import BoardApp
from crewboard.workbench import Said


def take_over(app: BoardApp, board: Board, plan: DayPlan, then: Callable[[], None]) -> None:
    """Write the plan of the board's day into the logbook, in place of one taken over before."""
    if not plan.placed:
        app.tell("nothing could be placed: there is no plan to take over", warning=True)
        return
    day = plan.opens.date()
    acts = [Said(act, app.now(), "", day) for act in taking_over(board, plan, app.by)]
    told = f"taken over for {day_in_words(day)}: {how_many(len(plan.placed), 'task')}"

    def kept(_: object) -> None:
        app.tell(f"{told}; u takes it back")
        then()

    app.record(acts, then=kept)


def give_up(app: BoardApp, board: Board) -> None:
    """Take back every line of the day's plans: the day runs by none any more."""
    day = board.at.date()
    acts = [Said(TakenBack(entry.id), app.now(), "", day) for entry, _ in planned_lines(board)]
    app.record(acts, then=lambda _: app.tell("the plan of the day is given up"))
