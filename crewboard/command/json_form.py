"""What `--json` prints: one object, in a form that stays the same from version to version.

Every object has `"form": 1` and `"what"`, which names its kind. Within form 1 keys may be added,
none is taken away or changes its meaning. Moments are the shop's wall clock, such as
"2026-05-02T09:00:00", days "2026-05-02", hours are person-hours, shares go from 0 to 1; what is
not known is null.

- `day`: vehicle {name, what}, at, open {opens, closes} or
  null (the opening that runs or comes next), openings [{opens, closes}], called_off (the reason,
  null where the day was not called off), next_work_day, here [{who, name,
  since}], expected [{who, name, coming, note}], first [{task, says, delay_hours, behind, lets_go,
  finish_today, not_today (why nobody here may do it, or "")}], tasks [TASK], holds [HOLD],
  leave_alone [component ids], readings [{at, celsius, humidity}], logged {hours [{who, task,
  hours, note}], begun, finished [task ids], signed [{hazard, check, who, task, applies}], closed},
  mistakes (a number).
- TASK: id, title, component, state ("ready", "waiting", "held", "under way", "finished",
  "set aside"), begun, crew, finished, finished_by, holds [ids], short_of [supplies], until, hours,
  left, ask_left (more was worked than was said: `left` is what overruns suggest), set_aside (the
  reason).
- HOLD: id, kind, task, component, since, until, stage ("running", "due", "over"), release ("time",
  "look"), leave_alone, share, outside (the shop is outside its conditions), lost_hours, extended
  [{at, by, until, why}], released {at, by, why} or null, by, note, source.
- `why`: at, reasons [{depth, about, id, says, entry, root}].
- `then`: at, task, now, after_hold, closer [task ids], behind (a number).
- `task`: at, task TASK with method, after, during, estimate [low, likely, high], people [least,
  most], skills, hazards, supplies, place, pictures, not_before, due, hold {kind, lasts (such as
  "36 hours", null without an end of its own), release ("time", "look"), leave_alone, conditions
  {at_least_c, at_most_c, at_least_humidity, at_most_humidity}, note, source} or null; checks
  [CHECK].
- CHECK: hazard, check, when, every, text, who, answer ("signed", "does not apply", "unsigned"),
  signed_by, at, why, due.
- `holds`: at, holds [HOLD]. `vehicle`: at, components [{id, name, part_of, after, done, of}], with
  `--tasks` also tasks [TASK].
- `crew`: at, people [{id, name, here_since, lead, under_18, skills, certificates [{kind, until}],
  hours {month, year, in_all}}].
- `log`: entries [ENTRY]. ENTRY: id, day, at, by, kind, the kind's own fields as in the day's file,
  written, replaces, despite (why it was written although it was doubted), counts (true or false),
  fate (the id of the line that replaced it or took it back, or null).
- `hazards`: sheets [{id, name, harm, checks, numbers [{id, amount, says, source, where, edition,
  read, mark}]}].
- `check`: files (how many were read), mistakes and questions [{file, line, column, code, sentence,
  hint}].
- `plan-keys`: files [{file, keys [{key, value (as TOML), says}]}].
- The forms of `forecast`, `plan-day` and `review` stand in `json_order`.
- `kept`: entries [ENTRY], files. `refused`: refused [{code, says, mend, yields,
  steps}], steps [texts] where it goes round in a ring; `yields` true
  means that a named person's recorded reason ("--despite") overrules it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, datetime, time
from typing import TYPE_CHECKING, Any

from crewboard.logbook.acts import Begun, CheckSigned, ClosedDay, Finished, HoursWorked
from crewboard.logbook.day import Day
from crewboard.order.board import Board, Standing
from crewboard.order.holds.running import StandingHold
from crewboard.order.said import person
from crewboard.plan.duration import Duration
from crewboard.plan.task import Estimate

if TYPE_CHECKING:
    from crewboard.folder.read.fault import Fault
    from crewboard.order.reasons.why import Reason

FORM = 1
Form = dict[str, Any]


def form_of(what: str, **keys: Any) -> Form:
    return {"form": FORM, "what": what, **{key: plain(value) for key, value in keys.items()}}


def plain(value: Any) -> Any:
    """The value as JSON can hold it; what is empty text in the plan is null where it is a name."""
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Duration):
        return str(value)
    if hasattr(value, "_asdict") and not isinstance(value, Estimate):
        return plain(value._asdict())
    if isinstance(value, dict):
        return {str(key): plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [plain(each) for each in value]
    if value is None or isinstance(value, str | bool | int | float):
        return value
    return str(value)


def day_form(board: Board, faults: Sequence[Fault]) -> Form:
    from crewboard.order.ahead.first import what_goes_first
    from crewboard.order.presence import expected_on

    plan, opening = board.plan, board.opening
    stopping = board.stopping()
    return form_of(
        "day",
        vehicle={"name": plan.vehicle.name, "what": plan.vehicle.what},
        at=board.at,
        open=opening._asdict() if opening else None,
        openings=[each._asdict() for each in board.openings],
        called_off=plan.vehicle.work_days.called_off(board.at.date()),
        next_work_day=plan.vehicle.work_days.next_after(board.at),
        here=[{"who": v.who, "name": person(plan, v.who), "since": v.since} for v in board.present],
        expected=[
            {
                "who": who,
                "name": person(plan, who),
                "coming": said.coming,
                "note": said.note,
                "arrives": said.arrives,
                "leaves": said.leaves,
            }
            for who, said in expected_on(board.logbook, board.at.date()).items()
        ],
        first=[
            {
                "task": each.task,
                "says": each.says,
                "delay_hours": each.delay.total_seconds() / 3600,
                "behind": each.behind,
                "lets_go": each.lets_go,
                "finish_today": each.finish_today,
                "not_today": each.not_today,
            }
            for each in what_goes_first(board)
        ],
        tasks=[standing_form(each) for each in board.standings.values()],
        holds=[hold_form(board, each) for each in stopping],
        leave_alone=sorted({each.component for each in stopping if each.leave_alone}),
        readings=_readings(board),
        logged=_logged(board),
        mistakes=len(faults),
    )


def _readings(board: Board) -> list[Form]:
    today = [each for each in board.history.readings if each[0].date() == board.at.date()]
    return [{"at": at, "celsius": r.celsius, "humidity": r.humidity} for at, r in today]


def _logged(board: Board) -> Form:
    """What the day's file says up to the board's moment."""
    day = board.logbook.days.get(board.at.date(), Day(board.at.date()))
    said = [entry.act for entry in day.counting if entry.at <= board.at]
    return {
        "hours": [
            {"who": a.who, "task": a.task, "hours": a.hours, "note": a.note}
            for a in said
            if isinstance(a, HoursWorked)
        ],
        "begun": [a.task for a in said if isinstance(a, Begun)],
        "finished": [a.task for a in said if isinstance(a, Finished)],
        "signed": [
            {
                "hazard": a.hazard,
                "check": a.check,
                "who": a.who,
                "task": a.task,
                "applies": a.applies,
            }
            for a in said
            if isinstance(a, CheckSigned)
        ],
        "closed": any(isinstance(a, ClosedDay) for a in said),
    }


def standing_form(standing: Standing) -> Form:
    return {
        "id": standing.task.id,
        "title": standing.task.title,
        "component": standing.task.component,
        "state": standing.state,
        "begun": standing.begun,
        "crew": standing.crew,
        "finished": standing.finished,
        "finished_by": standing.finished_by or None,
        "holds": standing.holds,
        "short_of": standing.short_of,
        "until": standing.until,
        "hours": standing.hours,
        "left": standing.left,
        "ask_left": standing.ask_left,
        "set_aside": standing.aside or None,
    }


def hold_form(board: Board, hold: StandingHold) -> Form:
    released = {"at": hold.released_at, "by": hold.released_by, "why": hold.released_why}
    return {
        "id": hold.id,
        "kind": hold.kind,
        "task": hold.task or None,
        "component": hold.component or None,
        "since": hold.since,
        "until": hold.until,
        "stage": hold.stage,
        "release": hold.release,
        "leave_alone": hold.leave_alone,
        "share": hold.share(board.at),
        "outside": hold.outside is not None,
        "stopped": hold.outside._asdict() if hold.outside else None,
        "asks_for_look": hold.asks,
        "lost_hours": hold.lost.total_seconds() / 3600,
        "extended": [
            {"at": each.at, "by": each.by, "until": each.until, "why": each.why}
            for each in hold.extended
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


def task_form(board: Board, task_id: str) -> Form:
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
                "when": asked.check.when,
                "every": asked.check.every,
                "text": asked.text,
                "who": asked.who or None,
                "answer": asked.answer,
                "signed_by": asked.signed_by or None,
                "at": asked.at,
                "why": asked.why or None,
                "due": asked.due,
            }
            for asked in checks_of(board, task_id)
        ],
    )


def holds_form(board: Board, holds: Iterable[StandingHold]) -> Form:
    return form_of("holds", at=board.at, holds=[hold_form(board, each) for each in holds])
