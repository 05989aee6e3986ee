"""Begin tasks: who works on it, who watches, the checks that come first, then the entry."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.logbook.acts import Begun
from crewboard.order.admit.rules import refusals
from crewboard.order.board import Board
from crewboard.order.day_plan.taken_over import planned_for
from crewboard.order.may.needs import Needs, needs_of, needs_of_hazards, under_18s
from crewboard.order.may.party import Party, parties, usual_roles
from crewboard.order.may.people import against_person, known
from crewboard.order.may.short import in_short
from crewboard.order.safety.checks import hazards_of
from crewboard.order.said import how_many, listed, person
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickSeveral
from crewboard.terminal.doing.ages import ask_ages
from crewboard.terminal.doing.closing_time import ask_closing_time
from crewboard.terminal.doing.sign_checks import sign_checks_of
from crewboard.terminal.doing.which import named, which
from crewboard.terminal.meant import Meant

_CHECKS = ("unsigned", "unopened")  # the refusals that signing mends


async def begin(app: BoardApp, meant: Meant) -> bool:
    """Begin the tasks that are meant, all of them with the same people; whether it was kept."""
    tasks = await which(app, meant, "Begin which", ("ready",), ("under way",))
    if not tasks:
        return False
    people = await app.push_screen_wait(_who(app.board, tasks))
    if people is None:
        return False
    if any(hazards_of(app.board, task, people) for task in tasks):
        await ask_ages(app, people)
    acts = await _in_their_parts(app, tasks, people)
    if acts is None:
        return False
    for act in acts:
        if not await ask_closing_time(app, act):
            return False
    stands_against = [r for act in acts for r in refusals(app.board, act, app.by)]
    firm = [r for r in stands_against if not r.yields]
    if firm and all(r.code in _CHECKS for r in firm):
        asked = "; ".join(dict.fromkeys(r.says for r in stands_against if r.yields))
        then = f". Then a reason is still asked: {asked}." if asked else ": then it is begun."
        intro = f"These checks come before the work. Read and sign each{then}"
        await sign_checks_of(app, tasks, acts[0].people, intro)
        against = [r for act in acts for r in refusals(app.board, act, app.by)]
        if still := {
            r.says for r in against if r.code in _CHECKS
        }:  # left, and known to whoever did
            app.tell(f"not begun: {how_many(len(still), 'check')} still to sign", warning=True)
            return False
    outcome = await app.keep(acts)
    if outcome.kept:
        names = listed(person(app.board.plan, who) for who in acts[0].people)
        begun = f"begun: {named(app.board, tasks)}, {names}"
        app.tell("; ".join([begun, *outcome.remarks]), warning=bool(outcome.remarks))
    return outcome.kept


async def _in_their_parts(
    app: BoardApp, tasks: Sequence[str], people: Sequence[str]
) -> list[Begun] | None:
    """The begin of each task; who watches is asked once where tasks ask for the same."""
    acts: list[Begun] = []
    asked: dict[tuple[str, ...], Begun] = {}
    for task in tasks:
        hazards = tuple(hazard.id for hazard in hazards_of(app.board, task, people))
        parts = asked.get(hazards) or await _in_its_parts(app, task, people)
        if parts is None:
            return None
        asked[hazards] = parts
        acts.append(parts._replace(task=task))
    return acts


async def _in_its_parts(app: BoardApp, task_id: str, people: Sequence[str]) -> Begun | None:
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


def _who(board: Board, tasks: Sequence[str]) -> PickSeveral:
    needs = [needs_of(board.plan.tasks[task], hazards_of(board, task)) for task in tasks]
    most = max(needs, key=lambda needed: needed.least)
    wants = f"Needs {most.least}" + (" or more" if most.most != most.least else "")
    watched = dict.fromkeys(sheet.watch for needed in needs for sheet in needed.watched)
    if watched:
        wants += f", a {listed(watched)} among them"
    skills = dict.fromkeys(skill for task in tasks for skill in board.plan.tasks[task].skills)
    if skills:
        wants += f"; {'skill' if len(skills) == 1 else 'skills'}: {listed(skills)}"
    choices = [_noted(board, needs, choice) for choice in crew_choices(board)]
    offered = _offered(board, tasks)
    if offered:
        wants += "; marked: who is planned for it"
    title = f"Who works on {named(board, tasks)}?"
    return PickSeveral(title, choices, intro=f"{wants}.", marked=offered)


def _offered(board: Board, tasks: Sequence[str]) -> tuple[str, ...]:
    """Who is here of those whom the plan of the day has on these tasks."""
    planned = [placed for task in tasks if (placed := planned_for(board, task))]
    wanted = {who for placed in planned for who in placed.people}
    return tuple(visit.who for visit in board.present if visit.who in wanted)


def _noted(board: Board, needs: Sequence[Needs], choice: Choice) -> Choice:
    """The person with the skills asked for that they have, and what they may not do."""
    volunteer = board.plan.crew[choice.id]
    notes = [choice.note.replace("here since ", "here ")] if choice.note else []
    skills = dict.fromkeys(skill for needed in needs for skill in needed.skills)
    notes += [skill for skill in skills if skill in volunteer.skills]
    against = [o for needed in needs for o in against_person(board, needed, volunteer.id)]
    if against:
        notes += dict.fromkeys(in_short(board, obstacle) for obstacle in against)
    elif under_18s([volunteer], board.at.date()):
        notes.append("under 18")
    return choice._replace(note=", ".join(notes), tone="danger" if against else choice.tone)
