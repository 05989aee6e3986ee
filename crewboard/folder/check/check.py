"""Every mistake in a folder, and what is worth a question, each with its place.

What reading found comes first; then what only the whole shows: names in the logbook, corrections,
pictures, hours that do not fit the day, work finished before what comes before it. It ends for
any folder whatsoever, and it never writes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from crewboard.folder.check.came import came_in_the_future
from crewboard.folder.check.dangers import (
    clashing_dangers,
    dangers_not_used,
    finished_never_begun,
    law_of_nowhere,
    long_cards,
)
from crewboard.folder.check.elsewhere import hours_elsewhere
from crewboard.folder.check.files import (
    copies_aside,
    copies_of_the_plan,
    lost_links,
    odd_files,
    odd_rows,
    pictures,
)
from crewboard.folder.check.guests import claimed_twice, guests_who_never_came
from crewboard.folder.check.lengths import no_lengths
from crewboard.folder.check.logbook import (
    corrected_and_taken_back,
    lines_that_clash,
    names_of_nothing,
    twice_named,
)
from crewboard.folder.check.out_of_time import out_of_time
from crewboard.folder.check.people import ages, papers_to_see
from crewboard.folder.check.record import contradicted_lines, doubted_lines, entries_of_nothing
from crewboard.folder.check.series import keys_without_sense
from crewboard.folder.check.taken_in import changed_files
from crewboard.folder.check.work import (
    days_left_open,
    hours_in_question,
    out_of_order,
    over_reopened_work,
    too_many_hours,
)
from crewboard.folder.read.fault import Fault, KeyPath, Remark, causes_first, nearest
from crewboard.folder.read.files import COMPONENTS, SUPPLIES, VEHICLE, file_of, key_path
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.missing import missing_components
from crewboard.folder.read.placing import Placing
from crewboard.order.board import Board
from crewboard.order.review import Question
from crewboard.order.said import day_in_words, listed


class Checked(NamedTuple):
    """`mistakes` have to be mended; `questions` may be right as they are."""

    files: int
    mistakes: tuple[Fault, ...]
    questions: tuple[Fault, ...]


def check(
    folder: Folder, at: datetime | None = None, now: datetime | None = None, *, every: bool = False
) -> Checked:
    """Look the whole folder over. With `at`, also how things stand then: what was done over work
    that is open again, and certificates that lapse soon. With `now`, what the shop's clock shows,
    also what was logged for a time that is still to come. With `every`, what only follows from a
    file that cannot be read is told one by one, instead of being counted there."""
    placing = Placing(folder.data)
    mistakes = [
        *folder.every_fault,
        *map(placing.fault, _mistakes(folder)),
        *odd_rows(folder),
    ]
    questions = list(map(placing.fault, _questions(folder, at, now)))
    not_read = folder.not_read
    told = {*folder.paths("component"), *not_read}
    missing = missing_components(told, (*mistakes, *questions))
    mistakes += missing
    unread = () if every else {*not_read, *(fault.file for fault in missing)}
    return Checked(folder.count, *_causes_first(mistakes, questions, unread))


def _causes_first(
    mistakes: Iterable[Fault], questions: Iterable[Fault], unread: Collection[str]
) -> tuple[tuple[Fault, ...], tuple[Fault, ...]]:
    """Mistakes and questions without what only follows from a file that cannot be read."""
    asked = set(questions)
    told = causes_first(asked.union(mistakes), unread)
    return tuple(f for f in told if f not in asked), tuple(f for f in told if f in asked)


def _mistakes(folder: Folder) -> Iterator[Remark]:
    yield from lost_links(folder)
    yield from copies_of_the_plan(folder)
    yield from pictures(folder)
    yield from changed_files(folder)
    yield from names_of_nothing(folder)
    yield from no_lengths(folder)
    yield from twice_named(folder)
    yield from lines_that_clash(folder)
    yield from contradicted_lines(folder)
    yield from entries_of_nothing(folder)
    yield from too_many_hours(folder)
    yield from clashing_dangers(folder)
    yield from dangers_not_used(folder)
    yield from keys_without_sense(folder)
    yield from claimed_twice(folder)
    yield from guests_who_never_came(folder)


def _questions(folder: Folder, at: datetime | None, now: datetime | None) -> Iterator[Remark]:
    yield from odd_files(folder)
    yield from copies_aside(folder)
    yield from _work_days(folder)
    yield from _rooms(folder)
    yield from law_of_nowhere(folder)
    yield from long_cards(folder)
    yield from corrected_and_taken_back(folder)
    yield from doubted_lines(folder)
    yield from hours_in_question(folder)
    yield from hours_elsewhere(folder)
    yield from out_of_order(folder)
    yield from out_of_time(folder, now)
    if now is not None:
        yield from came_in_the_future(folder, now.date())
    yield from finished_never_begun(folder)
    if at is not None:
        from crewboard.order.assess import assess

        yield from days_left_open(folder, at.date())
        board = assess(folder.plan, folder.logbook, at)
        yield from over_reopened_work(board)
        yield from _lapses(board)
        yield from _unnamed_hazards(board)
        yield from papers_to_see(board)
        yield from ages(board)


def _work_days(folder: Folder) -> Iterator[Remark]:
    """A day of `also` that is in `closed` too, or that the rule makes a work day anyway."""
    days = folder.plan.vehicle.work_days
    for number, (day, opening) in enumerate(days.also):
        path = ("work_days", "also", number)
        name = day_in_words(day)
        if days.called_off(day) is not None:
            sentence = f"{name} is added and left out: it is closed"
            hint = "remove it from one of the two"
            yield Remark(VEHICLE, path, "work-day", sentence, hint)
        elif days.is_regular(day):
            open_then = listed(map(str, days.openings_on(day)))
            sentence = f"{name} is a work day anyway: with what is added it is open {open_then}"
            hint = "remove it" if opening is None else "change its times if that is not meant"
            yield Remark(VEHICLE, path, "work-day", sentence, hint)


def _rooms(folder: Folder) -> Iterator[Remark]:
    """Room in a place in which nothing is done: its name is mistyped, or the tasks' is."""
    shop = folder.plan.vehicle.shop
    if not shop.room:
        return
    places = {*shop.places, *(task.place for task in folder.plan.tasks.values())} - {""}
    for name in shop.room:
        if name not in places:
            sentence = f'no task is done in the place "{name}"'
            path = ("shop", "room", name)
            hint = nearest(name, places) or "write the place into the tasks that are done there"
            yield Remark(VEHICLE, path, "unknown-place", sentence, hint, rests_on=(COMPONENTS,))


