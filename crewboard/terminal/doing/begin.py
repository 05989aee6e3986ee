"""Begin a task: who works on it, the checks that come first, then the entry."""

from __future__ import annotations

from crewboard.logbook.acts import Begun
from crewboard.order.admit.rules import refusals
from crewboard.order.board import Board
from crewboard.order.may.needs import Needs, needs_of, under_18s
from crewboard.order.may.people import against_person
from crewboard.order.may.short import in_short
from crewboard.order.safety.checks import hazards_of
from crewboard.order.said import listed, person, task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import choose_task, crew_choices
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.doing.closing_time import ask_closing_time
from crewboard.terminal.doing.sign_checks import sign_checks


async def begin(app: BoardApp, task_id: str) -> None:
    """Begin the task, or one that is picked."""
    task_id = task_id or await choose_task(app, "Begin which task?", ("ready", "under way")) or ""
    if not task_id:
        return
    people = await app.push_screen_wait(_who(app.board, task_id))
    if people is None:
        return
    act = Begun(task_id, people)
    if not await ask_closing_time(app, act):
        return
    stands_against = [r for r in refusals(app.board, act, app.by) if not r.yields]
    if stands_against and all(r.code in ("unsigned", "unopened") for r in stands_against):
        intro = "These checks come before the work. Read and sign each: then it is begun."
        await sign_checks(app, task_id, people, intro)
    outcome = await app.keep([act])
    if outcome.kept:
        names = listed(person(app.board.plan, who) for who in people)
        app.tell(f"begun: {task_title(app.board.plan, task_id)}, {names}")


def _who(board: Board, task_id: str) -> PickSeveral:
    task = board.plan.tasks[task_id]
    needs = needs_of(task, hazards_of(board, task_id))
    wants = f"Needs {needs.least}" + (" or more" if needs.most != needs.least else "")
    if task.skills:
        wants += f"; {'skill' if len(task.skills) == 1 else 'skills'}: {listed(task.skills)}"
    choices = [_noted(board, needs, choice) for choice in crew_choices(board)]
    return PickSeveral(f"Who works on {task.title}?", choices, intro=f"{wants}.")


def _noted(board: Board, needs: Needs, choice: Choice) -> Choice:
    """The person with the skills of the task that they have, and what they may not do."""
    volunteer = board.plan.crew[choice.id]
    notes = [choice.note.replace("here since ", "here ")] if choice.note else []
    notes += [skill for skill in needs.skills if skill in volunteer.skills]
    against = against_person(board, needs, volunteer.id)
    if against:
        notes += dict.fromkeys(in_short(board, obstacle) for obstacle in against)
    elif under_18s([volunteer], board.at.date()):
        notes.append("under 18")
    return choice._replace(note=", ".join(notes), tone="danger" if against else choice.tone)
