"""From the board and the wish to the day as numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta

from crewboard.order.board import Board
from crewboard.order.day_plan.apart import pairs_apart
from crewboard.order.day_plan.following import with_following
from crewboard.order.day_plan.frame import Frame, is_of_nobody
from crewboard.order.day_plan.grid import Grid, grid_of
from crewboard.order.day_plan.proposal import Pause, Placed, Wish
from crewboard.order.day_plan.shop_day import Job, ShopDay
from crewboard.order.day_plan.team import Team
from crewboard.order.may.room import jobs_in


def shop_day(board: Board, wish: Wish, running: Sequence[Placed] = ()) -> ShopDay:
    """The day of the board from its moment on, for the people wished for."""
    closes, grid = hours_of_day(board, wish)
    people = _people(board, wish)
    hours = _here(board, grid, people)
    team = Team(board, people, hours)
    frame = Frame(board, wish, grid, closes, team, running)
    jobs = frame.jobs()
    apart = pairs_apart(board, jobs, grid.block, team.minors, team.of_minors)
    day = ShopDay(
        grid,
        closes,
        people,
        team.beside(),
        jobs,
        tuple(apart),
        _room(board),
        _jigs(board, jobs),
        hours,
        team.minors,
    )
    return with_following(board, frame.path.time, day)


def _room(board: Board) -> dict[str, int]:
    """For how many more jobs there is room, where the shop says it: work of nobody named stays."""
    return {
        place: max(0, room - sum(is_of_nobody(board, task) for task in jobs_in(board, place)))
        for place, room in board.plan.vehicle.shop.room.items()
    }


def _jigs(board: Board, jobs: Sequence[Job]) -> dict[str, int]:
    """How many of each jig the jobs can have; no fewer than they have already."""
    free = {}
    for jig in dict.fromkeys(jig for job in jobs for jig in job.jigs):
        ours = {job.task for job in jobs if job.has_jigs and jig in job.jigs}
        elsewhere = len(board.readiness.taken.get(jig, {}).keys() - ours)
        free[jig] = max(board.plan.vehicle.jigs[jig].number - elsewhere, len(ours))
    return free


def hours_of_day(board: Board, wish: Wish) -> tuple[datetime, Grid]:
    """When the shop closes, and the blocks of the day that are still to come."""
    day = board.at.date()
    opening = board.opening or board.plan.vehicle.work_days.usual
    opens = datetime.combine(day, opening.opens)
    closes = datetime.combine(day, opening.closes)
    pauses = [
        Pause(datetime.combine(day, each.begins), datetime.combine(day, each.ends), each.name)
        for each in board.plan.vehicle.shop.breaks
    ]
    grid = grid_of(opens, closes, timedelta(minutes=wish.block), pauses, board.at)
    return max(closes, board.at, opens), grid


def _people(board: Board, wish: Wish) -> tuple[str, ...]:
    """Those wished for; else the people of the day."""
    from crewboard.order.presence import of_the_day

    people = wish.people or of_the_day(board)
    return tuple(dict.fromkeys(who for who in people if who in board.plan.crew))


def _here(board: Board, grid: Grid, people: Sequence[str]) -> Mapping[str, tuple[int, int]]:
    """From which block to before which those are here who said when they come and leave. Whoever is
    here already has come, whatever they said."""
    from crewboard.order.presence import expected_on

    day = board.at.date()
    answers = expected_on(board.logbook, day)
    present = {visit.who for visit in board.present}
    hours = {}
    for who in people:
        answer = answers.get(who)
        if answer is None:
            continue
        first, last = 0, grid.blocks
        if answer.arrives and who not in present:
            first = grid.first_from(datetime.combine(day, answer.arrives))
        if answer.leaves:
            last = grid.ended_by(datetime.combine(day, answer.leaves))
        if (first, last) != (0, grid.blocks):
            hours[who] = (first, max(first, last))
    return hours
