"""May they? Everything that stands against these people doing a task at the board's moment."""

from collections.abc import Iterator, Sequence

from crewboard.order.board import Board, Standing
from crewboard.order.may.moment import against_moment, ends_late, not_opened, unnamed, unsigned
from crewboard.order.may.needs import needs_of
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.on_it import begun_today, on_it
from crewboard.order.may.people import (
    against_practice,
    too_few_here,
    too_young,
    without_certificate,
)
from crewboard.order.safety.checks import hazards_of


def against_beginning(board: Board, task_id: str, crew: Sequence[str]) -> list[Obstacle]:
    """What stands against these people beginning the task, or joining it, now.

    Empty when nothing does. Raises KeyError for an unknown task.
    """
    standing = against_standing(board, task_id, crew)
    if board[task_id].work_done:
        return standing  # refused for that alone
    return standing + against_doing(board, task_id, (*on_it(board, task_id), *crew))


def against_standing(board: Board, task_id: str, crew: Sequence[str] = ()) -> list[Obstacle]:
    """What the order of work has against it: where the task stands, what it waits for."""
    standing = board[task_id]
    unread = [Obstacle("unreadable", files=standing.unreadable)] if standing.unreadable else []
    match standing.state:
        case "finished":
            return [Obstacle("finished")]
        case "held" if standing.work_done:
            return [Obstacle("finished", holds=standing.holds)]
        case "set aside":
            return [Obstacle("set-aside")]
        case "held" if standing.else_ready:
            return unread
        case "held" | "waiting":
            kept = Obstacle(standing.state, supplies=standing.short_of, holds=standing.holds)
            return [kept, *unread]
        case "under way":
            joins = bool(set(crew) - set(standing.crew))
            if not joins and _begun_today(board, task_id):
                return [Obstacle("under-way", standing.crew, until=standing.begun)]
    return list(against_going_on(standing))


def against_going_on(standing: Standing) -> Iterator[Obstacle]:
    """What work under way has before it again: open work, else a hold; what it lacks; what could
    not be read."""
    if standing.open_again:
        yield Obstacle("open-again", task=standing.open_again[0])
    elif standing.held_again:
        yield Obstacle("held-again", holds=standing.held_again)
    if standing.short_of:
        yield Obstacle("supply", supplies=standing.short_of)
    if standing.unreadable:
        yield Obstacle("unreadable", files=standing.unreadable)


def against_doing(board: Board, task_id: str, people: Sequence[str]) -> list[Obstacle]:
    """What age, certificates, numbers, skills, dangers near, clocks and checks have against it.

    `people` are all who will be on it. Dangerous work is done by nobody unnamed; other work may be.
    Safety's reasons come first: none of them yields. A check that does not apply is signed as such,
    a rule that does not fit the crew is changed in its hazards.toml with name and reason.
    """
    named, task = tuple(dict.fromkeys(people)), board.plan.tasks[task_id]
    hazards = hazards_of(board, task_id, named)
    moment = list(against_moment(board, task, hazards))
    moment += ends_late(board, task, hazards, len(named))
    if not named:
        return [Obstacle("who")] if hazards else [*moment, *unnamed(board, task)]
    if hazards:
        moment += not_opened(board)
    needs = needs_of(task, hazards)
    barred = [*too_young(board, needs, named), *without_certificate(board, needs, named)]
    if hazards:
        barred += [*too_few_here(board, needs, named), *unsigned(board, task_id, named)]
    asked = unnamed(board, task)
    return [*moment, *barred, *asked, *against_practice(board, needs, named)]


def _begun_today(board: Board, task_id: str) -> bool:
    return any(act.task == task_id for act in begun_today(board))
