"""A task's sheet: what is done, what it needs, where it stands, and its safety checks."""

from __future__ import annotations

from crewboard.order.board import Board, Standing
from crewboard.order.reasons.onward import what_then
from crewboard.order.reasons.why import why
from crewboard.order.safety.checks import Asked, checks_of, hazards_of
from crewboard.order.said import day_in_words, how_many, listed, person
from crewboard.paper.plain import Paper
from crewboard.plan.hazard import CAUTION, Hazard
from crewboard.plan.hold import Hold
from crewboard.telling.day_board import some_titles
from crewboard.telling.hazard_sheet import gear_and_limits, numbers
from crewboard.telling.holds import conditions_in_words


def task_sheet(board: Board, task_id: str, width: int) -> list[str]:
    """The sheet as lines. Raises KeyError for an unknown task."""
    standing = board[task_id]
    paper = Paper(width)
    paper.line(f"{standing.task.title}  [{task_id}]", hang=2)
    _stands(paper, board, task_id)
    _needs(paper, board, standing)
    if standing.task.method.strip():
        paper.heading("How")
        paper.text(standing.task.method, indent=2)
    hazards = hazards_of(board, task_id, standing.crew)
    if hazards:
        _safety(paper, board, task_id, hazards)
    return paper.lines


def _stands(paper: Paper, board: Board, task_id: str) -> None:
    paper.heading("Where it stands")
    for reason in why(board, task_id):
        paper.line(reason.says, indent=2 + 2 * min(reason.depth, 12), hang=2)
    paper.line(f"Finishing it: {_lets_go(board, task_id)}", indent=2, hang=2)


def _needs(paper: Paper, board: Board, standing: Standing) -> None:
    task, plan = standing.task, board.plan
    paper.heading("What it is")
    component = plan.components.get(task.component)
    facts = [("part of", component.name if component else task.component)]
    if task.estimate is not None:
        low, likely, high = task.estimate
        facts.append(("hours", f"{low:g} to {high:g}, most likely {likely:g} person-hours"))
    facts.append(("worked", f"{standing.hours:g} h" if standing.hours else ""))
    facts.append(("left", f"about {standing.left:g} h" if standing.left else ""))
    most = f" to {task.most_people}" if task.most_people not in (None, task.least_people) else ""
    facts.append(("people", f"{task.least_people}{most}"))
    facts += [
        ("skills", listed(task.skills)),
        ("place", task.place),
        ("supplies", listed(_supply(board, each, standing) for each in task.supplies)),
        ("after", listed(_named(board, each) for each in task.after)),
        ("during the hold of", listed(_named(board, each) for each in task.during)),
        ("then a hold", _hold_in_words(task.hold, plan.vehicle.units) if task.hold else ""),
        ("not before", day_in_words(task.not_before) if task.not_before else ""),
        ("due", day_in_words(task.due) if task.due else ""),
        ("pictures", listed(task.pictures)),
    ]
    for name, says in facts:
        if says:
            paper.line(f"{name}: {says}", indent=2, hang=2)


def _supply(board: Board, supply_id: str, standing: Standing) -> str:
    supply = board.plan.supplies.get(supply_id)
    name = supply.name if supply else supply_id
    return f"{name} (not here yet)" if supply_id in standing.short_of else name


def _named(board: Board, some_id: str) -> str:
    task = board.plan.tasks.get(some_id)
    if task is not None:
        return f'"{task.title}"'
    component = board.plan.components.get(some_id)
    return component.name if component else some_id


def _hold_in_words(hold: Hold, units: str) -> str:
    lasts = f"{hold.lasts} " if hold.lasts else ""
    ends = "then a look" if hold.release == "look" else "ends by itself"
    if hold.lasts is None:
        ends = "until somebody releases it"
    told = [f"{lasts}{hold.kind}, {ends}"]
    if hold.conditions:
        told.append(f"counts only {conditions_in_words(hold.conditions, units)}")
    if hold.leave_alone:
        told.append("the whole component is left alone")
    told += [each for each in (hold.note, hold.source and f"source: {hold.source}") if each]
    return "; ".join(told)


def _safety(paper: Paper, board: Board, task_id: str, hazards: list[Hazard]) -> None:
    asked = checks_of(board, task_id)
    paper.heading("Safety")
    paper.line(CAUTION, indent=2)
    for hazard in hazards:
        paper.heading(f"{hazard.name}  [{hazard.id}]")
        for harm in hazard.harm:
            paper.line(hazard.told(harm), indent=2, hang=2)
        for when in ("before", "during", "after"):
            own = [a for a in asked if a.hazard.id == hazard.id and a.check.when == when]
            if own:
                paper.line(f"{when.capitalize()} the work:", indent=2)
                for each in own:
                    paper.line(_check(board, each), indent=4, hang=2)
        gear_and_limits(paper, hazard)
        numbers(paper, hazard)
    open_checks = sum(each.open and each.check.when == "before" for each in asked)
    if open_checks:
        paper.line()
        paper.line(f"{how_many(open_checks, 'check')} to sign before the work begins.")


def _check(board: Board, asked: Asked) -> str:
    who = f" for {person(board.plan, asked.who)}" if asked.who else ""
    if asked.answer == "unsigned":
        answer = "to sign" + ("" if asked.check.signs == "anyone" else f" by {_signer(asked)}")
        if asked.overdue(board.at):
            answer = "due now, " + answer
    else:
        at = f" on {day_in_words(asked.at)} {asked.at:%H:%M}" if asked.at else ""
        answer = f"{asked.answer}{at} by {person(board.plan, asked.signed_by)}"
        answer += f" ({asked.why})" if asked.why else ""
    return f"- {asked.text} [{asked.check.id}]{who}: {answer}"


def _signer(asked: Asked) -> str:
    signs = asked.check.signs
    return "a lead" if signs == "lead" else f'who holds the certificate "{signs}"'


def _lets_go(board: Board, task_id: str) -> str:
    """What finishing the task lets go, in a sentence."""
    onward = what_then(board, task_id)
    told = []
    if onward.now:
        told.append(f"lets go {some_titles(board, onward.now)}")
    if onward.after_hold:
        hold = board.plan.tasks[task_id].hold
        after = "after its hold" if hold is not None else "later"
        told.append(f"{after} {some_titles(board, onward.after_hold)}")
    if onward.behind:
        told.append(f"{how_many(onward.behind, 'task')} behind it")
    return "; ".join(told) if told else "nothing waits for it"
