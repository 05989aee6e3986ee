"""The commands that change the plan: `call-off`, `adult`, `seen`. The rest is done on the screens,
or by hand."""

from __future__ import annotations

from crewboard.command.exits import Exit, WrongCall
from crewboard.command.opened import DIR, JSON, open_bench, parse_day, today
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import WHY, tell


def _call_off(call: Call) -> Exit:
    from crewboard.folder.edit.plan_edits import CallOff
    from crewboard.order.said import day_in_words

    bench = open_bench(call)
    day = parse_day(call.word("DAY"), bench.plan)
    back, why = call.given("back"), call.option("why")
    if not back and not why.strip():
        raise WrongCall(f"say why {day_in_words(day)} is called off", "write --why TEXT")
    edit = CallOff(day, None if back else why)
    outcome = bench.change(edit, says="a work day called off", today=today(bench.plan).on)
    news = "takes place after all" if back else f"is called off ({why.strip()})"
    return tell(call, bench, outcome, [f"{day_in_words(day)} {news}"])


call_off = Command(
    _call_off,
    "Calls a work day off, with the reason: the shop stays closed, whatever the rule says. The day "
    "and the reason are written into vehicle.toml, among the days left out.",
    (DIR, Word("DAY", "a work day, such as 2026-05-16")),
    (WHY, Option("back", "the day takes place after all"), JSON),
    (
        'crewboard call-off . 2026-05-16 --why "the hall is let"',
        "crewboard call-off . 2026-01-03 --back",
    ),
)


def _adult(call: Call) -> Exit:
    from crewboard.command import naming
    from crewboard.command.opened import parse_day
    from crewboard.folder.edit.plan_edits import Change, Key

    bench = open_bench(call)
    who, answer, born = naming.person(bench.plan, call.word("WHO")), call.word("ANSWER"), None
    if answer not in ("yes", "no"):
        raise WrongCall(f'"{answer}" is neither yes nor no', "write yes for 18 or older, or no")
    if call.given("born"):
        born = parse_day(call.option("born"), bench.plan)
        if answer == "yes":
            raise WrongCall("a date of birth is kept of under-18s only", "leave --born out")
    older: dict[Key, object] = {"under_18": None, "eighteen_on": None, "born": born}
    edit = Change("person", who, {"adult": answer == "yes", **older})
    outcome = bench.change(edit, says="who is 18 or older", today=today(bench.plan).on)
    is_what = "18 or older" if answer == "yes" else "under 18"
    return tell(call, bench, outcome, [f"{bench.plan.crew[who].name} is {is_what}"])


adult = Command(
    _adult,
    "Says whether somebody is 18 or older; saved in crew.toml. An age that nobody said is not "
    "taken for an adult's: such a person does nothing dangerous. The date of birth is kept of "
    "under-18s only, so that it is known when they come of age.",
    (DIR, Word("WHO", "a person: short id, or a part of the name"), Word("ANSWER", "yes or no")),
    (Option("born", "the date of birth, of an under-18", "DATE"), JSON),
    ("crewboard adult . leila yes", "crewboard adult . jonas no --born 2009-08-14"),
)


def _seen(call: Call) -> Exit:
    from crewboard.command import naming
    from crewboard.command.exits import Refused
    from crewboard.command.opened import parse_day
    from crewboard.folder.edit.plan_edits import Change
    from crewboard.folder.read.fault import nearest
    from crewboard.order.said import day_in_words

    bench = open_bench(call)
    who, kind = naming.person(bench.plan, call.word("WHO")), call.word("CERTIFICATE")
    volunteer, now = bench.plan.crew[who], today(bench.plan).on
    held = {paper.kind: paper for paper in volunteer.certificates}
    if kind not in held:
        raise Refused(f'{volunteer.name} has no certificate "{kind}"', nearest(kind, held))
    day = parse_day(call.option("on"), bench.plan) if call.given("on") else now
    paper = held[kind]._replace(seen=day)
    edit = Change("person", who, {("certificates", kind): paper})
    outcome = bench.change(edit, says="a certificate that was seen", today=now)
    return tell(
        call,
        bench,
        outcome,
        [f'{volunteer.name}\'s certificate "{kind}" was seen on {day_in_words(day)}'],
    )


seen = Command(
    _seen,
    "Says that somebody's certificate was looked at, today or --on a day; saved in crew.toml. One "
    "without an end of its own is asked for again a year later.",
    (
        DIR,
        Word("WHO", "a person: short id, or a part of the name"),
        Word("CERTIFICATE", "the certificate as crew.toml calls it, in quotes"),
    ),
    (Option("on", "the day it was looked at, where that is not today", "DATE"), JSON),
    ("crewboard seen . kwame electrical --on 2026-05-02",),
)
