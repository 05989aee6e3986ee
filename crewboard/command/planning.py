"""The command that changes the plan: `call-off`. The rest is done on the screens, or by hand."""

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
    news = "is held after all" if back else f"is called off ({why.strip()})"
    return tell(call, bench, outcome, [f"{day_in_words(day)} {news}"])


call_off = Command(
    _call_off,
    "Calls a work day off, with the reason: the shop stays closed, whatever the rule says. The day "
    "and the reason are written into vehicle.toml, among the days left out.",
    (DIR, Word("DAY", "a work day, such as 2026-05-16")),
    (WHY, Option("back", "the day is held after all"), JSON),
    (
        'crewboard call-off . 2026-05-16 --why "the hall is let"',
        "crewboard call-off . 2026-01-03 --back",
    ),
)
