"""`crewboard hold`, `extend`, `release`: holds started, made longer and let go by hand."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit, WrongCall
from crewboard.command.opened import DIR, moment, open_bench, parse_moment
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import WHY, WRITING, write
from crewboard.logbook.acts import Extended, HoldStarted, Released
from crewboard.plan.duration import Duration, NotADuration, parse_duration
from crewboard.plan.hold import KINDS

_HOLD = Word("HOLD", "a hold: its id, or its task or component")


def _hold(call: Call) -> Exit:
    bench = open_bench(call)
    plan = bench.plan
    kind = call.word("KIND")
    if kind not in KINDS:
        raise WrongCall(f'there is no hold "{kind}"', f"kinds are {', '.join(KINDS)}")
    if call.option("release") not in ("", "time", "look"):
        raise WrongCall("a hold is released by time or by look", "write --release look")
    act = HoldStarted(
        kind,
        naming.task(plan, call.option("task")) if call.given("task") else "",
        naming.component(plan, call.option("component")) if call.given("component") else "",
        _span(call.option("lasts")),
        call.option("release"),
        call.given("leave-alone"),
        call.option("why"),
    )
    return write(call, bench, [act])


def _extend(call: Call) -> Exit:
    bench = open_bench(call)
    until = parse_moment(call.option("until"), bench.plan) if call.given("until") else None
    hold_id = naming.hold(bench.board(moment(call, bench.plan)), call.word("HOLD"))
    act = Extended(hold_id, _span(call.option("by-span")), until, call.option("why"))
    return write(call, bench, [act])


def _release(call: Call) -> Exit:
    bench = open_bench(call)
    hold_id = naming.hold(bench.board(moment(call, bench.plan)), call.word("HOLD"))
    return write(call, bench, [Released(hold_id, call.option("why"))])


def _span(said: str) -> Duration | None:
    try:
        return parse_duration(said) if said else None
    except NotADuration as error:
        raise WrongCall(str(error)) from None


hold = Command(
    _hold,
    "Starts a hold by hand, on a task or on a whole component. What comes after waits until it is "
    "released, or over. While something sets, dries or burns, the component it is on is left alone "
    "too; an inspection, a decision, a delivery or the weather keeps only what comes after, and "
    "the work on the component itself goes on, unless --leave-alone says otherwise. "
    f"Kinds: {', '.join(KINDS)}.",
    (DIR, Word("KIND", "what kind of hold; put two words in quotes")),
    (
        Option("task", "the task it is on", "TASK"),
        Option("component", "or the component it is on", "COMPONENT"),
        Option("lasts", 'how long: "36 hours", "2 days", "1 month"', "SPAN"),
        Option("release", "what ends it: time, or look", "HOW"),
        Option("leave-alone", "the whole component is left alone"),
        WHY,
        *WRITING,
    ),
    (
        'crewboard hold . glue --task front-glue --lasts "24 hours"',
        'crewboard hold . inspection --component running-gear --why "the inspector comes in June"',
    ),
)
extend = Command(
    _extend,
    "Makes a running hold longer, by a span or until a moment. The reason is needed.",
    (DIR, _HOLD),
    (
        Option("by-span", 'how much longer: "2 days"', "SPAN"),
        Option("until", "or until when", "MOMENT"),
        WHY,
        *WRITING,
    ),
    ('crewboard extend . bend-5-6 --by-span "1 week" --why "still springs back" --by aiko',),
)
release = Command(
    _release,
    "Lets a hold go after a look. Before its time the reason is needed.",
    (DIR, _HOLD),
    (WHY, *WRITING),
    (
        "crewboard release . bend-3-4 --by mirela",
        'crewboard release . bend-7-8 --why "the form is needed" --by mirela',
    ),
)
