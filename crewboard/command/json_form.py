"""What `--json` prints: one object, in a form that stays the same from version to version.

Every object has `"form": 1` and `"what"`, which names its kind. Within form 1 keys may be added,
none is taken away or changes its meaning. Moments are the shop's wall clock, such as
"2026-05-02T09:00:00", days "2026-05-02", hours are person-hours, shares go from 0 to 1; what is
not known is null.

- `day`: vehicle {name, what}, at, unreadable [UNREAD], open {opens, closes} or
  null (the opening that runs or comes next), openings [{opens, closes}], called_off (the reason,
  null where the day was not called off), next_work_day, here [{who, name,
  since}], guests [{name, since, host, until}], left_short [sentences: what goes on with too few
  people], must_follow [{task, after, finished, within, by, too_late, again [the tasks to be done
  again]}] (what has to be begun so soon after other work), expected [{who, name, coming, note}],
  first [{task, says, delay_hours, behind, lets_go, finish_today, not_today (why nobody here may do
  it, or "")}], tasks [TASK], holds [HOLD],
  clocks [CLOCK], closed_places [{place, task, hazard}], leave_alone [component ids],
  readings [{at, celsius, humidity}], logged {hours [{who, guest, task, component, piece,
  other, hours, note}] (of a guest `who` is empty), begun, finished, stopped
  [task ids], finished_without [{entry, task, lacks [texts]}] (work that nobody wrote to have
  begun), signed [{hazard, check, who, task, applies}], closed},
  to_sort (how many pictures and recordings wait to be sorted), mistakes (a number).
- `day end`: at, closed, hours [{name, hours}], without_hours [names], begun, finished, stopped,
  under_way, longer [task ids], clocks [hold ids], next (a moment or null), due [hold ids], first
  [task ids].
- TASK: id, title, component, state ("under way", "ready", "on hold", "needs supplies", "waiting",
  "finished", "set aside"), begun, crew, finished, finished_by, holds [ids], short_of [supplies],
  jigs [those it uses and of which none is free], until, hours,
  left, ask_left (more was worked than was said: `left` is what overruns suggest), set_aside (the
  reason), stopped (when it was stopped to go on another day, and not begun again since),
  open_again [the reopened tasks before it] and held_again [the holds before it that run again]:
  where it is under way all the same, that work is to be stopped.
  `unreadable` [the files that cannot be read and may hold it back].
- UNREAD: file, kind ("vehicle", "crew", "supplies", "hazards", "component", "task", "day",
  "readings", "folder"), about (the component or task), day, says, mend, remembered (what it said
  when it was last read is still shown).
- HOLD: id, kind, task, component, pieces [ids] that it is on, since, until, not_before and unread
  (nobody knows until when, for what cannot be read), stage ("running", "due", "over"), release
  ("time", "look"), leave_alone, share, outside (the shop is outside its conditions), lost_hours,
  extended [{at, by, until, why}], released {at, by, why} or null, by, note, source.
- `why`: at, reasons [{depth, about, id, says, entry, root}].
- `then`: at, task, now, after_hold, closer, goes_on [task ids], behind (a number).
- `task`: at, task TASK with method, after, during, within {task: span}, uses [jigs],
  in_one_go, estimate [low, likely, high], people [least,
  most], skills, hazards, supplies, place, pictures, not_before, due, hold {kind, lasts (such as
  "36 hours", null without an end of its own), release ("time", "look"), leave_alone, conditions
  {at_least_c, at_most_c, at_least_humidity, at_most_humidity}, note, source} or null; checks
  [CHECK], reckoned [{entry, at, by, task (it, or another of its series), about, answer, given,
  known (as `reckoning`), before (the entry that it stands anew for), note}].
- CHECK: hazard, check, when, every, text, who, answer ("signed", "does not apply", "unsigned"),
  signed_by, written_by, at, why, due. `who` is whom it is signed for, where it is for each person.
- CLOCK (one that protects): kind, hazard, clock, task, lasts, since and until (null before it has
  started), guards ("closing", "task", "entry").
- `holds`: at, unreadable [UNREAD], holds [HOLD], clocks [CLOCK].
- `vehicle`: at, components [{id, name, part_of, after, done, of}], with `--tasks` also tasks
  [TASK].
- `pieces`: at, pieces [PIECE]. PIECE: id, name, component, several (the id of its table, null for a
  single one), number, spare, kind, material, size, place, as_found, period, condition, intended,
  why, keep, runs_from, runs_to, serves, live, pictures; failed (the reason, null where it did not
  fail), replaced_by and stands_for [piece ids], tasks [{id, state}], holds [ids].
- `fabric`: at, pieces [{id, name, component, state, where, where_words (the shelf, to whom), keep,
  current (the number of the thing that sits there), things [THING], entries [ids], pictures {kind:
  [files]}}], shares [{component (null: all together), basis ("pieces", "length", "area",
  "volume"), amount (pieces, m, m² or m³), pieces (how many were counted), original, most_original
  (a range where a splice's share was not said), shares {sort: share}, not_said}].
- THING: number (0 as found, 1 the first that replaced it), sort, material, where, where_words,
  since, said_by (an entry's id), why (it was replaced or went), cut_out (where the part is that was
  spliced out of it), shares {sort: share}, not_said, wood_from and wood_to [{piece,
  number}], entries [ids].
- `gaps`: at, pieces [{piece, gaps [{code, thing (its number), entry (what calls for it), says}]}],
  the piece that lacks least first; of the whole vehicle files [{file, says}]: those that were taken
  in and are gone or changed.
- `crew`: at, people [{id, name, here_since, lead, under_18, skills, certificates [{kind, until}],
  hours {month, year, in_all}}].
- `log`: entries [ENTRY]. ENTRY: id, day, at, by, kind, the kind's own fields as in the day's file,
  written, replaces, despite (why it was written although it was doubted), counts (true or false),
  fate (the id of the line that replaced it or took it back, or null).
- `hazards`: sheets [{id, name, harm, checks, numbers [{id, amount, says, source, where, edition,
  read, mark}]}].
- `rows` (a table of `report --as json`): rows [{head: cell}].
- `check`: files (how many were read), mistakes and questions [{file, line, column, code, sentence,
  hint, steps, follow (how many questions follow from it)}].
- `plan-keys`: files [{file, keys [{key, value (as TOML), says}]}].
- `forecast`: at, seed, runs, asked, soonest, finish FINISH (with what usually turns up), as_planned
  FINISH (the plan as it stands), growth {since, planned, found (tasks), planned_hours, found_hours,
  rate, low, high (hours found for each hour finished, with 80 %), tasks_without_date}, supposed
  [{kind, what (an id), says, name, why}], too_little (what is missing for a date, or that no work
  is left; else empty; then there is a range instead of any FINISH), rough {first, last,
  low, high (hours left), few, many (people a work day), crew, days (work days in the coming year)},
  components [{id, finish FINISH}],
  courses [days in order, null for one without end], on_chain [{task, share}], basis {work_days,
  tasks_with_hours, people}, figures (with --figures; else null) {left, pace and share {middle, low,
  high (80 %)} (hours left by the estimates; hours worked for each estimated; share of the time in
  the shop), paced (tasks), people (a work day), came [{who, days, of}], held, dropped (work days),
  seasons (winter to autumn), day (hours), days (in the coming year), late,
  delivered, came_late (of those), longer, waited {days,
  spent {what: days}, tasks, work_days, longest [{spent, task, days}]}}, remarks, sooner [{says,
  gain_days, doubt_days, tells}].
- FINISH: even, likely, nearly_sure: the days by which it is finished with 50, 80 and 95 %; null for
  later than in fifty years.
- `programme`: at, days [{date, openings, people, said (of them who are here or said so), turns
  [{task, people, start, end, finishes, goes_on, hours, sets (its finish starts a hold), sets_until,
  look, watch [people], watched_until}], idle [people], due [{kind ("look", "delivery", "date"),
  about (a task or supply), at, hold, kept}], must_be_there [{task, supply, unordered, order_by,
  hold, awaited (the task whose hold a word ends), undo, certificate, who}], ask [{tasks, lacks
  {code, skill, certificate, hazard, people}, could [people]}]}].
- `day plan`: opens, closes, people, placed [{task, people, start, end, finishes, watch,
  watched_until, learning, looks (holds to look at first)}], not_placed [{task, why, code ("may",
  "waits", "taken", "room", "time", "soon", "fixed"), tasks (that stand in the way)}], idle, by
  ("solver", "plain rule"), value, bound, gap, remarks, small [{what, people, start, end}], pauses
  [{start, end, name}], hours {person: [from, until]}, changes (against the plan taken over)
  [{task, since, joined, left, before, now, what (a small job; then without a task)}].
- `review`: questions [{rule, source, mark, about, id, file, line, says, do}].
- `waiting`: at, files [{entry (the id by which it was taken in), file, kind ("picture",
  "recording"), taken, taken_by ("its name", "its file's time"; null: the picture says it itself),
  called}].
- `dictated` (of `findings` without --do-it): findings [{line, seen, thought, piece, component,
  could_be [ids: more than one thing has the name that the line begins with],
  no_such_piece: the name that the line begins with, where there is no such piece, or null}].
- `reckonings`: kinds [{kind, says, fits (the task asked about)}], task, piece. `reckoning asks`:
  kind, asks [{name, what, reads, needed, otherwise, words, fills, known}]. `reckoning`: kind, given
  {name: as typed}, known ["name = value | where it stands"], result, how, assumes, cautions
  [texts], hazards [sheets], sources [{says, where, mark}], figures {by name, the unit behind it},
  drawing [lines], before (the entry that it redoes), learned [texts].
- `kept` of `take-in` also has passed_over [{path, why, here (where it is in the folder already)}].
- `kept`: entries [ENTRY], files. `refused`: refused [{code, says, mend, yields,
  lead, not_by, steps}], steps [texts] where it goes round in a ring; `yields` true
  means that a named person's recorded reason ("--despite") overrules it,
  with `lead` true only that of a lead, and never that of `not_by`.
"""

from __future__ import annotations

from datetime import date, datetime, time
from typing import Any

from crewboard.plan.duration import Duration
from crewboard.plan.task import Estimate

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
        return {str(key): plain(part) for key, part in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [plain(part) for part in value]
    if value is None or isinstance(value, str | bool | int | float):
        return value
    return str(value)
