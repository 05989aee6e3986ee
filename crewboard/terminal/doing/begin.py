"""Begin a task: who works on it, the checks that come first, then the entry."""

from __future__ import annotations

from crewboard.logbook.acts import Begun
from crewboard.order.admit import refusals
from crewboard.order.board import Board
from crewboard.order.said import listed, person, task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.doing.choose import choose_task
from crewboard.terminal.doing.sign_checks import sign_checks
from crewboard.terminal.people import crew_choices


async def begin(app: BoardApp, task_id: str) -> None:
    """Begin the task, or one that is picked."""
    task_id = task_id or await choose_task(app, "Begin which task?", ("ready", "under way")) or ""
    if not task_id:
        return
    people = await app.push_screen_wait(_who(app.board, task_id))
    if people is None:
        return
    act = Begun(task_id, people)
    stands_against = [r for r in refusals(app.board, act, app.by) if not r.yields]
    if stands_against and all(r.code == "unsigned" for r in stands_against):
        says = "These checks come before the work. Sign them, then Esc: it is begun."
        await sign_checks(app, task_id, people, says)
    outcome = await app.keep([act])
    if outcome.kept:
        names = listed(person(app.board.plan, who) for who in people)
        app.tell(f"begun: {task_title(app.board.plan, task_id)}, {names}")


def _who(board: Board, task_id: str) -> PickSeveral:
    task = board.plan.tasks[task_id]
    wants = [f"{task.least_people} or more people" if task.least_people > 1 else "1 person or more"]
    if task.skills:
        wants.append(listed(task.skills))
    choices = [_noted(board, task_id, choice) for choice in crew_choices(board)]
    title = f"Who begins: {task.title}"
    return PickSeveral(title, choices, says=f"Wants {', '.join(wants)}.")


def _noted(board: Board, task_id: str, choice: Choice) -> Choice:
    """The person with the skills of the task that they have, and what they may not do."""
    from crewboard.order.safety.checks import hazards_of

    task, volunteer = board.plan.tasks[task_id], board.plan.crew[choice.id]
    notes = [choice.note.replace("here since ", "here ")] if choice.note else []
    notes += [skill for skill in task.skills if skill in volunteer.skills]
    tone = choice.tone
    if volunteer.minor_on(board.at.date()):
        barred = [h.short for h in hazards_of(board, task_id) if not h.under_18]
        notes.append(f"under 18: not for {listed(barred)}" if barred else "under 18")
        tone = "danger" if barred else tone
    return choice._replace(note=", ".join(notes), tone=tone)
