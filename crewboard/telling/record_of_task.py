"""What the record says of a task: sizes decided on, the finding it came from, what was found."""

from collections.abc import Iterable, Iterator, Mapping

from crewboard.logbook.acts import Found, SizeDecided
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.reckoning.decided import superseded, superseded_in_words
from crewboard.order.reckoning.kept import kept_on
from crewboard.order.said import day_in_words, person, quoted_name
from crewboard.plan.task import Task
from crewboard.telling.line import GAP, Line, title

_LATEST = 5  # findings shown on a sheet: the others stand on the page of findings


def record_of_task(board: Board, task: Task) -> list[Line]:
    """The chapters of a task's sheet, none where the record says nothing of it."""
    entries = [entry for entry in board.logbook.record() if entry.at <= board.at]
    sizes = [e for e in entries if isinstance(e.act, SizeDecided) and _meant(task, e.act.tasks)]
    later = superseded(entries) if sizes else {}
    found = [entry for entry in entries if isinstance(entry.act, Found)]
    source = next((entry for entry in found if task.finding and entry.id == task.finding), None)
    here = [entry for entry in found if entry is not source and _is_of(task, entry)]
    more = len(here) - _LATEST
    return [
        *_chapter("Sizes decided on", (_size(board, entry, later) for entry in sizes)),
        *_chapter("Reckoned", _answers(board, task)),
        *_chapter("It came from the finding", (_finding(board, e) for e in (source,) if e)),
        *_chapter("Found on it", (_finding(board, entry) for entry in here[-_LATEST:])),
        *([Line(f"and {more} more before", "faint", 2)] if more > 0 else []),
    ]


def _chapter(heading: str, lines: Iterable[Line]) -> Iterator[Line]:
    inside = list(lines)
    if inside:
        yield from (GAP, title(heading), *inside)


def _meant(task: Task, tasks: tuple[str, ...]) -> bool:
    return task.id in tasks or bool(task.series and task.series in tasks)


def _is_of(task: Task, entry: Entry) -> bool:
    """Whether a finding is on what the task is done to: its pieces, else its whole component."""
    act = entry.act
    assert isinstance(act, Found)
    if task.pieces:
        return act.piece in task.pieces
    return bool(act.component) and act.component == task.component


def _size(board: Board, entry: Entry, later: Mapping[str, Entry]) -> Line:
    act = entry.act
    assert isinstance(act, SizeDecided)
    why = f" ({act.why})" if act.why else ""
    says = f"{act.value}{why}, {_by(board, entry)}"
    if entry.id in later:
        says, tone = f"{says}; {superseded_in_words(later[entry.id])}", "faint"
    else:
        tone = "plain"
    return Line(says, tone, 2, f"{act.what}:")


def _answers(board: Board, task: Task) -> Iterator[Line]:
    """The latest answers; one that was reckoned anew stands beside what it was before. Behind them
    the forms of bends still to be made that are others by now."""
    reckoned = kept_on(board, task)
    if reckoned:
        from crewboard.order.reckoning.released import forms_for  # most sheets have none
        from crewboard.telling.reckoning import form_by_now, kept_line

        yield from (kept_line(board, entry) for entry in reckoned[-_LATEST:])
        learned = (form for form in forms_for(board, task.series or task.id) if form.because)
        yield from (Line(form_by_now(board, form), "must", 2) for form in learned)


def _finding(board: Board, entry: Entry) -> Line:
    act = entry.act
    assert isinstance(act, Found)
    on = act.piece or act.component
    where = f"on {quoted_name(board.plan, on)}, " if on else ""
    thought = f"; thought: {act.thought}" if act.thought else ""
    return Line(f"{where}{_by(board, entry)}: {act.seen}{thought}", "plain", 2)


def _by(board: Board, entry: Entry) -> str:
    by = f", {person(board.plan, entry.by)}" if entry.by else ""
    return f"{day_in_words(entry.at.date())}{by}"
