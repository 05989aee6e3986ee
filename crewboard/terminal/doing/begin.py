"""Begin a task: who works on it, who watches, the checks that come first, then the entry."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.logbook.acts import Begun
from crewboard.order.admit.rules import refusals
from crewboard.order.board import Board
from crewboard.order.may.needs import Needs, needs_of, needs_of_hazards, under_18s
from crewboard.order.may.party import Party, parties, usual_roles
from crewboard.order.may.people import against_person, known
from crewboard.order.may.short import in_short
from crewboard.order.safety.checks import hazards_of
from crewboard.order.said import listed, person, task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import choose_task, crew_choices
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickSeveral
from crewboard.terminal.doing.ages import ask_ages
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
    if hazards_of(app.board, task_id, people):
        await ask_ages(app, people)
    act = await _in_their_parts(app, task_id, people)
    if act is None or not await ask_closing_time(app, act):
        return
    stands_against = [r for r in refusals(app.board, act, app.by) if not r.yields]
    if stands_against and all(r.code in ("unsigned", "unopened") for r in stands_against):
        intro = "These checks come before the work. Read and sign each: then it is begun."
        await sign_checks(app, task_id, act.people, intro)
    outcome = await app.keep([act])
    if outcome.kept:
        names = listed(person(app.board.plan, who) for who in act.people)
        begun = f"begun: {task_title(app.board.plan, task_id)}, {names}"
        app.tell("; ".join([begun, *outcome.remarks]), warning=bool(outcome.remarks))


async def _in_their_parts(app: BoardApp, task_id: str, people: Sequence[str]) -> Begun | None:
    """Who of them watches and who is beside the under-18s, asked where the work asks for it and
    nobody does it yet; None where the question was left."""
    board, already = app.board, parties(app.board).get(task_id, Party())
    everybody = tuple(dict.fromkeys((*already.everybody, *people)))
    needs = needs_of_hazards(hazards_of(board, task_id, everybody))
    if any(against_person(board, needs, who) for who in people):
        return Begun(task_id, tuple(people))  # refused for that, whoever watches
    usual = usual_roles(board, task_id, everybody)
    watch: list[str] = []
    for place, sheet in enumerate(needs.watched[len(already.watch) :]):
        title = f"Who is the {sheet.watch}, and does nothing else?"
        at = usual.watch[place] if place < len(usual.watch) else ""
        here = [choice for choice in crew_choices(board) if choice.id not in watch]
        picked = await app.push_screen_wait(PickOne(title, here, at=at))
        if picked is None:
            return None
        watch.append(picked)
    crew = tuple(who for who in people if who not in watch)
    young = under_18s(known(board, everybody), board.at.date())
    if not young or already.adult or not needs.for_minors:
        return Begun(task_id, crew, watch=tuple(watch))
    names = listed(volunteer.name for volunteer in young)
    beside = [who for who in everybody if who not in watch and who not in {v.id for v in young}]
    choices = crew_choices(board, only=beside)
    empty = "an adult has to be on it with them"
    dialog = PickOne(f"Who stays beside {names}?", choices, at=usual.adult, empty=empty)
    adult = await app.push_screen_wait(dialog)
    return None if adult is None else Begun(task_id, crew, watch=tuple(watch), adult=adult)


def _who(board: Board, task_id: str) -> PickSeveral:
    task = board.plan.tasks[task_id]
    needs = needs_of(task, hazards_of(board, task_id))
    wants = f"Needs {needs.least}" + (" or more" if needs.most != needs.least else "")
    if needs.watched:
        wants += f", a {listed(sheet.watch for sheet in needs.watched)} among them"
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
