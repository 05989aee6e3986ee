"""What a column or a row of the table of hours is added for."""

from __future__ import annotations

from collections.abc import Collection

from crewboard.logbook.acts import WorkedOn
from crewboard.logbook.visits import same_name
from crewboard.order.admit.hours import of_the_crew
from crewboard.order.board import Board
from crewboard.order.hours.guests import Worker, guest_names
from crewboard.order.said import component_name
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.choose import task_choices
from crewboard.terminal.dialogs.pick import Choice, PickOne

_NEW = "(another)"
_IN_A_NOTE = "other work, told in a note"


async def ask_column(app: BoardApp, there: Collection[WorkedOn]) -> WorkedOn | None:
    """A task, component, piece or kind of other work that has no column yet; None when left."""
    columns = {str(n): pair for n, pair in enumerate(_columns(app.board)) if pair[0] not in there}
    choices = [choice._replace(id=number) for number, (_, choice) in columns.items()]
    picked = await app.push_screen_wait(PickOne("Add a column for what?", choices))
    return columns[picked][0] if picked is not None else None


def _columns(board: Board) -> list[tuple[WorkedOn, Choice]]:
    plan = board.plan
    tasks = [(WorkedOn(choice.id), choice) for choice in task_choices(board)]
    kinds = [
        (WorkedOn(other=kind), Choice(kind, kind, "other work")) for kind in plan.vehicle.other_work
    ]
    note = (WorkedOn(), Choice("", _IN_A_NOTE, "sweeping up, a talk, fetching timber"))
    components = [
        (WorkedOn(component=part.id), Choice(part.id, part.name, "component, no task of it"))
        for part in plan.components.values()
    ]
    pieces = [
        (
            WorkedOn(piece=piece.id),
            Choice(piece.id, piece.name, f"piece, {component_name(plan, piece.component)}"),
        )
        for piece in plan.pieces.values()
    ]
    return [*tasks, *kinds, note, *components, *pieces]


async def ask_guest(app: BoardApp, there: Collection[Worker]) -> Worker | None:
    """A guest of another day, or a new name; None when left."""
    shown = {same_name(worker.guest) for worker in there if worker.guest}
    known = [name for key, name in guest_names(app.board.logbook).items() if key not in shown]
    if known:
        choices = [*(Choice(name, name) for name in known), Choice(_NEW, "somebody else")]
        picked = await app.push_screen_wait(PickOne("Hours of which guest?", choices))
        if picked != _NEW:
            return Worker(guest=picked) if picked else None

    def wrong(name: str) -> str:
        volunteer = of_the_crew(app.board, name)
        return f"{volunteer.name} is in the crew" if volunteer else ""

    name = await app.push_screen_wait(AskLine("Hours of a guest", "the guest's name", check=wrong))
    return Worker(guest=" ".join(name.split())) if name else None
