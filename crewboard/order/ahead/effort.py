"""How much work is left in a task, and how long its usual crew takes for it."""

from __future__ import annotations

from crewboard.order.board import Board, Standing
from crewboard.order.hours.left import hours_to_go
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task

# Person-hours of a task where no task of the plan has an estimate: half a work day or so.
GUESS = 4.0
# Of how many people a task can make use where the plan does not say.
HANDS = 2


def usual_hours(plan: Plan) -> float:
    """What a task without an estimate is taken to need: the middle of those that have one."""
    known = sorted(t.estimate.likely for t in plan.tasks.values() if t.estimate is not None)
    return known[len(known) // 2] if known else GUESS


def hours_left(standing: Standing, usual: float) -> float:
    """Person-hours to go; `usual` stands in for a missing estimate."""
    if standing.work_done:
        return 0.0
    left = standing.left
    if left is None:
        left = hours_to_go(usual, standing.hours, ()).hours
    return left or 0.0


def usual_crew(task: Task) -> int:
    """How many people work on it as a rule: the middle between the least and the most."""
    least = max(1, task.least_people)
    return (least + max(least, task.most_people or least)) // 2


def most_hands(task: Task) -> int:
    """Of how many people it can make use at most."""
    return task.most_people or max(task.least_people, HANDS)


def crew_on(standing: Standing) -> int:
    """The people on it where it is under way, within its bounds; else the usual crew."""
    task = standing.task
    if not standing.crew:
        return usual_crew(task)
    count = max(len(standing.crew), task.least_people, 1)
    return min(count, task.most_people) if task.most_people else count


def working_minutes(standing: Standing, usual: float) -> int:
    """Working time to go with the crew on it. A task that is set aside takes none."""
    if standing.state == "set aside" or standing.work_done:
        return 0
    return round(hours_left(standing, usual) / crew_on(standing) * 60)


def unestimated(board: Board) -> list[str]:
    """Unfinished tasks whose hours nobody has said."""
    return [
        s.task.id
        for s in board.standings.values()
        if s.left is None and not s.work_done and s.state != "set aside"
    ]
