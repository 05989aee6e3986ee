"""The figures behind the dates in plain words: hours, pace, people, growth, where the time goes."""

from datetime import timedelta

from crewboard.order.board import Board
from crewboard.order.forecast.figures import Figures, Range
from crewboard.order.forecast.finish import Forecast, Growth
from crewboard.order.forecast.waits import Spent, Wait
from crewboard.order.said import how_long, how_many, listed, person, quoted_title
from crewboard.plan.hold import KINDS
from crewboard.telling.forecast import growth_in_words, rough_in_words
from crewboard.telling.line import GAP, Line, title

TITLE = "The figures behind the dates"
_SEASONS = ("winter", "spring", "summer", "autumn")
_SPENT: dict[Spent, str] = {
    "work": "work under way, with the days and nights between work days",
    "found": "work that turns up",
    "people": "ready, till people, a place or a jig are free",
    "hold": "holds: it sets, dries, is looked at or decided",
    "delivery": "deliveries",
    "date": "a fixed date",
}


def figure_lines(board: Board, forecast: Forecast, figures: Figures | None) -> list[Line]:
    """All of it; without `figures`, where too little is known for them, what there is."""
    lines = [title(TITLE)]
    if forecast.rough is not None:
        lines.append(Line(rough_in_words(forecast.rough), indent=2))
    elif figures is None:
        lines.append(Line(f"{forecast.too_little}.", indent=2))
    if figures is not None:
        lines += [
            *_work(figures),
            *_people(board, figures),
            *_turns_up(forecast.growth),
            *_delays(figures),
            GAP,
            *_time(figures),
            *_longest(board, figures),
        ]
    if forecast.supposed:
        lines += [GAP, title("What the dates suppose")]
    return [*lines, *(Line(each.says, "caution", 2, "-") for each in forecast.supposed)]


def _work(figures: Figures) -> list[Line]:
    pace, share, left = figures.pace, figures.share, figures.left
    tasks = how_many(figures.paced, "finished task")
    return [
        Line(
            f"{left.middle:,.0f} h by the estimates; {left.low:,.0f} h if all is quick, "
            f"{left.high:,.0f} h if nothing is.",
            *("strong", 2, "work left:"),
        ),
        Line(
            f"a task takes {_times(pace)}; from {tasks} with hours.",
            *("strong", 2, "pace:"),
        ),
        Line(
            f"{share.middle * 100:.0f} % of the time in the shop goes into tasks (80 %: "
            f"{share.low * 100:.0f} to {share.high * 100:.0f}); the rest is other work, tea, talk, "
            "clearing up, and hours nobody wrote down.",
            *("strong", 2, "share:"),
        ),
    ]


def _people(board: Board, figures: Figures) -> list[Line]:
    if not figures.held:
        return [Line("nobody has signed in yet, so who comes is a guess.", "strong", 2, "people:")]
    came = (f"{person(board.plan, each.who)} {each.days} of {each.of}" for each in figures.came)
    marked = [
        f"{name} {factor:.1f} times as many"
        for name, factor in zip(_SEASONS, figures.seasons, strict=True)
        if abs(factor - 1) >= 0.05
    ]
    seasons = listed(marked) if marked else "no season stands out"
    dropped = f"; on {how_many(figures.dropped, 'planned day')} nobody did" * bool(figures.dropped)
    return [
        Line(
            f"{figures.people:.1f} came on each of {how_many(figures.held, 'work day')} in the "
            f"past year{dropped}; {seasons}.",
            *("strong", 2, "people:"),
        ),
        Line(f"{'; '.join(came)}.", "faint", 4),
        Line(
            f"about {figures.in_a_month:,.0f} h of tasks in a month, with {figures.days} work days "
            f"of {figures.day:g} h in the coming year.",
            *("strong", 2, "so much gets done:"),
        ),
    ]


def _turns_up(growth: Growth | None) -> list[Line]:
    if growth is None:
        return []
    usual = (
        f" For every 10 h that are done, {growth.rate * 10:.1f} h turn up (80 %: "
        f"{growth.low * 10:.1f} to {growth.high * 10:.1f})."
    )
    unsaid = growth.tasks_without_date
    without = f" Of {how_many(unsaid, 'task')} nothing says when they came." if unsaid else ""
    return [Line(growth_in_words(growth) + usual + without, "strong", 2, "growth:")]


def _delays(figures: Figures) -> list[Line]:
    came = how_many(figures.delivered, "delivery", "deliveries")
    late = f"{figures.came_late} of {came} came late; " if figures.delivered else ""
    return [
        Line(
            f"{late}they are taken to need {figures.late:.2f} times as long as promised. Of ten "
            f"holds {figures.longer * 10:.1f} are made longer.",
            *("strong", 2, "deliveries:"),
        )
    ]


def _time(figures: Figures) -> list[Line]:
    """Where the time goes on the way to the end."""
    waited = figures.waited
    whole = how_long(timedelta(days=waited.days))
    lines = [
        title(f"Where the {whole} to the end go, on average"),
        Line(
            f"{how_many(round(waited.tasks), 'task')} come one after the other, with work on "
            f"{how_many(round(waited.work_days), 'work day')}.",
            indent=2,
        ),
    ]
    spent = sorted(waited.spent.items(), key=lambda each: -each[1])
    lines += [
        Line(_SPENT[what], "strong", 2, f"{how_long(timedelta(days=days))}:")
        for what, days in spent
        if days >= 2
    ]
    return lines


def _longest(board: Board, figures: Figures) -> list[Line]:
    longest = [wait for wait in figures.waited.longest if wait.days >= 2]
    if not longest:
        return []
    lines = [GAP, title("The longest waits on the way, on average")]
    for wait in longest:
        span = how_long(timedelta(days=wait.days))
        lines.append(Line(_wait(board, wait), "strong", 2, f"{span}:"))
    return lines


def _wait(board: Board, wait: Wait) -> str:
    name = quoted_title(board.plan, wait.task)
    if wait.spent == "hold":
        hold = board.plan.tasks[wait.task].hold
        return (
            f"{KINDS[hold.kind].noun} after {name}" if hold else f"until work goes on after {name}"
        )
    if wait.spent == "delivery":
        short = board[wait.task].short_of
        names = "; ".join(board.plan.supplies[each].name for each in short)
        return f"{names}, for {name}" if names else f"a delivery for {name}"
    if wait.spent == "people":
        task, jigs = board.plan.tasks[wait.task], board.plan.vehicle.jigs
        free = ["people", *([f"room in the {task.place}"] if task.place else [])]
        free += [jigs[jig].name for jig in task.uses if jig in jigs]
        asks = f" (it asks for {listed(task.skills)})" if task.skills else ""
        return f"{' or '.join(free)} for {name}{asks}"
    return f"the date before which {name} cannot begin"


def _times(of: Range) -> str:
    return f"{of.middle:.2f} times its estimate (80 %: {of.low:.2f} to {of.high:.2f})"
