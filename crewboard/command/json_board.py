"""The forms of `--json` (see `json_form`) for what the board works out: the day, a task, the holds,
what stands before and after, the day plan and the review."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from crewboard.command.json_form import Form, form_of
from crewboard.command.json_series import jig_forms, series_forms
from crewboard.logbook.acts import (
    HOURS,
    Begun,
    CheckSigned,
    ClosedDay,
    Finished,
    GuestHours,
    HoursWorked,
    Stopped,
)
from crewboard.logbook.day import Day
from crewboard.order.board import Board, Standing
from crewboard.order.holds.running import StandingHold
from crewboard.order.left_alone import LeftAlone, left_alone
from crewboard.order.said import person

if TYPE_CHECKING:
    from crewboard.folder.read.fault import Fault
    from crewboard.order.day_plan.proposal import DayPlan
    from crewboard.order.reasons.why import Reason
    from crewboard.order.review import Question
    from crewboard.order.within import MustFollow


def day_form(board: Board, faults: Sequence[Fault]) -> Form:
    from crewboard.logbook.record.waiting import files_waiting
    from crewboard.order.ahead.first import what_goes_first
    from crewboard.order.may.left_short_words import left_short_in_words
    from crewboard.order.presence import expected_on
    from crewboard.order.safety.checks import closed_by
    from crewboard.order.safety.went_on import place_of_work
    from crewboard.order.steam import in_the_box
    from crewboard.order.within import must_follow

    plan, opening = board.plan, board.opening
    stopping = board.stopping()
    return form_of(
        "day",
        vehicle={"name": plan.vehicle.name, "what": plan.vehicle.what},
        at=board.at,
        unreadable=unreadable_form(board),
        open=opening._asdict() if opening else None,
        openings=[opening._asdict() for opening in board.openings],
        called_off=plan.vehicle.work_days.called_off(board.at.date()),
        next_work_day=plan.vehicle.work_days.next_after(board.at),
        here=[{"who": v.who, "name": person(plan, v.who), "since": v.since} for v in board.present],
        guests=[visit._asdict() for visit in board.guests],
        left_short=left_short_in_words(board),
        must_follow=[_follow_form(follow) for follow in must_follow(board).values()],
        expected=[
            {
                "who": who,
                "name": person(plan, who),
                "coming": answer.coming,
                "note": answer.note,
                "arrives": answer.arrives,
                "leaves": answer.leaves,
            }
            for who, answer in expected_on(board.logbook, board.at.date()).items()
        ],
        first=[
            {
                "task": first.task,
                "says": first.says,
                "delay_hours": first.delay.total_seconds() / 3600,
                "behind": first.behind,
                "lets_go": first.lets_go,
                "finish_today": first.finish_today,
                "not_today": first.not_today,
            }
            for first in what_goes_first(board)
        ],
        tasks=[standing_form(standing) for standing in board.standings.values()],
        series=series_forms(board),
        jigs=jig_forms(board),
        holds=[hold_form(board, hold) for hold in stopping],
        clocks=_clocks(board),
        in_the_box=[one._asdict() | {"due": one.due(board.at)} for one in in_the_box(board)],
        closed_places=[
            {"place": place_of_work(board, task) or None, "task": task, "hazard": sheet.id}
            for task, sheet in closed_by(board)
        ],
        leave_alone=sorted({hold.component for hold in stopping if hold.leave_alone}),
        left_alone=[_left_alone_form(entry) for entry in left_alone(board)],
        readings=_readings(board),
        logged=_logged(board),
        to_sort=len(files_waiting(board.logbook, board.at)),
        mistakes=len(faults),
    )


def _left_alone_form(entry: LeftAlone) -> Form:
    hold = entry.hold.id if entry.hold else None  # without one it is kept for ever
    return entry._asdict() | {"hold": hold, "until": entry.until}


def _follow_form(follow: MustFollow) -> Form:
    return {
        "task": follow.task,
        "after": follow.after,
        "finished": follow.finished,
        "within": follow.span,
        "by": follow.by,
        "too_late": bool(follow.late),
        "again": follow.late,
    }


def unreadable_form(board: Board) -> list[Form]:
    """What cannot be read and may hold work back."""
    return [
        {
            "file": unread.file,
            "kind": unread.kind,
            "about": unread.about or None,
            "day": unread.day,
            "says": unread.says,
            "mend": unread.mend,
            "remembered": unread.remembered,
        }
        for unread in board.unreadable
    ]


def _clocks(board: Board) -> list[Form]:
    from crewboard.order.safety.clocks import still_running

    return [
        {
            "kind": running.clock.kind,
            "hazard": running.hazard.id,
            "clock": running.clock.id,
            "task": running.task,
            "lasts": running.rule.amount,
            "since": running.since,
            "until": running.until,
            "guards": running.clock.guards,
        }
        for running in still_running(board)
    ]


def _readings(board: Board) -> list[Form]:
    today = [reading for reading in board.history.readings if reading[0].date() == board.at.date()]
    return [{"at": at, "celsius": r.celsius, "humidity": r.humidity} for at, r in today]


def _hours(act: HoursWorked | GuestHours) -> Form:
    """Of a guest `who` is empty and `guest` the name."""
    guest = act.name if isinstance(act, GuestHours) else ""
    who = act.who if isinstance(act, HoursWorked) else ""
    on = {"task": act.task, "component": act.component, "piece": act.piece, "other": act.other}
    return {"who": who, "guest": guest, **on, "hours": act.hours, "note": act.note}


def _logged(board: Board) -> Form:
    """What the day's file says up to the board's moment."""
    from crewboard.order.safety.finished_without import mark_of

    day = board.logbook.days.get(board.at.date(), Day(board.at.date()))
    acts = [entry.act for entry in day.counting if entry.at <= board.at]
    marks = [
        mark_of(board.plan, board.logbook, line)
        for line in board.history.never_begun
        if line.at.date() == board.at.date()
    ]
    return {
        "hours": [_hours(a) for a in acts if isinstance(a, HOURS)],
        "begun": [a.task for a in acts if isinstance(a, Begun)],
        "finished": [a.task for a in acts if isinstance(a, Finished)],
        "stopped": [a.task for a in acts if isinstance(a, Stopped)],
        "finished_without": [
            {"entry": mark.entry.id, "task": mark.task, "lacks": mark.lacks} for mark in marks
        ],
        "signed": [
            {
                "hazard": a.hazard,
                "check": a.check,
                "who": a.who,
                "concerns": a.concerns or None,
                "task": a.task,
                "applies": a.applies,
            }
            for a in acts
            if isinstance(a, CheckSigned)
        ],
        "closed": any(isinstance(a, ClosedDay) for a in acts),
    }


def standing_form(standing: Standing) -> Form:
    return {
        "id": standing.task.id,
        "title": standing.task.title,
        "component": standing.task.component,
        "series": standing.task.series or None,
        "pieces": standing.task.pieces,
        "state": standing.state,
        "begun": standing.begun,
        "crew": standing.crew,
        "finished": standing.finished,
        "finished_by": standing.finished_by or None,
        "holds": standing.holds,
        "short_of": standing.short_of,
        "jigs": standing.jigs,
        "until": standing.until,
        "hours": standing.hours,
        "left": standing.left,
        "ask_left": standing.ask_left,
        "set_aside": standing.aside or None,
        "stopped": standing.stopped,
        "open_again": standing.open_again,
        "held_again": standing.held_again,
        "unreadable": standing.unreadable,
    }


def hold_form(board: Board, hold: StandingHold) -> Form:
    released = {"at": hold.released_at, "by": hold.released_by, "why": hold.released_why}
    return {
        "id": hold.id,
        "kind": hold.kind,
        "task": hold.task or None,
        "component": hold.component or None,
        "pieces": hold.pieces,
        "since": hold.since,
        "until": hold.until,
        "not_before": hold.not_before,
        "unread": hold.unread or None,
        "stage": hold.stage,
        "release": hold.release,
        "leave_alone": hold.leave_alone,
        "share": hold.share(board.at),
        "outside": hold.outside is not None,
        "stopped": hold.outside._asdict() if hold.outside else None,
        "asks_for_look": hold.asks,
        "lost_hours": hold.lost.total_seconds() / 3600,
        "extended": [
            {"at": extension.at, "by": extension.by, "until": extension.until, "why": extension.why}
            for extension in hold.extended
        ],
        "released": released if hold.released_at is not None else None,
        "by": hold.by or None,
        "note": hold.note,
        "source": hold.source,
    }


def why_form(board: Board, reasons: Iterable[Reason]) -> Form:
    return form_of("why", at=board.at, reasons=[reason._asdict() for reason in reasons])


def then_form(board: Board, task_id: str) -> Form:
    from crewboard.order.reasons.onward import what_then

    return form_of("then", at=board.at, task=task_id, **what_then(board, task_id)._asdict())


def holds_form(board: Board, holds: Iterable[StandingHold]) -> Form:
    return form_of(
        "holds",
        at=board.at,
        unreadable=unreadable_form(board),
        holds=[hold_form(board, hold) for hold in holds],
        clocks=_clocks(board),
    )


def day_plan_form(day_plan: DayPlan) -> Form:
    keys = day_plan._asdict()
    keys["placed"] = [placed._asdict() for placed in day_plan.placed]
    keys["not_placed"] = [left_out._asdict() for left_out in day_plan.not_placed]
    keys["small"] = [job._asdict() for job in day_plan.small]
    keys["pauses"] = [pause._asdict() for pause in day_plan.pauses]
    keys["changes"] = [
        {
            **change._asdict(),
            "before": change.before._asdict() if change.before is not None else None,
            "now": change.now._asdict() if change.now is not None else None,
        }
        for change in day_plan.changes
    ]
    return form_of("day plan", **keys, gap=day_plan.gap)


def review_form(placed: Iterable[tuple[Question, str, int]]) -> Form:
    return form_of(
        "review",
        questions=[
            {
                "rule": question.rule,
                "source": question.source.source,
                "mark": question.source.mark,
                "about": question.about,
                "id": question.id,
                "file": file,
                "line": line,
                "says": question.says,
                "do": question.do,
            }
            for question, file, line in placed
        ],
    )


def day_end_form(board: Board, next_day: Board | None) -> Form:
    from crewboard.order.day_end import day_end

    end = day_end(board, next_day)
    hours = [{"name": name, "hours": worked} for name, worked in end.hours.items()]
    opens = next_day.at if next_day is not None else None
    return form_of("day end", at=board.at, **{**end._asdict(), "hours": hours}, next=opens)
