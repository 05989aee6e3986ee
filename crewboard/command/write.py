"""Writing acts into the logbook, and saying what was kept or why nothing was."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import zip_longest
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, BY, JSON, moment, written_by
from crewboard.command.typed import Call, Option
from crewboard.logbook.acts import Act
from crewboard.telling.entry_words import entry_in_words, put_down_in_words
from crewboard.wall_clock import shop_now
from crewboard.workbench import Said

if TYPE_CHECKING:
    from crewboard.workbench import Outcome, Workbench

# The options of every command that writes.
DESPITE = Option("despite", "the reason for doing it although something stands against it", "WHY")
WRITING = (DESPITE, BY, AT, JSON)
NOTE = Option("note", "a note to go with it", "TEXT")
WHY = Option("why", "the reason", "TEXT")


def write(call: Call, bench: Workbench, acts: Iterable[Act]) -> Exit:
    """Write the acts as of `--at`, all of them or none."""
    plan = bench.plan
    at = moment(call, plan)
    lines = [Said(act, at, despite=call.option("despite")) for act in acts]
    return tell(call, bench, bench.record(lines, by=written_by(call, plan), now=shop_now(plan)))


def tell(call: Call, bench: Workbench, outcome: Outcome, also: Iterable[str] = ()) -> Exit:
    """What was kept, `also` before the entries, or the refusals with what mends them."""
    form = None
    if call.given("json"):
        from crewboard.command.json_folder import outcome_form

        form = outcome_form(outcome)
    if outcome.kept:
        call.out.keeps([*also, *_entries(bench, outcome)], also=form)
    elif form is not None:
        call.out.json(form)
    for remark in outcome.remarks:
        call.out.talk(remark)
    return Exit.FINE if outcome.kept else _refused(call, outcome)


def _entries(bench: Workbench, outcome: Outcome) -> Iterable[str]:
    for entry in outcome.entries:
        words = entry_in_words(bench.plan, entry, bench.logbook)
        put_down = put_down_in_words(entry)
        yield f"{entry.at:%H:%M}  {words}  [{entry.id}]{f' - {put_down}' if put_down else ''}"


def _refused(call: Call, outcome: Outcome) -> Exit:
    for refusal, following in zip_longest(outcome.refused, outcome.refused[1:]):
        # What mends several alike is said once, behind the last of them.
        again = following is not None and following.mend == refusal.mend
        call.out.talk(str(refusal._replace(mend="") if again else refusal))
    if all(refusal.yields for refusal in outcome.refused):
        who = "LEAD" if any(refusal.lead for refusal in outcome.refused) else "WHO"
        call.out.talk(f'To do it all the same: --despite "the reason" --by {who} answers for it.')
    disk = any(refusal.code == "disk" for refusal in outcome.refused)
    return Exit.DISK if disk else Exit.REFUSED
