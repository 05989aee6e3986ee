"""The forecast of a board: many courses played, the finish read off at 50, 80 and 95 %."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta

from crewboard.order.ahead.work_time import DAY
from crewboard.order.board import Board
from crewboard.order.forecast.finds import with_finds
from crewboard.order.forecast.finish import Basis, Finish, Forecast, OnChain, Sooner
from crewboard.order.forecast.growth import growth_of
from crewboard.order.forecast.lookback import with_lookback
from crewboard.order.forecast.model import Model
from crewboard.order.forecast.pace import evidence
from crewboard.order.forecast.remaining import remaining
from crewboard.order.forecast.remarks import remarks
from crewboard.order.forecast.rough import rough, too_little
from crewboard.order.forecast.runs import Cores, Progress, Runs, play_many
from crewboard.order.forecast.supposed import asked_to_come, supposed, with_somebody

RUNS = 1000
WAYS = 200  # courses of each change that is tried
# Where no chance goes with any date, so many show what comes to set it.
WITHOUT_CHANCE = 40
# What is told first, so that it stands at once: so many courses, or fewer of a large plan.
FIRST, FIRST_TASKS, FEWEST = 160, 40_000, 40


def first_runs(board: Board) -> int:
    """After how many courses the dates are told for the first time, to be made surer."""
    return max(FEWEST, min(FIRST, FIRST_TASKS // max(1, len(board.plan.tasks))))


def model_of(board: Board) -> Model:
    """The remaining job with what the logbook tells of the crew and of what turns up, and with
    what is supposed."""
    board = with_somebody(board)
    model = with_finds(board, with_lookback(board, remaining(board)))
    return asked_to_come(model)


def forecast(
    board: Board, runs: int = RUNS, seed: int = 1, progress: Progress | None = None
) -> Forecast:
    """When the vehicle and each component will be finished.

    The same board, runs and seed give the same forecast. `progress(done, of)` may answer False to
    stop; the forecast then stands on what was played. Where no chance goes with any date, no more
    than `WITHOUT_CHANCE` courses are played. Raises ValueError for less than one run.
    """
    if runs < 1:
        raise ValueError("a forecast needs at least one run")
    if too_little(board):
        runs = min(runs, WITHOUT_CHANCE)
    model = model_of(board)
    with Cores.for_work(model, runs) as cores:
        played = play_many(model, runs, seed, progress=progress, cores=cores)
    return _read_off(board, model, played, runs, seed)


def _read_off(board: Board, model: Model, played: Runs, asked: int, seed: int) -> Forecast:
    start = datetime.combine(board.at.date(), time.min)
    count = len(played.finish)
    ended = _dates(start, played.finish, played.ended)
    components = []
    for place, component in enumerate(model.closings):
        dates = [
            _date(start, closings[place]) if ok else None
            for closings, ok in zip(played.closings, played.ended, strict=True)
        ]
        components.append((component, finish_of(dates)))
    components += [
        (component, _surely(max(board.at.date(), _date(start, minute))))
        for component, minute in model.settled.items()
    ]
    known = len(evidence(board))
    basis = Basis(model.attendance.held, known, len(model.attendance.people))
    chain = [
        OnChain(name, times / count)
        for name, times in zip(model.tasks, played.on_chain, strict=True)
        if times
    ]
    in_files = {name: place for place, name in enumerate(board.plan.components)}
    return Forecast(
        board.at,
        seed,
        count,
        asked,
        max(board.at.date(), _date(start, played.soonest)),
        finish_of(ended),
        tuple(sorted(components, key=lambda component: in_files[component[0]])),
        tuple(in_order(ended)),
        tuple(sorted(chain, key=lambda link: -link.share)),
        basis,
        tuple(remarks(board, basis, played.ended.count(False) / count)),
        as_planned=finish_of(_dates(start, played.planned, played.planned_ended)),
        growth=growth_of(board),
        supposed=supposed(board, model),
        too_little=(little := too_little(board)),
        rough=rough(board) if little else None,
    )


def finish_of(dates: Sequence[date | None]) -> Finish:
    """The quantiles of the dates; a date that holds in at least so many of them."""
    ordered = in_order(dates)

    def at(share: float) -> date | None:
        return ordered[min(len(ordered) - 1, max(0, -int(-share * len(ordered) // 1) - 1))]

    return Finish(at(0.5), at(0.8), at(0.95))


def in_order(dates: Sequence[date | None]) -> list[date | None]:
    """By date, those that never came last."""
    return sorted(dates, key=lambda d: d or date.max)


def _dates(start: datetime, finish: Sequence[int], ended: Sequence[bool]) -> list[date | None]:
    """The date of each course; None where it was broken off."""
    return [_date(start, m) if ok else None for m, ok in zip(finish, ended, strict=True)]


def _surely(day: date) -> Finish:
    return Finish(day, day, day)


def _date(start: datetime, minute: int) -> date:
    try:
        return (start + timedelta(minutes=minute)).date()
    except OverflowError:
        return date.max


def with_ways_sooner(
    board: Board,
    known: Forecast,
    runs: int = WAYS,
    progress: Progress | None = None,
) -> Forecast:
    """The forecast with what would bring the finish forward, the best first.

    Each change is played with the same chances as the plan as it stands, so that luck does not
    come between them.
    """
    from crewboard.order.forecast.ways import ways

    board = with_somebody(board)
    sooner: list[Sooner] = []
    base = model_of(board)
    changes = ways(board)
    steps = (len(changes) + 1) * runs
    with Cores.for_work(base, steps) as cores:

        def played(model: Model, number: int) -> Runs:
            def told(done: int, _: int) -> bool:
                return progress is None or progress(number * runs + done, steps)

            grown = asked_to_come(with_finds(board, model))._replace(as_planned=False)
            return play_many(grown, runs, known.seed, progress=told, cores=cores)

        plain = played(base, 0)
        for number, (says, model) in enumerate(changes, 1):
            stretched = model._replace(pace=base.pace)
            changed = played(stretched, number)
            if plain.stopped or changed.stopped:
                break
            sooner.append(_compared(says, plain, changed))
    return known._replace(sooner=tuple(sorted(sooner, key=lambda way: -way.gain)))


def _compared(says: str, plain: Runs, changed: Runs) -> Sooner:
    gains = [before - after for before, after in zip(plain.finish, changed.finish, strict=True)]
    count = len(gains)
    mean = sum(gains) / count
    scatter = sum((gain - mean) ** 2 for gain in gains) / max(1, count - 1)
    error = (scatter / count) ** 0.5
    return Sooner(says, timedelta(minutes=mean), timedelta(days=error / DAY))
