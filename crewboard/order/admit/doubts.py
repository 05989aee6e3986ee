"""What hardly can be: asked about before it is written, and written with a name and the reason.

Unlike a rule of safety none of these stands in the way of the work; each is far more often a slip
of the fingers than the truth. What merely does not fit, such as more hours than somebody was
signed in for, is not asked here: the check of the folder questions it.
"""

from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime

from crewboard.logbook.acts import (
    Act,
    Begun,
    ClosedDay,
    Finished,
    GuestHours,
    HoursLeft,
    HoursWorked,
    Reopened,
    SentBack,
    SignOut,
    Stopped,
    TakenBack,
    Used,
)
from crewboard.logbook.fields import fields_of
from crewboard.logbook.kinds import kind_of
from crewboard.logbook.logbook import Logbook
from crewboard.order.admit.hours import hours_doubts
from crewboard.order.admit.out_of_time import began, not_of_the_crew, to_come, too_early
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.hours.elsewhere import DayElsewhere
from crewboard.order.said import day_and_time, quoted_title, task_title
from crewboard.plan.units import shown

_MEND = "write it right, or say why it is so"


def _nothing_elsewhere(_day: date) -> Sequence[DayElsewhere]:
    return ()


def doubts(
    board: Board,
    logbook: Logbook,
    act: Act,
    now: datetime,
    elsewhere: Callable[[date], Sequence[DayElsewhere]] = _nothing_elsewhere,
) -> list[Refusal]:
    """What hardly can be of an act at the board's moment; each yields to a named person's reason.

    `logbook` also holds what is written along with it, `now` is what the shop's clock shows,
    `elsewhere` what other vehicles with the same crew have of a day.
    """
    if isinstance(act, TakenBack):
        return []  # what hardly could be is gone with it
    doubted = [*_moments(board, act, now), *_people(board, act), *_measures(board, act)]
    if kind_of(act).of_record:
        from crewboard.order.admit.record import record_doubts

        return doubted + record_doubts(board, logbook, act)
    match act:
        case Finished():
            doubted += _finish(board, logbook, act)
        case ClosedDay() | SignOut() | Stopped():
            doubted += _half_done(board, act)
        case HoursWorked() | GuestHours():
            doubted += hours_doubts(board, logbook, act, elsewhere(board.at.date()))
        case SentBack() | Used():
            doubted += _more_than_is_here(board, act)
        case HoursLeft() if board[act.task].work_done:
            sentence = f'the work of "{task_title(board.plan, act.task)}" is finished'
            mend = "reopen it first, or say why it is so"
            doubted.append(Refusal("finished", sentence, mend, True))
    return doubted


def _half_done(board: Board, act: ClosedDay | SignOut | Stopped) -> Iterator[Refusal]:
    """Work that must not be left half done, and that would stay so."""
    from crewboard.order.may.in_one_go import half_done, left_half_done

    tasks = half_done(board)
    if isinstance(act, SignOut):
        tasks = [left.task for left in left_half_done(board, (act.who,))]
    elif isinstance(act, Stopped):
        tasks = [task for task in tasks if task == act.task]
    for task in tasks:
        sentence = f"{quoted_title(board.plan, task)} must not be left half done, and would stay so"
        mend = "finish it, let somebody take over, or say what becomes of it"
        yield Refusal("half-done", sentence, mend, True)


def _doubt(code: str, sentence: str) -> Refusal:
    return Refusal(code, sentence, _MEND, True)


def _moments(board: Board, act: Act, now: datetime) -> Iterator[Refusal]:
    if sentence := to_come(act, board.at, now):
        yield _doubt("future", sentence)
    if sentence := too_early(board.at.date(), began(board.plan, board.logbook.days)):
        yield _doubt("too-early", sentence)


def _people(board: Board, act: Act) -> Iterator[Refusal]:
    for sentence in not_of_the_crew(board.plan, act, board.at.date()):
        yield _doubt("not-with-us", sentence)


def _measures(board: Board, act: Act) -> Iterator[Refusal]:
    """Measures beyond what is likely of their field: 300 °C in the shop."""
    units = board.plan.vehicle.units
    for field in fields_of(type(act)):
        value = getattr(act, field.name)
        if field.likely is None or value is None or field.likely[0] <= value <= field.likely[1]:
            continue
        low, high = (shown(number, field.unit, units) for number in field.likely)
        sentence = (
            f"{field.asked} {shown(value, field.unit, units)}: it is between {low} and {high}"
        )
        yield _doubt("unlikely", f"{sentence} as a rule")


def _more_than_is_here(board: Board, act: SentBack | Used) -> Iterator[Refusal]:
    """More of a counted supply than the logbook knows to be here."""
    account, amount = board.stock[act.supply], act.amount
    if amount is None or not account.counted or amount <= account.here:
        return
    sentence = f"{account.supply.name}: only {account.here:.10g} of {amount:.10g} are here"
    mend = "write down first what arrived, or say why it is so"
    yield Refusal("not-here", sentence, mend, True)


def _finish(board: Board, logbook: Logbook, act: Finished) -> Iterator[Refusal]:
    title = f'"{task_title(board.plan, act.task)}"'
    begun = _begun(logbook, act.task, board.at)
    if begun is None:
        yield from _followed_late(board, act)
        return
    if begun > board.at:
        yield _doubt("before-begun", f"{title} was begun only at {day_and_time(begun)}")
    elif act.clock is not None and act.clock < begun:
        sentence = f"the clock would start {day_and_time(act.clock)}, before {title} was begun"
        yield _doubt("clock", f"{sentence}, {day_and_time(begun)}")


def _followed_late(board: Board, act: Finished) -> Iterator[Refusal]:
    """Work that nobody wrote to have begun in time after what it had to follow."""
    from crewboard.order.within import must_follow
    from crewboard.order.within_words import begin_by_in_words

    follow = must_follow(board).get(act.task)
    if follow is not None and follow.late and (act.began or board.at) > follow.by:
        title = quoted_title(board.plan, act.task)
        sentence = f"{title} is {begin_by_in_words(board, follow)}"
        yield Refusal("follows-late", sentence, "do that first, or say why it is so", True)


def _begun(logbook: Logbook, task_id: str, at: datetime) -> datetime | None:
    """When the task's present course began, also where that is later than `at`."""
    first: datetime | None = None
    for day in logbook.days.values():
        for entry in day.events:
            act = entry.act
            if isinstance(act, Begun) and act.task == task_id and first is None:
                first = entry.at
            elif isinstance(act, Reopened) and act.task == task_id and entry.at <= at:
                first = None
    return first
