"""The commands that print and hand on: `report`, `briefing` and `screenshot`."""

from __future__ import annotations

import os

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import AT, DIR, moment, open_bench
from crewboard.command.programme import days_asked
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.folder.disk.new_file import write_new
from crewboard.order.said import listed
from crewboard.paper.page import sheet_page
from crewboard.paper.pictures import Album
from crewboard.paper.plain import plain_lines
from crewboard.paper.reports import REPORTS, forms_of, made, page_head
from crewboard.telling.report import Request, Sheet, sheet_lines
from crewboard.telling.unreadable import unreadable_lines


def _report(call: Call) -> Exit:
    name = call.word("KIND")
    if name not in REPORTS:
        raise WrongCall(f'there is no report "{name}"', f"reports are {listed(REPORTS)}")
    request = _request(call)
    product = made(name, request)
    forms = forms_of(product, _album(call) if name == "book" else None)
    form = call.option("as", next(iter(forms)))
    if form not in forms:
        raise WrongCall(f'the {name} report is not made as "{form}"', f"as {listed(forms)}")
    text = forms[form](call.out.width)
    if call.given("to"):
        _save(call, call.option("to"), text)
    else:
        call.out.text(text)
    if not isinstance(product, Sheet):  # a sheet says it itself; rows and dates have no room for it
        for line in unreadable_lines(request.board):
            call.out.talk(f"{line.word} {line.text}")
    return Exit.FINE


def _album(call: Call) -> Album:
    """The pictures, for a page that is written into a file or, most likely, into this folder."""
    from crewboard.command.book import album_beside

    return album_beside(call.word("DIR"), os.path.dirname(call.option("to")) or ".")


def _request(call: Call) -> Request:
    """What is asked of the report, by names that the plan knows."""
    by = call.option("sum")
    if by not in ("", "month", "year"):
        raise WrongCall(f'hours are not summed by "{by}"', "write --sum month or --sum year")
    bench = open_bench(call)
    return Request(
        bench.board(moment(call, bench.plan)),
        naming.person(bench.plan, call.option("person")) if call.given("person") else "",
        call.option("in"),
        by,
        call.given("names"),
        call.option("as"),
        naming.component(bench.plan, call.option("of")) if call.given("of") else "",
        days_asked(call),
    )


def _save(call: Call, path: str, text: str) -> None:
    """Into a new file: what is there already is never written over."""
    try:
        write_new(path, text)
    except FileExistsError:
        raise Refused(f'"{path}" is there already', "name another file") from None
    call.out.talk(f"written to {os.path.abspath(path)}")


def _briefing(call: Call) -> Exit:
    from crewboard.order.safety.briefing import briefing as talk_of
    from crewboard.order.safety.briefing import todays_work
    from crewboard.telling.briefing import briefing_sheet
    from crewboard.telling.short_talk import short_talk_sheet
    from crewboard.telling.talk_sheet import as_printed
    from crewboard.telling.unreadable import with_unreadable

    bench = open_bench(call)
    tasks = [naming.task(bench.plan, name) for name in call.every("task")] or None
    board = bench.board(moment(call, bench.plan))
    whole = call.given("whole")
    talk = talk_of(board, tasks if tasks or whole else todays_work(board))
    sheet = with_unreadable(briefing_sheet(talk) if whole else short_talk_sheet(talk), board)
    if call.given("html"):
        printed = sheet if whole else as_printed(sheet)
        call.out.text(sheet_page(printed._replace(head=page_head(board))))
    else:
        call.out.lines(plain_lines(sheet_lines(sheet), call.out.width))
    return Exit.FINE


def _screenshot(call: Call) -> Exit:
    bench = open_bench(call)
    at = moment(call, bench.plan)
    wide, by, high = call.option("size", "100x30").partition("x")
    if not (by and wide.isdecimal() and high.isdecimal() and len(wide + high) < 8):
        raise WrongCall(f'"{call.option("size")}" is not a size', "write --size 100x30")
    path = call.option("out")
    if not path:
        raise WrongCall("say into which file", "write --out day.svg")
    if os.path.lexists(path):
        raise Refused(f'"{path}" is there already', "name another file")
    import asyncio

    from crewboard.terminal.screenshot import screenshot as svg_of

    size = (int(wide), int(high))
    svg = asyncio.run(svg_of(call.word("DIR"), at, size, call.every("keys")))
    _save(call, path, svg)
    return Exit.FINE


report = Command(
    _report,
    f"Makes a report: {'; '.join(f'{name}, {report.says}' for name, report in REPORTS.items())}.",
    (Word("KIND", ", ".join(REPORTS)), Word("DIR", "the vehicle's folder")),
    (
        Option("as", "text or html; a table text, csv or json; the calendar ics", "FORM"),
        Option("person", "hours of one person only", "WHO"),
        Option("of", "tags and shelf list of one component's pieces only", "COMPONENT"),
        Option("in", "hours of one year or month only: 2026 or 2026-05", "PERIOD"),
        Option("days", "the programme of so many work days, else of one page", "NUMBER"),
        Option("sum", "hours summed by month or year", "PERIOD"),
        Option("names", "incidents with names: for the crew's own record, not to be shared"),
        Option("to", "into a new file instead of the standard output", "FILE"),
        AT,
    ),
    (
        "crewboard report morning sample_project --as html --to morning.html",
        "crewboard report tags sample_project --as html --to tags.html",
        "crewboard report piece-tags sample_project --of windows --as html --to panes.html",
        "crewboard report day sample_project --at 2026-04-25T17:00 --as html --to day.html",
        "crewboard report hours sample_project --person mirela --in 2026 --as csv",
        "crewboard report calendar sample_project --to work-days.ics",
    ),
)
briefing = Command(
    _briefing,
    "Prints the day's safety talk on one page: what can hurt, who watches, what ends when, what is "
    "left alone, whom to call. For what is under way and goes first, or for the tasks named; with "
    "--whole for all that are ready, with every check, who may do what, and what to do when it "
    "goes wrong.",
    (DIR,),
    (
        Option("task", "only for these tasks", "TASK", many=True),
        Option("whole", "with every check and what to do when it goes wrong"),
        Option("html", "as a page to print"),
        AT,
    ),
    (
        "crewboard briefing sample_project --at 2026-05-02T09:00",
        "crewboard briefing . --whole --task plumb-and-brace front-brakes --html > talk.html",
    ),
)
screenshot = Command(
    _screenshot,
    "Draws a screen into an SVG file, as it looks at a moment and after some keys.",
    (DIR,),
    (
        Option("out", "the new file", "FILE"),
        Option("size", "columns and lines, such as 100x30", "SIZE"),
        Option("keys", "keys pressed before, such as 3 down enter", "KEY", many=True),
        AT,
    ),
    ("crewboard screenshot sample_project --out day.svg --at 2026-05-02T10:40 --size 120x40",),
)
