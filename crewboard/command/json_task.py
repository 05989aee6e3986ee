"""The forms of `--json` (see `json_form`) for a task, and for all of a series."""

from __future__ import annotations

from crewboard.command.json_board import standing_form, then_form, why_form
from crewboard.command.json_form import Form, form_of
from crewboard.logbook.acts import Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board


def series_form(board: Board, series: str, asked: str) -> Form:
    """The forms of all its pieces' tasks: "task", "why" or "then"."""
    from crewboard.order.reasons.why import why

    def form(task: str) -> Form:
        if asked == "why":
            return why_form(board, why(board, task))
        return then_form(board, task) if asked == "then" else task_form(board, task)

    done, of = board.progress(series)
    tasks = {task: form(task) for task in board.plan.series[series].members.values()}
    return form_of("series", at=board.at, series=series, done=done, of=of, tasks=tasks)


def task_form(board: Board, task_id: str) -> Form:
    from crewboard.order.reckoning.kept import kept_on
    from crewboard.order.safety.checks import checks_of

    standing = board[task_id]
    task = standing.task
    return form_of(
        "task",
        at=board.at,
        task={
            **standing_form(standing),
            "method": task.method,
            "after": task.after,
            "during": task.during,
            "within": task.within,
            "enough": task.enough,
            "uses": task.uses,
            "in_one_go": task.in_one_go,
            "estimate": task.estimate,
            "people": [task.least_people, task.most_people],
            "skills": task.skills,
            "hazards": task.hazards,
            "supplies": task.supplies,
            "place": task.place,
            "pictures": task.pictures,
            "not_before": task.not_before,
            "due": task.due,
            "hold": task.hold,
        },
        checks=[
            {
                "hazard": asked.hazard.id,
                "check": asked.check.id,
                "title": asked.check.short,
                "when": asked.check.when,
                "every": asked.check.every,
                "text": asked.text,
                "who": asked.who or None,
                "answer": asked.answer,
                "signed_by": asked.signed_by or None,
                "written_by": asked.written_by or None,
                "at": asked.at,
                "why": asked.why or None,
                "due": asked.due,
            }
            for asked in checks_of(board, task_id)
        ],
        reckoned=[_reckoned_form(entry) for entry in kept_on(board, task)],
    )


def _reckoned_form(entry: Entry) -> Form:
    act = entry.act
    assert isinstance(act, Reckoned)
    before, task = act.before or None, act.task or None
    kept = {"about": act.about, "answer": act.answer, "given": act.given, "known": act.known}
    where = {"entry": entry.id, "at": entry.at, "by": entry.by or None, "task": task}
    return {**where, **kept, "before": before, "way": act.way or None, "note": act.note}
