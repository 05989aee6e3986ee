"""`crewboard sign` and `crewboard incident`: safety checks, near misses and injuries."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import DIR, open_bench, written_by
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import WHY, WRITING, write
from crewboard.logbook.acts import CheckSigned, Incident
from crewboard.order.said import listed


def _sign(call: Call) -> Exit:
    bench = open_bench(call)
    plan = bench.plan
    # "day" stands for what is signed once a day for the whole shop.
    task = "" if call.word("TASK") == "day" else naming.task(plan, call.word("TASK"))
    who = call.option("who")
    signer = naming.person(plan, who) if who else written_by(call, plan)
    if not signer:
        raise WrongCall("say who signs", "write --who WHO")
    applies = not call.given("does-not-apply")
    acts = []
    for said in call.each("CHECK"):
        hazard, check = naming.check(plan, task, said)
        acts.append(CheckSigned(hazard, check, signer, task, applies, call.option("why")))
    return write(call, bench, acts)


def _incident(call: Call) -> Exit:
    bench = open_bench(call)
    plan = bench.plan
    what = call.word("WHAT")
    if not what.strip():
        raise Refused("say what happened")
    act = Incident(
        what,
        call.given("injury"),
        call.option("place"),
        naming.task(plan, call.option("task")) if call.given("task") else "",
        naming.people(plan, call.every("who")),
        naming.people(plan, call.every("seen-by")),
        listed(call.every("done")),
    )
    return write(call, bench, [act])


sign = Command(
    _sign,
    "Signs safety checks of a task, or of the whole shop for the day (write day for the task). A "
    "passed check authorises nothing: law, labels and licensed trades prevail.",
    (
        DIR,
        Word("TASK", "a task, or day for the checks of the whole shop"),
        Word(
            "CHECK", "checks as crewboard task shows them in brackets, or hazard/check", many=True
        ),
    ),
    (
        Option("who", "who signs; otherwise --by", "WHO"),
        Option("does-not-apply", "looked at and found not to apply; needs --why"),
        WHY,
        *WRITING,
    ),
    (
        "crewboard sign . plumb-and-brace thought manual-handling/caller --who mirela",
        'crewboard sign . plumb-and-brace caller --who mirela --does-not-apply --why "light"',
    ),
)
incident = Command(
    _incident,
    "Writes down a near miss or an injury: what happened, where, who saw it, what was done.",
    (DIR, Word("WHAT", "what happened, in quotes")),
    (
        Option("injury", "somebody was hurt"),
        Option("place", "where it happened", "TEXT"),
        Option("task", "the task it happened at", "TASK"),
        Option("who", "the people concerned", "WHO", many=True),
        Option("seen-by", "who saw it", "WHO", many=True),
        Option("done", "what was done about it", "TEXT"),
        *WRITING,
    ),
    (
        'crewboard incident . "a clamp slipped off the bench" --place "joinery" --seen-by mirela',
        'crewboard incident . "cut thumb" --injury --who mirela --done "cleaned and bandaged"',
    ),
)
