"""The same work on several pieces, told as one: its words, and its folding in every list.

A list hands its tasks to `fold`, section by section, and gets each task back but for the members of
a series, which stand as one `FoldedSeries` in the place of the first. Its row is `series_row`;
while its id is among the opened ones, `member_row` gives those of its pieces below it.
"""

from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from crewboard.logbook.state import NOT_YET, STATES, State
from crewboard.order.board import Board, Standing
from crewboard.order.said import component_name, how_many, listed, piece_name, pieces_in_words
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.row import STATE_TONE, Row

# What a series is called after: the first of these states that any of its tasks here is in.
_LOUDEST: tuple[State, ...] = ("under way", "ready", *NOT_YET, "finished")
_MARK = "series:"  # before the ids of their rows


class FoldedSeries(NamedTuple):
    """Tasks of one series that stand in one section of a list, as one item of it."""

    series: str
    tasks: tuple[str, ...]
    section: str = ""

    @property
    def id(self) -> str:
        """The id of its row: that of the series, or one of its own where a list has sections, since
        a series can stand in several of them."""
        return f"{_MARK}{self.section}:{self.series}" if self.section else self.series


def fold(
    board: Board, tasks: Iterable[str], *, section: str = "", least: int = 2
) -> Iterator[str | FoldedSeries]:
    """The tasks of one section in their order; those of a series as one item in the place of the
    first, where there are at least so many."""
    order = list(tasks)
    together: dict[str, list[str]] = {}
    for task in order:
        if series := board.plan.tasks[task].series:
            together.setdefault(series, []).append(task)
    told: set[str] = set()
    for task in order:
        series = board.plan.tasks[task].series
        if not series or len(together[series]) < least:
            yield task
        elif series not in told:
            told.add(series)
            yield FoldedSeries(series, tuple(together[series]), section)


def series_of_row(row_id: str) -> str:
    """The series of a folded row in a section, by the row's id; empty for any other row."""
    _, mark, rest = row_id.partition(_MARK)
    return rest.partition(":")[2] if mark else ""


# --- in words ------------------------------------------------------------------------------------


def series_title(board: Board, series: str) -> str:
    """What is done to each of its pieces."""
    return board.plan.series[series].task.title


def so_far(board: Board, series: str) -> str:
    """ "4 of 6": how many of all its pieces are finished."""
    done, of = board.progress(series)
    return f"{done} of {of}"


def pieces_of(board: Board, tasks: Iterable[str]) -> str:
    """ "Panes 2, 3 and 5": the pieces that these tasks are done to."""
    return pieces_in_words(
        board.plan, (piece for task in tasks for piece in board.plan.tasks[task].pieces)
    )


def titled(board: Board, item: str | FoldedSeries) -> str:
    """A task by its title; a series with its pieces: "Glaze the sashes: Panes 2, 3 and 5"."""
    if isinstance(item, str):
        return board.plan.tasks[item].title
    return f"{series_title(board, item.series)}: {pieces_of(board, item.tasks)}"


def hours_left(board: Board, tasks: Iterable[str]) -> float:
    """The likely person-hours still to do on these tasks, as far as they are known."""
    standings = (board[task] for task in tasks)
    to_do = (s for s in standings if not s.work_done and s.state != "set aside")
    return sum(standing.left or 0.0 for standing in to_do)


def state_of(board: Board, tasks: Iterable[str]) -> State:
    """The liveliest of their states; "finished" where all are that were not set aside."""
    states = {board[task].state for task in tasks}
    return next((state for state in _LOUDEST if state in states), "set aside")


def none_is(board: Board, series: str, states: Iterable[str]) -> str:
    """ "no piece of "Glaze the sashes" is under way or ready"."""
    words = ("short of supplies" if state == "needs supplies" else state for state in states)
    return f'no piece of "{series_title(board, series)}" is {" or ".join(dict.fromkeys(words))}'


def to_take_up(board: Board, tasks: Iterable[str]) -> tuple[str, ...]:
    """Those of them that can be worked on now; where none can, those still to do; else all."""
    some = tuple(tasks)
    for states in (("ready", "under way"), NOT_YET):
        wanted = tuple(task for task in some if board[task].state in states)
        if wanted := tuple(task for task in wanted if not board[task].work_done):
            return wanted
    return some


def states_in_words(board: Board, tasks: Iterable[str]) -> str:
    """ "Panes 1 and 2 under way, pane 3 waiting", in the order of the states."""
    return ", ".join(f"{pieces_of(board, group)} {word}" for word, group in _by_word(board, tasks))


def _by_word(board: Board, tasks: Iterable[str]) -> list[tuple[str, list[str]]]:
    groups: dict[str, list[str]] = {}
    standings = sorted((board[task] for task in tasks), key=lambda s: STATES.index(s.state))
    for standing in standings:
        groups.setdefault(standing.state, []).append(standing.task.id)
    return list(groups.items())


# --- as rows -------------------------------------------------------------------------------------


def series_row(board: Board, item: FoldedSeries, opened: Collection[str] = ()) -> Row:
    """Its row: the state, "Glaze the sashes  4 of 6", where it is, the hours left of those here;
    below it which pieces they are."""
    state = state_of(board, item.tasks)
    task = board.plan.series[item.series].task
    left = hours_left(board, item.tasks)
    return Row(
        item.id,
        (
            state,
            f"{task.title}  {so_far(board, item.series)}",
            component_name(board.plan, task.component),
            f"{left:g} h" if left else "",
        ),
        STATE_TONE[state],
        (states_in_words(board, item.tasks),),
        find=" ".join([item.series, *(board.plan.tasks[member].title for member in item.tasks)]),
        handle=item.series,
        tasks=item.tasks,
        folded=item.id not in opened,
    )


def member_name(board: Board, task_id: str) -> str:
    """A task of a series by its piece alone, for a row below that of the series."""
    return listed(piece_name(board.plan, piece) for piece in board.plan.tasks[task_id].pieces)


def member_row(board: Board, standing: Standing, depth: int = 1) -> Row:
    """The row of one piece, below that of its series."""
    left = f"{standing.left:g} h" if standing.left and not standing.work_done else ""
    return Row(
        standing.task.id,
        (standing.state, member_name(board, standing.task.id), "", left),
        STATE_TONE[standing.state],
        (standing.aside,) if standing.state == "set aside" and standing.aside else (),
        find=standing.task.title,
        handle=standing.task.id,
        depth=depth,
        tasks=(standing.task.id,),
    )


# --- beside its row ------------------------------------------------------------------------------


def series_lines(board: Board, series: str) -> list[Line]:
    """What there is to read of a series: how far it is, how its pieces stand, how it is done."""
    written = board.plan.series[series]
    done, of = board.progress(series)
    tasks = list(written.members.values())
    left = hours_left(board, tasks)
    worked = sum(board[task].hours for task in tasks)
    facts = [f"{done} of {how_many(of, 'piece')} finished"]
    facts += [f"{worked:g} h worked"] if worked else []
    facts += [f"about {left:g} h left"] if left else []
    lines = [title(written.task.title), Line(", ".join(facts))]
    lines += [_state_line(board, word, group) for word, group in _by_word(board, tasks)]
    if written.task.method.strip():
        lines += [GAP, Line(written.task.method.strip())]
    return lines


def _state_line(board: Board, word: str, group: list[str]) -> Line:
    tone: Tone = STATE_TONE[board[group[0]].state]
    why = dict.fromkeys(board[task].aside for task in group)
    reason = f" ({'; '.join(filter(None, why))})" if any(why) else ""
    return Line(f"{pieces_of(board, group)}{reason}", tone, 0, f"{word}:")
