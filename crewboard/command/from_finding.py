"""`crewboard from-finding`: what comes of a finding, which names it."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import DIR, open_bench, today
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import WRITING, tell, write
from crewboard.folder.edit.from_finding import home_of, kept_from, task_from
from crewboard.logbook.acts import Found, HoldStarted, Ordered
from crewboard.logbook.entry import Entry
from crewboard.plan.hold import KINDS
from crewboard.workbench import Workbench

_WAYS = ("task", "hold", "keep", "order")


def _from_finding(call: Call) -> Exit:
    bench = open_bench(call)
    entry = _finding(bench, call.word("FINDING"))
    wanted = [way for way in _WAYS if call.given(way)]
    if len(wanted) != 1:
        raise WrongCall("say one thing that comes of it", "write --task, --hold, --keep or --order")
    if wanted == ["task"]:
        return _task(call, bench, entry)
    if wanted == ["keep"]:
        return _keep(call, bench, entry)
    act = entry.act
    assert isinstance(act, Found)
    if wanted == ["order"]:
        supply = naming.supply(bench.plan, call.option("order"))
        return write(call, bench, [Ordered(supply, finding=entry.id)])
    kind = call.option("hold")
    if kind not in KINDS:
        raise WrongCall(f'there is no hold "{kind}"', f"write one of {', '.join(KINDS)}")
    component = "" if act.piece else act.component
    hold = HoldStarted(kind, component=component, piece=act.piece, why=act.seen, finding=entry.id)
    return write(call, bench, [hold])


def _finding(bench: Workbench, typed: str) -> Entry:
    """A finding by its id, or by words of what was seen."""
    findings = {e.id: e for e in bench.logbook.record() if isinstance(e.act, Found)}
    if typed in findings:
        return findings[typed]
    told = {entry.id: getattr(entry.act, "seen", "") for entry in findings.values()}
    return findings[naming.one_of("finding", typed, told)]


def _task(call: Call, bench: Workbench, entry: Entry) -> Exit:
    act = entry.act
    assert isinstance(act, Found)
    home = naming.component(bench.plan, call.option("in")) if call.given("in") else ""
    home = home or home_of(bench.plan, act)
    if not home:
        raise Refused("the finding is on no component", "write --in with the component's name")
    edit = task_from(bench.plan, entry, call.option("task"), home)
    outcome = bench.change(edit, says="a task from a finding", today=today(bench.plan).on)
    return tell(call, bench, outcome, [f'saved: "{call.option("task")}" ({edit.id})'])


def _keep(call: Call, bench: Workbench, entry: Entry) -> Exit:
    edits = kept_from(bench.plan, entry)
    if not edits:
        raise Refused("the finding is on no piece", "correct it, or keep its piece by describe")
    outcome = bench.change(*edits, says="kept for ever", today=today(bench.plan).on)
    return tell(call, bench, outcome, ["saved: kept for ever as it is"])


from_finding = Command(
    _from_finding,
    "What comes of a finding: a task that names it, a hold on its piece or component, a piece kept "
    "for ever as it is, or a supply that is ordered.",
    (DIR, Word("FINDING", "the id of its entry, or words of what was seen")),
    (
        Option("task", "a task of this title", "TITLE"),
        Option("in", "the component or part of the task, where not the finding's", "COMPONENT"),
        Option("hold", "a hold of this kind", "KIND"),
        Option("keep", "its piece is kept for ever"),
        Option("order", "this supply was ordered for it", "SUPPLY"),
        *WRITING,
    ),
    ('crewboard from-finding . "old screw holes" --task "Plug the screw holes" --in arches',),
)
