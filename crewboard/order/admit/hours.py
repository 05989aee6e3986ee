"""Hours: what cannot be written, and what hardly can be."""

from collections.abc import Iterator, Sequence

from crewboard.logbook.acts import HOURS, GuestHours, HoursWorked, worked_on
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import guest_visits, same_name
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.hours.elsewhere import WHOLE_DAY, DayElsewhere, doubt_of_both
from crewboard.order.hours.guests import joined_since, worker
from crewboard.order.said import day_in_words, listed, person, task_title
from crewboard.plan.volunteer import Volunteer

_MEND = "write it right, or say why it is so"


def hours_refusals(board: Board, act: HoursWorked | GuestHours) -> list[Refusal]:
    """Hours are always taken, but for no hours, hours on two things, and hours of no guest."""
    if not act.hours > 0:
        sentence = f"{act.hours:g} hours cannot be one person's day"
        return [Refusal("hours", sentence, "log more than 0 and at most 24")]
    if sum(map(bool, worked_on(act))) > 1:
        sentence = "hours are on a task, a component, a piece or a kind of other work"
        return [Refusal("both", sentence, "name one of them; write the rest as hours of their own")]
    return _guest_refusals(board, act) if isinstance(act, GuestHours) else []


def _guest_refusals(board: Board, act: GuestHours) -> list[Refusal]:
    if not act.name.strip():
        return [Refusal("empty", "say the guest's name")]
    volunteer = of_the_crew(board, act.name)
    if volunteer is None:
        return []
    sentence = f"{volunteer.name} is in the crew"
    return [Refusal("crew", sentence, f"write them as theirs: crewboard hours . {volunteer.id}")]


def of_the_crew(board: Board, name: str) -> Volunteer | None:
    """Who of the crew, on the day of the board, is called so by name or short name."""
    for volunteer in board.plan.crew.values():
        of_them = same_name(name) in (same_name(volunteer.name), volunteer.id.casefold())
        if of_them and volunteer.with_us_on(board.at.date()):
            return volunteer
    return None


def hours_doubts(
    board: Board,
    logbook: Logbook,
    act: HoursWorked | GuestHours,
    elsewhere: Sequence[DayElsewhere] = (),
) -> Iterator[Refusal]:
    """More hours than a day has, also with those on other vehicles; a guest who did not come, or
    who did dangerous work."""
    on = board.at.date()
    day, joined = logbook.days.get(on), joined_since(board.plan)
    worker_now = worker(joined, act)
    before = sum(
        entry.act.hours
        for entry in (day.counting if day else ())
        if isinstance(entry.act, HOURS) and worker_now.is_same(worker(joined, entry.act))
    )
    if act.hours > WHOLE_DAY:
        yield _doubt("hours", f"{act.hours:.10g} hours cannot be one person's day")
    elif before + act.hours > WHOLE_DAY:
        who, guest = worker_now
        name, in_all = person(board.plan, who) if who else guest, round(before + act.hours, 2)
        sentence = f"{name} would have {in_all:.10g} hours on {day_in_words(on)}"
        yield _doubt("hours", f"{sentence}, more than a day has")
    elif doubt := doubt_of_both(board.plan, logbook, on, worker_now, before + act.hours, elsewhere):
        yield _doubt("hours-elsewhere", doubt)
    if isinstance(act, GuestHours):
        yield from _guest_doubts(board, logbook, act)


def _guest_doubts(board: Board, logbook: Logbook, act: GuestHours) -> Iterator[Refusal]:
    day = board.at.date()
    came = list(dict.fromkeys(visit.name for visit in guest_visits(logbook.days.get(day))))
    if same_name(act.name) not in map(same_name, came):
        guests = f"the guests were {listed(came)}" if came else "no guest was signed in"
        sentence = f"no guest {act.name} was signed in on {day_in_words(day)}: {guests}"
        yield _doubt("no-guest", sentence)
    task = board.plan.tasks.get(act.task)
    if task is not None and task.hazards:
        title = task_title(board.plan, task.id)
        sheets = listed(
            board.plan.hazards[name].short for name in task.hazards if name in board.plan.hazards
        )
        sentence = f'guests do nothing dangerous, and "{title}" is ({sheets})'
        yield _doubt("guest-danger", sentence)


def _doubt(code: str, sentence: str) -> Refusal:
    return Refusal(code, sentence, _MEND, True)
