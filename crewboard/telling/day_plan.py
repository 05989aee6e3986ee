"""The plan for a day: by the hour, by person, what found no place and why."""

from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan, Placed, Wish
from crewboard.order.presence import expected_on, times_in_words
from crewboard.order.said import day_in_words, how_many, listed, person, quoted_title
from crewboard.plan.hazard import CAUTION
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.row import Row, heading


def day_plan_rows(board: Board, plan: DayPlan, wish: Wish) -> list[Row]:
    """What is placed by the hour, then what is not, with why, then what was left out."""
    fixed = {wished.task for wished in wish.fixed}
    day = f"{day_in_words(plan.opens)}, {plan.opens:%H:%M} to {plan.closes:%H:%M}"
    rows = [heading(f"Plan for {day}: {how_many(len(plan.placed), 'task')}")]
    rows += [_placed(board, placed, fixed=placed.task in fixed) for placed in plan.placed]
    if not plan.placed:
        rows.append(heading("nothing could be placed", "warning"))
    if plan.not_placed:
        rows.append(heading("No place in the day"))
    for other in plan.not_placed:
        cells = ("no place", board.plan.tasks[other.task].title, _word(other.task in fixed))
        rows.append(Row(other.task, cells, "caution", (other.why,), handle=other.task))
    left_out = [task for task in wish.left_out if task in board.plan.tasks]
    if left_out:
        rows.append(heading("Left out by the lead"))
    rows += [
        Row(task, ("left out", board.plan.tasks[task].title, ""), "faint", handle=task)
        for task in left_out
    ]
    return rows


def _placed(board: Board, placed: Placed, *, fixed: bool) -> Row:
    task = board.plan.tasks[placed.task]
    names = listed(person(board.plan, who) for who in placed.people)
    ends = "finished by then" if placed.finishes else "goes on another day"
    where = f"{task.place}; {ends}" if task.place else ends
    cells = (f"{placed.start:%H:%M} - {placed.end:%H:%M}", task.title, _word(fixed))
    return Row(placed.task, cells, "safe", (names, where), handle=placed.task)


def _word(fixed: bool) -> str:
    return "fixed" if fixed else ""


def day_plan_lines(board: Board, plan: DayPlan, chosen: str = "") -> list[Line]:
    """How good the plan is, what must be known of it, and each person's day.

    The days of those who are on the `chosen` task stand out.
    """
    lines = [title("A proposal: the lead decides"), Line(worth_in_words(plan))]
    lines += [Line(remark, "warning") for remark in plan.remarks if remark != CAUTION]
    lines += [GAP, title("By person")]
    answers = expected_on(board.logbook, board.at.date())
    for who in plan.people:
        jobs = [placed for placed in plan.placed if who in placed.people]
        course = "; ".join(f"{j.start:%H:%M} {quoted_title(board.plan, j.task)}" for j in jobs)
        tone = "strong" if any(job.task == chosen for job in jobs) else "faint"
        times = times_in_words(answers[who]) if who in answers else ""
        name = person(board.plan, who) + (f" ({times})" if times else "")
        lines.append(Line(course or "nothing planned", tone, 0, f"{name}:"))
    if CAUTION in plan.remarks:
        lines += [GAP, Line(CAUTION, "faint")]
    return lines


def worth_in_words(plan: DayPlan) -> str:
    """How good the plan is, against what could be proven."""
    if plan.by == "solver" and plan.gap <= 0:
        return "No better plan is possible by what goes first: proven."
    share = int((1 - plan.gap) * 100)
    return f"At least {share} % as good as the best possible plan, by what goes first ({plan.by})."
