"""The work day's rows: what must be looked at, what is under way, what goes first, what waits."""

from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from crewboard.order.ahead.first import First, what_goes_first
from crewboard.order.board import Board, Standing
from crewboard.order.holds.running import StandingHold
from crewboard.order.may.left_short import LeftShort, left_short
from crewboard.order.may.left_short_words import as_sentence
from crewboard.order.may.on_it import on_it, state_word, under_way_now
from crewboard.order.reasons.waiting_on import Cause, cause_in_words, waiting_on
from crewboard.order.reasons.why import stop_in_words
from crewboard.order.safety.checks import checks_of, coming_round
from crewboard.order.said import (
    component_name,
    how_many,
    listed,
    person,
    quoted_title,
    short_names,
    shortly,
    when,
)
from crewboard.order.steam import of_task, out_in_words
from crewboard.plan.hazard import When
from crewboard.telling.by_plan import planned_in_words, planned_shortly
from crewboard.telling.clocks import clock_rows, steam_rows
from crewboard.telling.holds import courses, nobody_works_on
from crewboard.telling.line import Tone
from crewboard.telling.must_follow import must_follow_rows
from crewboard.telling.on_hold import due_together, on_hold_rows, together_title
from crewboard.telling.row import STATE_TONE, Row, heading
from crewboard.telling.series import fold, member_row, series_row, titled
from crewboard.telling.task import needs, then_line
from crewboard.telling.why import some_titles

WAITING_ROW = "fold:waiting"  # the id of the row that opens what waits
_WAITING = 4  # how many waiting tasks are named under one cause before they are counted
_NAMED = 2  # followers named before the rest is counted
_LATER = "later"  # the word of work that nobody may take up now: "ready" would call it free
_IN_FULL = 5  # of the work that goes first, how much is told in full


class Sections(NamedTuple):
    """The rows of a day: what must be looked at, what people are on, what can be taken up in the
    order in which it should be, what is on hold. No row stands in two of them."""

    look: tuple[Row, ...]
    going: tuple[Row, ...]
    first: tuple[Row, ...]
    held: tuple[Row, ...]

    @property
    def rows(self) -> tuple[Row, ...]:
        """All of them."""
        return (*self.look, *self.going, *self.first, *self.held)

    @property
    def work(self) -> Iterator[Row]:
        """All but what is on hold, each section under its heading."""
        yield from _section("Due for a look", "must", self.look)
        yield from _section("Under way today", "strong", self.going)
        yield from _section("What goes first today", "safe", self.first)


def sections(board: Board, *, full: bool = False, opened: Collection[str] = ()) -> Sections:
    """The rows of the board's day; `full` also with what each task needs, below it. Of the series
    among `opened` each piece has a row."""
    first = what_goes_first(board)
    now = set(under_way_now(board))
    going = [*clock_rows(board), *(_going(board, f, full=full) for f in first if f.task in now)]
    rest = [f for f in first if f.task not in now]
    rows = _first_rows(board, rest, full=full, opened=opened)
    return Sections(
        tuple(_to_look_at(board)), tuple(going), tuple(rows), tuple(on_hold_rows(board))
    )


def work_day_rows(board: Board) -> Iterator[Row]:
    """Every row of the day, in its sections, with all that is said of each; what waits left out."""
    of_day = sections(board, full=True)
    yield from of_day.work
    yield from _section("On hold", "caution", of_day.held)


def waiting_rows(
    board: Board, *, folded: bool = False, opened: Collection[str] = ()
) -> Iterator[Row]:
    """One row that opens; below it the waiting and held tasks under what they wait for first."""
    groups = waiting_groups(board)
    count = sum(len(group.tasks) for group in groups)
    if not count:
        return
    causes = how_many(len(groups), "cause")
    named = tuple(f"{group.words}: {first_titles(board, group.tasks)}" for group in groups)
    cells = ("waiting", f"{how_many(count, 'task')}, for {causes}")
    yield Row(WAITING_ROW, cells, "faint", below_in_full=named, body_tone="faint", folded=folded)
    for group in () if folded else groups:
        yield heading(group.head, "faint", group.tail)
        for item in fold(board, group.tasks, section=group.words):
            if isinstance(item, str):
                yield _later(board, item)
                continue
            yield series_row(board, item, opened)
            for task in item.tasks if item.id in opened else ():
                yield member_row(board, board[task])


