"""`crewboard sign`: safety checks."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import DIR, moment, open_bench, written_by
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import WHY, WRITING, write
from crewboard.logbook.acts import CheckSigned
from crewboard.plan.plan import Plan
from crewboard.workbench import Workbench


def _sign(call: Call) -> Exit:
    bench = open_bench(call)
    plan = bench.plan
    # "day" stands for what is signed once a day for the whole shop.
    tasks = ("",) if call.word("TASK") == "day" else _tasks(call, bench)
    who = call.option("who")
    signer = naming.person(plan, who) if who else written_by(call, plan)
    if not signer:
        raise WrongCall("say who signs", "write --who WHO")
    applies = not call.given("does-not-apply")
    named = naming.people(plan, call.every("named"))
    concerned = naming.people(plan, call.every("for")) or ("",)
    acts: list[CheckSigned] = []
    for word in call.each("CHECK"):
        for number, task in enumerate(tasks):
            hazard, check = naming.check(plan, task, word)
            if number and _is_of_the_day(plan, hazard, check):
                continue  # signed once, whatever is worked on
            why = call.option("why")
            signed = CheckSigned(hazard, check, signer, task, applies, why, named=named)
            acts += [signed._replace(concerns=whom) for whom in concerned]
    _must_stand_alone(plan, acts)
    return write(call, bench, acts)


def _tasks(call: Call, bench: Workbench) -> tuple[str, ...]:
    """The task, or those of some pieces of a series: each is signed for."""
    typed = call.word("TASK")
    if not bench.plan.series:
        return (naming.task(bench.plan, typed),)
    from crewboard.command.naming_several import TO_DO, Wanted, tasks

    wanted: Wanted = (("under way",), ("ready",), TO_DO, ("finished",))
    return tasks(bench.board(moment(call, bench.plan)), typed, wanted)


def _must_stand_alone(plan: Plan, acts: Sequence[CheckSigned]) -> None:
    """Raises `Refused` where a check of a licensed trade would be signed along with others."""
    licensed = [act for act in acts if _is_licensed(plan, act)]
    if licensed and len(acts) > 1:
        name = _title(plan, licensed[0])
        sentence = f'"{name}" is a check of a licensed trade: it is signed by itself'
        raise Refused(sentence, "look at each, and sign one at a time")


def _title(plan: Plan, act: CheckSigned) -> str:
    check = plan.hazards[act.hazard].check(act.check)
    return check.short if check is not None else act.check


def _is_licensed(plan: Plan, act: CheckSigned) -> bool:
    sheet = plan.hazards.get(act.hazard)
    check = sheet.check(act.check) if sheet else None
    return check is not None and check.licensed


def _is_of_the_day(plan: Plan, hazard: str, check_id: str) -> bool:
    sheet = plan.hazards.get(hazard)
    check = sheet.check(check_id) if sheet else None
    return check is not None and check.every == "day"


sign = Command(
    _sign,
    "Signs safety checks of a task, or of the whole shop for the day (write day for the task). A "
    "check of a licensed trade (mains, traction, lifting, asbestos) is signed by itself. A passed "
    "check authorises nothing: law, labels and licensed trades prevail.",
    (
        DIR,
        Word("TASK", "a task, pieces of a series, or day for the checks of the whole shop"),
        Word("CHECK", "checks by their titles, in quotes, as crewboard task shows them", many=True),
    ),
    (
        Option("who", "who signs; otherwise --by", "WHO"),
        Option("for", "for whom, where it is signed for each person", "WHO", many=True),
        Option("named", "whom it names, such as the first-aider", "WHO", many=True),
        Option("does-not-apply", "looked at and found not to apply; needs --why"),
        WHY,
        *WRITING,
    ),
    (
        'crewboard sign . plumb-and-brace "weight known, way clear" --who mirela',
        'crewboard sign . plumb-and-brace "one person calls the moves" --does-not-apply '
        '--why "one lifts it" --by mirela',
    ),
)
