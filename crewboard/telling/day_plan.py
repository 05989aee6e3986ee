"""The plan for a day: to be read out by person, by the hour, what found no place and why."""

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime

from crewboard.order.board import Board
from crewboard.order.day_plan.changes import is_moved
from crewboard.order.day_plan.proposal import DayPlan, Otherwise, Placed, SmallJob, Wish
from crewboard.order.day_plan.taken_over import Running
from crewboard.order.presence import expected_on, times_in_words
from crewboard.order.said import day_in_words, how_many, listed, person, short_names
from crewboard.plan.hazard import CAUTION
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.read_out import read_out
from crewboard.telling.row import Row, heading
from crewboard.telling.series import fold, titled

_CHANGE, _PERSON, _SMALL, _WHY = "change:", "person:", "small:", "why:"  # before ids of rows


def day_plan_rows(
    board: Board,
    plan: DayPlan,
    wish: Wish,
    running: Running | None = None,
    opened: Collection[str] = (),
) -> list[Row]:
    """What is changed of the plan that the day runs by, each person's line to be read out, what is
    placed by the hour, then what is not, by the reason, then what was left out.

    Of the rows among `opened` that stand for several tasks each task has a row below.
    """
    fixed = {wished.task for wished in wish.fixed}
    day = f"{day_in_words(plan.opens)}, {plan.opens:%H:%M} to {plan.closes:%H:%M}"
    rows = list(_changes(board, plan, running))
    rows.append(heading(f"Plan for {day}: {how_many(len(plan.placed), 'task')}"))
    rows += [_to_read_out(board, plan, who) for who in plan.people]
    by_hour = "By the hour" if plan.placed else "nothing could be placed"
    rows.append(heading(by_hour, "faint" if plan.placed else "warning"))
    rows += [_placed(board, placed, fixed=placed.task in fixed) for placed in plan.placed]
    rows += [_small(board, number, job) for number, job in enumerate(plan.small)]
    rows += _not_placed(board, plan, fixed, opened)
    left_out = [task for task in wish.left_out if task in board.plan.tasks]
    if left_out:
        rows.append(heading("Left out by the lead"))
    rows += [
        Row(task, ("left out", board.plan.tasks[task].title, ""), "faint", handle=task)
        for task in left_out
    ]
    return rows


def task_of_row(row_id: str) -> str:
    """The task of a row of the plan; empty for one of a person, a small job or several tasks."""
    if row_id.startswith((_PERSON, _SMALL, _WHY)):
        return ""
    return row_id.removeprefix(_CHANGE)


def _changes(board: Board, plan: DayPlan, running: Running | None) -> Iterator[Row]:
    """What is otherwise than in the plan that the day runs by."""
    if running is None or not plan.changes:
        return
    yield heading(f"Otherwise than in the plan of {running.at:%H:%M} ({len(plan.changes)})", "must")
    for number, change in enumerate(plan.changes):
        of = board.plan.tasks[change.task].title if change.task else change.what
        cells = (f"from {change.since:%H:%M}", of, "")
        below = (change_in_words(board, change, plan.opens),)
        row_id = f"{_CHANGE}{change.task}" if change.task else f"{_SMALL}{_CHANGE}{number}"
        yield Row(row_id, cells, "must", below, handle=change.task)


def change_in_words(board: Board, change: Otherwise, opens: datetime) -> str:
    """ "one more: Tomasz", "without Aiko", "from 14:30 in place of 09:00", "new: Kwame and Leila",
    "one more, to learn it: Leila".

    `opens` is the first moment that the new plan speaks of.
    """

    def names(people: Sequence[str]) -> str:
        return listed(short_names(board.plan, people))

    before, now = change.before, change.now
    if now is None:
        if not change.task:
            return f"a small job, not any more: {names(change.left)}"
        done = board[change.task].work_done
        return "finished" if done else f"not any more; free for other work: {names(change.left)}"
    if isinstance(now, SmallJob):
        new = f"a small job, new: {names(now.people)}"
        moved = f"a small job of {names(now.people)}, from {now.start:%H:%M}"
        return new if before is None else f"{moved} in place of {before.start:%H:%M}"
    learn = [who for who in change.joined if who in now.learning]
    if before is None:
        learning = f"; to learn it: {names(learn)}" if learn else ""
        return f"new: {names(now.people)}{learning}"
    said = []
    for joined, to_learn in (
        ([who for who in change.joined if who not in learn], ""),
        (learn, ", to learn it"),
    ):
        if joined:
            more = "one more" if len(joined) == 1 else f"{len(joined)} more"
            said.append(f"{more}{to_learn}: {names(joined)}")
    if change.left:
        said.append(f"without {names(change.left)}")
    if is_moved(before, now, opens):
        said.append(f"from {now.start:%H:%M} in place of {before.start:%H:%M}")
    return "; ".join(said)


