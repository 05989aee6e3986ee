"""`crewboard take-in` and `crewboard waiting`: pictures and recordings, and what is not sorted."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, BY, DIR, JSON, moment, open_bench, written_by
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.wall_clock import shop_now

if TYPE_CHECKING:
    from crewboard.folder.intake.looked_through import PassedOver
    from crewboard.logbook.record.seen import TookIn
    from crewboard.workbench import Workbench
    from crewboard.workbench.taking_in import TakenIn

MOST_TOLD = 5
"""Files passed over for one reason that are told one by one."""


def _take_in(call: Call) -> Exit:
    from crewboard.workbench.taking_in import take_in as taken_in

    bench = open_bench(call)
    taken = taken_in(
        bench,
        call.each("FROM"),
        by=written_by(call, bench.plan),
        at=moment(call, bench.plan),
        now=shop_now(bench.plan),
        large=call.given("large"),
    )
    return _tell(call, bench, taken)


def _tell(call: Call, bench: Workbench, taken: TakenIn) -> Exit:
    """What was taken in, then a sentence for each file that was not."""
    outcome = taken.outcome
    if call.given("json"):
        from crewboard.command.json_intake import taken_in_form

        form = taken_in_form(taken)
        if outcome.entries:
            call.out.keeps([], also=form)
        else:
            call.out.json(form)
    elif outcome.entries:
        call.out.keeps(_in_lines(bench, taken))
    for sentence in _sentences(taken.passed_over):
        call.out.talk(sentence)
    for remark in (*map(str, outcome.refused), *outcome.remarks):
        call.out.talk(remark)
    _say_how_many(call, taken)
    return _exit(taken)


def _in_lines(bench: Workbench, taken: TakenIn) -> Iterable[str]:
    from crewboard.telling.entry_words import EntryWords

    words = EntryWords(bench.plan, bench.logbook)
    return [f"{words.of(entry)}  [{entry.id}]" for entry in taken.outcome.entries]


def _sentences(passed_over: Iterable[PassedOver]) -> Iterable[str]:
    """One for each file; where many are passed over for one reason one for all of them, so that
    nothing else is lost among them."""
    by_reason: dict[str, list[PassedOver]] = {}
    for passed in passed_over:
        reason = "they were taken in before" if passed.here else passed.why
        by_reason.setdefault(reason, []).append(passed)
    for reason, of_it in by_reason.items():
        if len(of_it) > MOST_TOLD:
            yield f"{of_it[0].path} and {len(of_it) - 1} more are not taken in: {reason}"
        else:
            yield from map(_sentence, of_it)


def _sentence(passed: PassedOver) -> str:
    ask = " (--large)" if passed.large else ""
    return f"{passed.path} is not taken in: {passed.why}{ask}"


def _say_how_many(call: Call, taken: TakenIn) -> None:
    count = len(taken.outcome.entries)
    if count:
        from crewboard.order.said import how_many

        folder = call.word("DIR")
        call.out.talk(f"{how_many(count, 'file')} taken in; to sort: crewboard waiting {folder}")
    elif taken.outcome.kept and not taken.passed_over:
        call.out.talk("There is nothing to take in there.")


def _exit(taken: TakenIn) -> Exit:
    """Trouble with the disk is told even where the other files were taken in; otherwise a call is
    fine that took something in, or found all of it here already."""
    disk = any(refusal.code == "disk" for refusal in taken.outcome.refused)
    if disk or any(passed.disk for passed in taken.passed_over):
        return Exit.DISK
    if not taken.outcome.kept:
        return Exit.REFUSED
    fine = taken.outcome.entries or all(passed.here for passed in taken.passed_over)
    return Exit.FINE if fine else Exit.REFUSED


def _waiting(call: Call) -> Exit:
    from crewboard.logbook.record.waiting import files_waiting
    from crewboard.telling.files_waiting import how_many_wait, taken_in_words

    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    waiting = files_waiting(board.logbook, board.at)
    if call.given("json"):
        from crewboard.command.json_intake import waiting_form

        call.out.json(waiting_form(board, waiting))
        return Exit.FINE
    for one in waiting:
        call.out.line(f"{one.act.file}  {taken_in_words(board, one.act)}{_renamed(one.act)}")
    if waiting:
        call.out.talk(
            f'{how_many_wait(waiting)}: crewboard caption DIR FILE --piece PIECE --words "..."'
        )
    else:
        call.out.talk("Nothing waits to be sorted.")
    return Exit.FINE


def _renamed(act: TookIn) -> str:
    """The name before, where the folder could not hold it as it was."""
    from crewboard.folder.intake.safe_name import told_apart

    name = act.file.rpartition("/")[2]
    changed = act.called and name not in (act.called, told_apart(act.called, act.hash))
    return f"  (was {act.called})" if changed else ""


take_in = Command(
    _take_in,
    "Takes in the pictures, sound and films of a phone or camera: copies them into the folder, "
    "under pictures/YEAR and recordings/YEAR, in the order in which they were taken, and lists "
    "them as not sorted yet. The files stay where they are, and nothing in them is changed. What "
    "was taken in before is passed over.",
    (DIR, Word("FROM", "files, or folders with files", many=True)),
    (Option("large", "files of 500 MB and more too"), BY, AT, JSON),
    (
        "crewboard take-in . from-the-phone",
        "crewboard take-in . from-the-phone --large --by mirela",
    ),
)
waiting = Command(
    _waiting,
    "Lists the pictures and recordings that were taken in and of which nobody has said yet what "
    "they show, in the order in which they were taken. `crewboard caption` says it.",
    (DIR,),
    (AT, JSON),
    ("crewboard waiting .",),
)
