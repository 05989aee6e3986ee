"""The day as a whole: its date and hours, its people, what is left alone, how far the work is."""

from crewboard.logbook.visits import GuestVisit
from crewboard.order.board import Board
from crewboard.order.left_alone import in_short, told_together
from crewboard.order.presence import closed_at, expected_on, times_in_words, who_stays
from crewboard.order.safety.left_open import last_left_open, left_open_in_words
from crewboard.order.safety.opening import (
    first_aider_in_words,
    without_first_aider,
)
from crewboard.order.said import day_and_time, how_many, listed, person, short_names
from crewboard.plan.plan import Plan
from crewboard.telling.by_plan import by_plan_lines
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.notes import notes_of_last_time
from crewboard.telling.notices import NOT_OPENED, not_opened, notices
from crewboard.telling.unreadable import unreadable_lines
from crewboard.telling.work_day import first_titles, waiting_groups


def day_head(board: Board) -> list[Line]:
    """What stands over the day's rows."""
    lines = [title(f"{board.plan.vehicle.name}: {day_and_time(board.at)}")]
    lines += [*unreadable_lines(board), _hours(board)]
    lines += [*left_open_lines(board), *people_lines(board, since=True)]
    lines += [line for line in notices(board) if line.word != NOT_OPENED]
    return [*lines, *left_alone_lines(board), *by_plan_lines(board), *notes_of_last_time(board)]


def left_alone_lines(board: Board) -> list[Line]:
    """All that must not be touched now, each with its end, and how many they are; mostly one line,
    nothing where there is nothing."""
    alone = told_together(board)
    if not alone:
        return []
    every = "; ".join(in_short(board, entry) for entry in alone)
    return [Line(every, "danger", word=f"LEAVE ALONE ({len(alone)}):", bold=True)]


def left_open_lines(board: Board) -> list[Line]:
    """The latest past day that is not settled, and how many there are before it; mostly nothing."""
    left_open, earlier = last_left_open(board)
    if left_open is None:
        return []
    facts = left_open_in_words(board.plan, left_open)
    if earlier:
        facts.append(f"{how_many(earlier, 'earlier day')} too")
    return [Line(f"{'; '.join(facts)}.", "danger", 0, "LEFT OPEN:")]


def _hours(board: Board) -> Line:
    if board.openings:
        return Line(f"Work day, open {listed(map(str, board.openings))}.")
    work_days = board.plan.vehicle.work_days
    opens, why = work_days.next_after(board.at), work_days.called_off(board.at.date())
    closed = "No work day" if why is None else "No work day: it is called off"
    if why is None and (holiday := work_days.holiday(board.at.date())) is not None:
        closed, why = "No work day: holidays", holiday.why
    closed += f" ({why})." if why else "."
    return Line(f"{closed} The next is {day_and_time(opens)}." if opens else closed)


def people_lines(board: Board, *, since: bool = False, shortly: bool = False) -> list[Line]:
    """Who is here, with `since` also since when, who is expected, and who is not coming; `shortly`
    by first names where those are enough."""
    plan, answers = board.plan, expected_on(board.logbook, board.at.date())

    def name(who: str) -> str:
        return short_names(plan, [who])[0] if shortly else person(plan, who)

    seen = {visit.who for visit in board.history.visits}
    here = [
        name(visit.who) + (f" (since {visit.since:%H:%M})" if since else "")
        for visit in board.present
    ]
    expected = [
        " ".join(filter(None, (name(who), times_in_words(answer))))
        for who, answer in answers.items()
        if answer.coming and who not in seen
    ]
    away = [name(who) for who, answer in answers.items() if not answer.coming]
    lines = [Line(listed(here), word="Here:") if here else _nobody(board)]
    lines += _opening(board)
    guests = listed(_guest(plan, visit, since=since) for visit in board.guests)
    lines += [Line(guests, word="Guests:")] if guests else []
    lines += _staying(board)
    lines += [Line(listed(expected), "faint", word="Expected:")] if expected else []
    return lines + ([Line(listed(away), "faint", word="Not coming:")] if away else [])


def _opening(board: Board) -> list[Line]:
    """Once somebody is here: that the shop is not opened yet; who gives first aid."""
    if not board.present or closed_at(board) is not None:
        return []
    still, gone = not_opened(board), without_first_aider(board)
    lines = [still] if still is not None else []
    if gone:
        return [*lines, Line(f"{gone}.", "danger", word="First aid:")]
    named = first_aider_in_words(board)
    return [*lines, *([Line(named, "faint", word="First aid:")] if named else [])]


def _staying(board: Board) -> list[Line]:
    """Who stays behind in a shop that is closed, and until when."""
    stays = who_stays(board)
    if not stays:
        return []
    from crewboard.order.safety.closing import closing_clocks, end_in_words  # few evenings

    ends = dict.fromkeys(f"the {end_in_words(board, clock)}" for clock in closing_clocks(board))
    until = listed(ends) or "its clocks are out: sign what was kept, then sign out"
    return [Line(f"{person(board.plan, stays)}: {until}", "must", word="Stays behind:")]


def _nobody(board: Board) -> Line:
    unknown = board.people_unknown
    if unknown is None:
        return Line("Nobody is signed in")
    return Line(f"Who is here is not known: {unknown.says}", "danger")


def _guest(plan: Plan, visit: GuestVisit, *, since: bool) -> str:
    told = [f"with {person(plan, visit.host)}"] if visit.host else []
    told += [f"since {visit.since:%H:%M}"] if since else []
    return f"{visit.name} ({', '.join(told)})" if told else visit.name


def waiting_lines(board: Board) -> list[Line]:
    """What waits and for what, a paragraph for each cause; the first few tasks by title."""
    groups = waiting_groups(board)
    if not groups:
        return []
    count = sum(len(group.tasks) for group in groups)
    told = (Line(first_titles(board, g.tasks), "faint", 2, f"{g.words}:") for g in groups)
    return [GAP, title(f"Waiting ({count})"), *told]


def finished_so_far(board: Board) -> str:
    """ "60 of 120 tasks finished"; what is set aside does not count."""
    counted = [standing for standing in board.standings.values() if standing.state != "set aside"]
    done = sum(standing.work_done for standing in board.standings.values())
    return f"{done} of {how_many(len(counted), 'task')} finished"