def first_titles(board: Board, tasks: Sequence[str]) -> str:
    """The first few of what waits for one cause, by title."""
    items = list(fold(board, tasks))
    more = f" and {len(items) - _WAITING} more" if len(items) > _WAITING else ""
    return "; ".join(f'"{titled(board, item)}"' for item in items[:_WAITING]) + more


class WaitingGroup(NamedTuple):
    """Tasks that wait for one cause first: what that is, and how it stands with their count."""

    head: str
    tail: str
    tasks: list[str]

    @property
    def words(self) -> str:
        return self.head + self.tail


def waiting_groups(board: Board) -> list[WaitingGroup]:
    """Each cause in words with the tasks that wait for it first, the most first: dozens of tasks
    often wait for a few."""
    groups = sorted(waiting_on(board).items(), key=lambda group: -len(group[1]))
    return [_waiting_group(board, cause, tasks) for cause, tasks in groups]


def _waiting_group(board: Board, cause: Cause, tasks: list[str]) -> WaitingGroup:
    name, stands = cause_in_words(board, cause.about, cause.id)
    tail = f"{f', {stands}' if stands else ''} ({len(tasks)})"
    return WaitingGroup(f"{_head_of(cause)} {name}", tail, tasks)


def _head_of(cause: Cause) -> str:
    return "On hold:" if cause.about == "file" else "Waiting for"


def _section(name: str, tone: Tone, rows: Sequence[Row]) -> Iterator[Row]:
    if rows:
        yield heading(f"{name} ({len(rows)})", tone)
        yield from rows


def _to_look_at(board: Board) -> list[Row]:
    rows = [_short(words, short.task) for short, words in _left_short(board)]
    rows += [*steam_rows(board), *must_follow_rows(board)]
    rows += [_due(board, holds) for holds in due_together(board)]
    for asked in coming_round(board):
        if asked.due is not None and asked.due <= board.at:
            what = f"{asked.check.short}: {quoted_title(board.plan, asked.task)}"
            row_id = f"check:{asked.task}:{asked.check.id}"
            below = (f"since {when(asked.due, board.at)}: {asked.text}",)
            rows.append(Row(row_id, ("check due", what), "must", below))
    return rows


def _left_short(board: Board) -> list[tuple[LeftShort, str]]:
    return [(short, as_sentence(board, short)) for short in left_short(board)]


def _short(words: str, task: str) -> Row:
    """Work that goes on with too few people, before all else."""
    head, _, rest = words.partition(". ")
    below = (rest,) if rest else ()
    return Row(f"check:{task}:too-few", ("too few", head), "danger", below, handle=task)


def _due(board: Board, holds: Sequence[StandingHold]) -> Row:
    """Holds that wait for a look; of several on pieces of one series the course of each below."""
    first = holds[0]
    alone = (nobody_works_on(board, hold) for hold in holds if hold.leave_alone)
    below = [*courses(board, holds), *alone]
    since = f"since {shortly(first.until, board.at)}" if first.until is not None else ""
    cells = ("due for a look", together_title(board, holds), since)
    handle = ", ".join(hold.id for hold in holds)
    return Row(f"hold:{first.id}", cells, "must", tuple(below), handle=handle)


def _going(board: Board, first: First, *, full: bool) -> Row:
    """Work that people are on today."""
    standing = board[first.task]
    stop = stop_in_words(board, standing)
    so_far = [f"since {when(standing.begun, board.at)}"] if standing.begun else []
    so_far += [*_crew_and_hours(board, standing), _checks(board, first.task, "during")]
    so_far += [f"{one.word}, {out_in_words(board, one)}" for one in of_task(board, first.task)]
    below = [stop, ", ".join(filter(None, so_far)), *(_needs(board, standing) if full else ())]
    tone: Tone = "danger" if stop else "strong"
    row = _task_row(board, standing, standing.task.title, below, tone)
    word, title, _, left = row.cells
    names = ", ".join(short_names(board.plan, on_it(board, first.task) or standing.crew))
    return row._replace(tone=tone, cells=(word, title, names, left))