def _to_read_out(board: Board, plan: DayPlan, who: str) -> Row:
    answers = expected_on(board.logbook, board.at.date())
    times = times_in_words(answers[who]) if who in answers else ""
    name = short_names(board.plan, [who])[0]
    said = read_out(board.plan, plan, who)
    tone: Tone = "faint" if who in plan.idle else "plain"
    return Row(
        f"{_PERSON}{who}",
        (name, f"here {times}" if times else ""),
        "strong",
        (said,),
        below_tone=tone,
    )


def _placed(board: Board, placed: Placed, *, fixed: bool) -> Row:
    task = board.plan.tasks[placed.task]
    names = listed(person(board.plan, who) for who in placed.people)
    ends = "finished by then" if placed.finishes else "goes on another day"
    if placed.watch:
        until = f" until {placed.watched_until:%H:%M}" if placed.watched_until else ""
        watching = listed(short_names(board.plan, placed.watch))
        ends += f"; {watching} {'watches' if len(placed.watch) == 1 else 'watch'}{until}"
    if placed.looks:
        ends += "; first a hold is looked at and released"
    where = f"{task.place}; {ends}" if task.place else ends
    cells = (f"{placed.start:%H:%M} - {placed.end:%H:%M}", task.title, _word(fixed))
    return Row(placed.task, cells, "safe", (names, where), handle=placed.task)


def _small(board: Board, number: int, job: SmallJob) -> Row:
    names = listed(person(board.plan, who) for who in job.people)
    cells = (f"{job.start:%H:%M} - {job.end:%H:%M}", job.what, "")
    return Row(f"{_SMALL}{number}", cells, "safe", (names, "a small job"))


def _not_placed(
    board: Board, plan: DayPlan, fixed: Collection[str], opened: Collection[str]
) -> Iterator[Row]:
    """What found no place: one row for all that has one reason, which opens."""
    by_reason: dict[str, list[str]] = {}
    for other in plan.not_placed:
        by_reason.setdefault(other.why, []).append(other.task)
    if by_reason:
        yield heading(f"No place in the day ({len(plan.not_placed)})")
    for number, (why, tasks) in enumerate(by_reason.items()):
        if len(tasks) == 1:
            yield _without_a_place(board, tasks[0], why, fixed)
            continue
        row_id = f"{_WHY}{number}"
        told = "; ".join(titled(board, item) for item in fold(board, tasks))
        in_full = tuple(f"{board.plan.tasks[task].title}  [{task}]" for task in tasks)
        cells = (f"{len(tasks)} tasks", told, "")
        yield Row(
            row_id, cells, "caution", (why,), below_in_full=in_full, folded=row_id not in opened
        )
        for task in tasks if row_id in opened else ():
            yield _without_a_place(board, task, "", fixed)._replace(depth=1)


def _without_a_place(board: Board, task: str, why: str, fixed: Collection[str]) -> Row:
    cells = ("no place", board.plan.tasks[task].title, _word(task in fixed))
    return Row(task, cells, "caution", tuple(filter(None, (why,))), handle=task)


def _word(fixed: bool) -> str:
    return "fixed" if fixed else ""


def day_plan_lines(
    board: Board, plan: DayPlan, running: Running | None = None, row: Row | None = None
) -> list[Line]:
    """Whether the day runs by the plan, how good it is, what must be known of it; and, with the row
    under the cursor, what there is to say of that."""
    lines = [_stands(board, plan, running)]
    if row is not None and row.below_in_full:
        lines += [Line(told.rpartition("  [")[0]) for told in row.below_in_full]
    lines.append(Line(worth_in_words(plan), "faint"))
    lines += [Line(remark, "warning") for remark in plan.remarks if remark != CAUTION]
    if CAUTION in plan.remarks:
        lines += [GAP, Line(CAUTION, "faint")]
    return lines


def _stands(board: Board, plan: DayPlan, running: Running | None) -> Line:
    if running is None:
        return title("A proposal: the lead decides")
    by = f" by {person(board.plan, running.by)}" if running.by else ""
    taken = f"The day runs by the plan taken over at {running.at:%H:%M}{by}"
    if is_as_running(plan, running):
        return title(taken)
    return Line(f"{taken}. This is another one: a proposal.", "must", bold=True)


def is_as_running(plan: DayPlan, running: Running | None) -> bool:
    """Whether what is left of the day is as the running plan has it."""
    if running is None or plan.changes:
        return False
    left = {placed.task for placed in running.placed if placed.end > plan.opens}
    return {placed.task for placed in plan.placed if placed.end > plan.opens} <= left


def worth_in_words(plan: DayPlan) -> str:
    """How much more another plan could bring at most, in the terms in which that is counted."""
    above = -(-100 * (plan.bound - plan.value) // plan.value) if plan.value else 0
    more = (
        f"at most {above} % more could be got done by any plan made in this way"
        if above
        else "no plan made in this way gets more done"
    )
    return f"Counted by what goes first, {more}; this one was found by the {plan.by}."
