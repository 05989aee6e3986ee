"""May they? Everything that stands against these people doing a task at the board's moment."""

from collections.abc import Iterator, Sequence

from crewboard.logbook.acts import Begun
from crewboard.order.board import Board, Standing
from crewboard.order.may.in_one_go import left_half_done, not_in_one_go
from crewboard.order.may.kept import kept_for_ever
from crewboard.order.may.left_short import left_by
from crewboard.order.may.moment import against_moment, ends_late, not_opened, unnamed, unsigned
from crewboard.order.may.needs import Needs, needs_of
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.on_it import begun_today
from crewboard.order.may.party import Party, lacking, parties, parties_after, taken_with
from crewboard.order.may.people import (
    against_practice,
    not_here,
    of_unknown_age,
    too_young,
    without_certificate,
)
from crewboard.order.may.pictured import not_pictured
from crewboard.order.may.room import full
from crewboard.order.may.training import learners
from crewboard.order.safety.checks import hazards_of
from crewboard.order.within import must_follow

# What keeps other work out of a place.
_OTHER_WORK = ("place-closed", "place-taken")


def against_beginning(
    board: Board, task_id: str, crew: Sequence[str], watch: Sequence[str] = (), adult: str = ""
) -> list[Obstacle]:
    """What stands against these people beginning the task, or joining it, now.

    `watch` watch over it, `adult` stays beside the under-18s on it. Empty when nothing does.
    Raises KeyError for an unknown task.
    """
    standing = against_standing(board, task_id, (*crew, *watch, *filter(None, (adult,))))
    if board[task_id].work_done:
        return standing  # refused for that alone
    people = (*parties(board).get(task_id, Party()).crew, *crew)
    standing += follows_late(board, task_id)
    return standing + against_doing(board, task_id, people, watch, adult)


def against_standing(board: Board, task_id: str, crew: Sequence[str] = ()) -> list[Obstacle]:
    """What the order of work has against it: where the task stands, what it waits for."""
    standing = board[task_id]
    unread = [Obstacle("unreadable", files=standing.unreadable)] if standing.unreadable else []
    match standing.state:
        case "finished":
            return [Obstacle("finished")]
        case "on hold" if standing.work_done:
            return [Obstacle("finished", holds=standing.holds)]
        case "set aside":
            return [Obstacle("set-aside")]
        case "on hold" if standing.else_ready:
            return unread
        case "on hold" | "needs supplies" | "waiting":
            kept = Obstacle("waiting", supplies=standing.short_of, holds=standing.holds)
            return [kept, *unread]
        case "under way":
            on_now = parties(board).get(task_id, Party())
            joins = bool(set(crew) - {*standing.crew, *on_now.everybody})
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


def follows_late(board: Board, task_id: str) -> Iterator[Obstacle]:
    """Work that had to be begun sooner after what comes before it: that has to be done again."""
    follow = must_follow(board).get(task_id)
    if follow is not None and follow.late:
        yield Obstacle("follows-late", task=follow.after, until=follow.by)


def against_doing(
    board: Board, task_id: str, people: Sequence[str], watch: Sequence[str] = (), adult: str = ""
) -> list[Obstacle]:
    """What age, certificates, numbers, skills, dangers near, clocks and checks have against it.

    `people` are all who will be on it, but for the watchers. Dangerous work is done by nobody
    unnamed; other work may be. Safety's reasons come first: none of them yields. A check that does
    not apply is signed as such, a rule that does not fit the crew is changed in its hazards.toml
    with name and reason.
    """
    task = board.plan.tasks[task_id]
    begun = Begun(task_id, tuple(people), watch=tuple(watch), adult=adult)
    after = parties_after(board, begun)
    party = after[task_id]
    workers = tuple(dict.fromkeys((*people, *filter(None, (adult,)))))
    named = tuple(dict.fromkeys((*workers, *watch, *party.everybody)))
    hazards = hazards_of(board, task_id, named)
    with_it = taken_with(board, task_id, named) if task.series else ()
    moment = [
        o
        for o in against_moment(board, task, hazards)
        if o.code != "room" and not (o.code in _OTHER_WORK and o.task in with_it)
    ]
    moment += full(board, task, named)  # who leaves another job there makes room
    moment += ends_late(board, task, hazards, len(workers), with_it)
    moment += not_in_one_go(board, task, len(workers), with_it)
    moment += [*kept_for_ever(board, task), *not_pictured(board, task)]
    if not workers:
        return [Obstacle("who")] if hazards else [*moment, *unnamed(board, task)]
    if hazards:
        moment += not_opened(board)
    needs = needs_of(task, hazards)._replace(learners=learners(board, task_id, hazards))
    barred = [
        *too_young(board, needs, named),
        *of_unknown_age(board, needs, named),
        *without_certificate(board, needs._replace(one=()), named),
        # Whoever watches does not do the work: their paper is not the one that it asks for.
        *without_certificate(board, needs._replace(each=()), workers),
        *not_here(board, needs, named),
    ]
    if hazards:
        barred += [*_lacking(board, needs, party, named, watch), *unsigned(board, task_id, named)]
    left = [*left_by(board, after, task_id, named), *left_half_done(board, named, task_id)]
    asked = unnamed(board, task)
    return [*moment, *barred, *left, *asked, *against_practice(board, needs, named)]


def _lacking(
    board: Board, needs: Needs, party: Party, named: Sequence[str], watch: Sequence[str]
) -> Iterator[Obstacle]:
    """What the party lacks; for its number, also who of those named is not here. A watcher who is
    not here was told of already."""
    here = {visit.who for visit in board.present}
    away = tuple(who for who in named if who not in here)
    for lack in lacking(board, needs, party):
        if lack.code == "people":
            yield lack._replace(people=(*lack.people, *away))
        elif lack.code != "watch" or not set(watch) & set(away):
            yield lack


def _begun_today(board: Board, task_id: str) -> bool:
    return any(act.task == task_id for act in begun_today(board))