def _crew_and_hours(board: Board, standing: Standing) -> list[str]:
    crew = listed(person(board.plan, who) for who in standing.crew)
    return [crew, f"{standing.hours:g} h worked" if standing.hours else ""]


def _first_rows(
    board: Board, rest: Sequence[First], *, full: bool, opened: Collection[str]
) -> Iterator[Row]:
    """What can be taken up, numbered but for what nobody may do now; a series as one row."""
    by_task = {first.task: first for first in rest}
    for number, item in enumerate(fold(board, by_task, section="first"), 1):
        if isinstance(item, str):
            yield _next(board, number, by_task[item], full=full)
            continue
        leading = _next(board, number, by_task[item.tasks[0]], full=False)
        row = series_row(board, item, opened)
        word, name, where, left = row.cells
        against = by_task[item.tasks[0]].against
        word = _LATER if against else "begun" if word == "under way" else word
        mark = "" if against else f"{number}. "
        cells = (word, f"{mark}{name}", where, left)
        yield row._replace(
            cells=cells,
            tone="caution" if against else row.tone,
            body_tone="strong",
            below=(*row.below, *leading.below),
            planned=planned_shortly(board, item.tasks),
        )
        for task in item.tasks if item.id in opened else ():
            member = member_row(board, board[task])
            yield member._replace(below=_next(board, 0, by_task[task], full=full).below)


def _next(board: Board, number: int, first: First, *, full: bool) -> Row:
    """Work that can be taken up, with why it comes here and what it frees."""
    standing = board[first.task]
    checks = _checks(board, first.task, "before")
    # Its hold runs while nobody is here, so it is best started before everybody goes home.
    why = f"finish it today: {first.says}" if first.finish_today else first.says
    below = [stop_in_words(board, standing) or first.not_today]
    below += [planned_in_words(board, first.task)]
    frees = _frees(board, first) if number <= _IN_FULL else ""
    below += [why, "; ".join(filter(None, (frees, checks))), _begun(board, standing)]
    below += _needs(board, standing) if full else ()
    if not first.against:
        return _task_row(board, standing, f"{number}. {standing.task.title}", below, "strong")
    row = _task_row(board, standing, standing.task.title, below, "strong")
    return row._replace(tone="caution", cells=(_LATER, *row.cells[1:]))


def _frees(board: Board, first: First) -> str:
    if not first.lets_go:
        return ""
    after = " after its hold" if board.plan.tasks[first.task].hold else ""
    return f"frees {some_titles(board, first.lets_go, _NAMED)}{after}"


def _begun(board: Board, standing: Standing) -> str:
    if standing.begun is None:
        return ""
    stopped = f"stopped {when(standing.stopped, board.at)}" if standing.stopped else ""
    so_far = (f"begun {when(standing.begun, board.at)}", *_crew_and_hours(board, standing), stopped)
    return ", ".join(filter(None, so_far))


def _needs(board: Board, standing: Standing) -> list[str]:
    lines = (*needs(board, standing), then_line(board, standing.task.id))
    return [f"{line.word} {line.text}" for line in lines]


def _task_row(
    board: Board, standing: Standing, title: str, below: list[str], body_tone: Tone
) -> Row:
    task = standing.task
    left = f"{standing.left:g} h" if standing.left else ""
    left = "ask" if standing.ask_left else left
    return Row(
        task.id,
        (
            state_word(board, task.id),
            title,
            component_name(board.plan, task.component),
            left,
        ),
        STATE_TONE[standing.state],
        tuple(filter(None, below)),
        find=task.id,
        body_tone=body_tone,
        handle=task.id,
        tasks=(task.id,),
        planned=planned_shortly(board, (task.id,)),
    )


def _later(board: Board, task_id: str) -> Row:
    standing = board[task_id]
    return _task_row(board, standing, standing.task.title, [], "faint")


def _checks(board: Board, task_id: str, moment: When) -> str:
    """How many checks before it are unsigned; when the next one during it comes round."""
    if not board.plan.tasks[task_id].hazards:
        return ""
    asked = checks_of(board, task_id, when=moment)
    if moment == "before":
        count = sum(check.open for check in asked)
        return f"{how_many(count, 'check')} to sign first" if count else ""
    due = min((check.due for check in asked if check.due is not None), default=None)
    return f"next check {when(due, board.at)}" if due else ""
