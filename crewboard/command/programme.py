"""`crewboard programme`: what could be done on the next work days, by whom, and what it needs."""

from __future__ import annotations

from crewboard.command.exits import Exit, WrongCall
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench, parse_number
from crewboard.command.typed import Call, Command, Option


def _programme(call: Call) -> Exit:
    from crewboard.order.programme.programme import USUAL_DAYS, make

    bench = open_bench(call)
    days = days_asked(call) or USUAL_DAYS
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_programme import programme_form

        call.out.json(programme_form(board, make(board, days)))
    else:
        from crewboard.paper.plain_sheet import sheet_text
        from crewboard.telling.programme import programme_sheet

        call.out.lines(sheet_text(programme_sheet(board, days), call.out.width))
    return Exit.FINE


def days_asked(call: Call) -> int:
    """The number after `--days`; 0 where it is not given. Raises WrongCall."""
    from crewboard.order.programme.programme import MOST_DAYS

    if not call.given("days"):
        return 0
    said = parse_number(call.option("days"), "days")
    days = int(said)
    if said != days or not 1 <= days <= MOST_DAYS:
        raise WrongCall(
            f"--days {call.option('days')} is no number of work days",
            f"write a whole number from 1 to {MOST_DAYS}",
        )
    return days


programme = Command(
    _programme,
    "Tells what could be done on each of the next work days, by whom, what sets between them, what "
    "falls due, what must be there by then, and whom to ask to come: within every rule of skills, "
    "certificates, places, jigs, holds and hazards, by what must begin soonest. Who said whether "
    "they come is taken at their word, else who usually comes. Nothing is written; the lead "
    "decides. `crewboard report programme . --as html` makes a page of it for the wall.",
    (DIR,),
    (Option("days", "how many work days", "NUMBER"), AT, JSON),
    (
        "crewboard programme sample_project",
        "crewboard programme . --days 4",
        "crewboard programme . --json",
    ),
)