def _lapses(board: Board) -> Iterator[Remark]:
    """Certificates that will not be good when the work needs them."""
    from crewboard.folder.read.files import CREW, DAYS
    from crewboard.order.safety.certificates import lapses

    for lapse in lapses(board):
        path = ("people", lapse.who, "certificates", lapse.kind) if lapse.who else ("people",)
        yield Remark(CREW, path, "lapse", lapse.says, rests_on=(CREW, VEHICLE, DAYS))


def questions_placed(
    folder: Folder, questions: Iterable[Question]
) -> list[tuple[Question, str, int]]:
    """A review's questions, each with the file and line that it is about."""
    asked = [(question, *_file_and_key(question, folder)) for question in questions]
    by_file: dict[str, list[int]] = {}
    for number, (_, file, _) in enumerate(asked):
        by_file.setdefault(file, []).append(number)
    lines = [1] * len(asked)
    for file, numbers in by_file.items():
        placing = Placing(folder.data)  # of one file at a time: places take far more than the text
        for number in numbers:
            lines[number] = placing.place(file, asked[number][2]).line
    return [(question, file, line) for (question, file, _), line in zip(asked, lines, strict=True)]


def _file_and_key(question: Question, folder: Folder) -> tuple[str, KeyPath]:
    """The table itself where the key is not written there."""
    if question.about == "vehicle":
        return VEHICLE, (question.key, question.id) if question.id else ()
    if question.about == "supply":
        return SUPPLIES, ("supplies", question.id)
    path = key_path(question.id, folder.plan.components)
    return file_of(question.id), (*path, question.key) if question.key else path


def _unnamed_hazards(board: Board) -> Iterator[Remark]:
    """Words of a task that point to a hazard which it does not name."""
    from crewboard.order.safety.unnamed import ANSWER, Unnamed, question_in_words, unanswered

    asked: dict[tuple[str, str], Unnamed] = {}  # of the same work on several pieces once
    for question in unanswered(board):
        name = board.plan.tasks[question.task].series or question.task
        asked.setdefault((name, question.word), question._replace(task=name))
    for (name, _), question in asked.items():
        path = (*key_path(name, board.plan.components), "title")
        sentence = question_in_words(board.plan, question)
        yield Remark(file_of(name), path, "unnamed-hazard", sentence, ANSWER)
