"""A report is added by one file and one line in the list of reports."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from crewboard.paper.reports import REPORTS, ReportListed
from tests.command.calling import Shell
from tests.terminal.shop import make_shop

AT = ("--at", "2026-05-02T10:00")

WAITING = """\
from crewboard.telling.report import Chapter, Request, Sheet, points

def report(request: Request) -> Sheet:
    waiting = (s.task.title for s in request.board.in_state("waiting"))
    name = f"What waits at {request.board.plan.vehicle.name}"
    return Sheet(name, "Ask before you begin.", (Chapter("Waiting", points(waiting)),))
"""

PLACES = """\
from crewboard.telling.report import Listing, Request

def report(request: Request) -> Listing:
    tasks = request.board.plan.tasks.values()
    return Listing([["task", "place"], *([task.title, task.place] for task in tasks)])
"""


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop, and a program with two more reports."""
    (tmp_path / "toy_waiting.py").write_text(WAITING)
    (tmp_path / "toy_places.py").write_text(PLACES)
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setitem(REPORTS, "waiting", ReportListed("toy_waiting", "what waits"))
    monkeypatch.setitem(REPORTS, "places", ReportListed("toy_places", "where it is done"))
    roof = 'name = "Roof"\nafter = ["frame"]\n\n[tasks.bend]\ntitle = "=Bend <i>it</i>"\n'
    return make_shop(tmp_path / "van", components={"roof": roof})


@pytest.fixture
def shell(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def test_a_sheet_is_had_as_text_and_as_a_page(van: Path, shell: Shell) -> None:
    text = shell("report", "waiting", van, *AT).out
    assert text.startswith("What waits at The market van\nAsk before you begin.\n\nWaiting\n")
    assert "  - =Bend <i>it</i>\n" in text
    page = shell("report", "waiting", van, "--as", "html", *AT).out
    assert "<li>=Bend &lt;i&gt;it&lt;/i&gt;</li>" in page
    assert '<p class="caution">Ask before you begin.</p>' in page


def test_a_listing_is_had_as_text_and_for_a_spreadsheet(van: Path, shell: Shell) -> None:
    assert "Weld the bracket  yard\n" in shell("report", "places", van, *AT).out
    cells = shell("report", "places", van, "--as", "csv", *AT).out
    head, *rows = csv.reader(io.StringIO(cells))
    assert head == ["task", "place"]
    assert ["Weld the bracket", "yard"] in rows
    assert ["'=Bend <i>it</i>", ""] in rows
    page = shell("report", "places", van, "--as", "html", *AT).out
    assert "<td>=Bend &lt;i&gt;it&lt;/i&gt;</td>" in page
    assert "The market van" in page
    assert "Sat 2 May 2026" in page


def test_a_form_that_a_report_does_not_have_is_refused_with_those_it_has(
    van: Path, shell: Shell
) -> None:
    ended = shell("report", "places", van, "--as", "ics", *AT)
    assert ended.code == 2
    assert 'the places report is not made as "ics"; as text, csv, html and json' in ended.err
    ended = shell("report", "plaices", van)
    assert "reports are day, hours, " in ended.err
    assert "incidents, waiting and places" in ended.err
