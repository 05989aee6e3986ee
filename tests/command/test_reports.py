"""The commands that print and hand on."""

from __future__ import annotations

import csv
import io
from html import escape
from pathlib import Path

from crewboard.plan.hazard import CAUTION
from tests.command.calling import SAMPLE, Shell, process

AT = ("--at", "2026-05-02T16:00")


def test_the_hours_statement_goes_into_a_spreadsheet(call: Shell, van: Path) -> None:
    note = "=HYPERLINK(1)"
    call("hours", van, "tom", "2", "--note", note, "--by", "ada", *AT)
    head, *rows = csv.reader(io.StringIO(call("report", "hours", van, "--as", "csv", *AT).out))
    assert head == [
        "date",
        "person",
        "name",
        "component",
        "task",
        "hours",
        "note",
        "piece",
        "other",
    ]
    assert rows == [
        ["2026-05-02", "ada", "Ada Test", "Frame", "Scrape the sills", "3", "", "", ""],
        ["2026-05-02", "tom", "Tom [M8] Test", "", "", "2", f"'{note}", "", ""],
    ]
    mine = call("report", "hours", van, "--as", "csv", "--person", "Tom", *AT).out
    assert len(mine.splitlines()) == 2
    assert call("report", "hours", van, "--in", "2025", *AT).out.split() == head
    sums = call("report", "hours", van, "--sum", "month", "--as", "csv", *AT).out
    assert sums.splitlines()[0] == "person,name,2026-05,in all,days"


def test_a_report_goes_into_a_new_file_and_never_over_an_old_one(
    call: Shell, van: Path, tmp_path: Path
) -> None:
    page = tmp_path / "day.html"
    ended = call("report", "day", van, "--as", "html", "--to", page, *AT)
    assert (ended.code, ended.out) == (0, "")
    text = page.read_text()
    assert text.startswith("<!DOCTYPE html>")
    assert escape(CAUTION) in text
    again = call("report", "day", van, "--to", page, *AT)
    assert again.code == 1
    assert page.read_text() == text


def test_the_calendar_keeps_its_line_ends_on_the_way_out(van: Path) -> None:
    ended = process("report", "calendar", van, *AT)
    assert ended.returncode == 0
    assert ended.stdout.startswith(b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n")
    assert ended.stdout.count(b"\n") == ended.stdout.count(b"\r\n")


def test_near_misses_leave_names_out_unless_asked(call: Shell, van: Path) -> None:
    call("incident", van, "a clamp fell on Tom", "--who", "tom", "--by", "ada", *AT)
    assert "Tom" not in call("report", "incidents", van, *AT).out
    assert "Tom [M8] Test" in call("report", "incidents", van, "--names", *AT).out


def test_the_briefing_has_dangers_gear_and_whom_to_call(call: Shell, van: Path) -> None:
    out = " ".join(call("briefing", van, "--whole", "--at", "2026-05-02T09:30").out.split())
    assert "112" in out
    assert "a second pair of gloves" in out
    assert CAUTION in out
    page = call(
        "briefing", van, "--whole", "--html", "--task", "scrape", "--at", "2026-05-02T09:30"
    ).out
    assert page.startswith("<!DOCTYPE html>")


def test_the_wrong_form_of_a_report_is_told(call: Shell, van: Path) -> None:
    ended = call("report", "calendar", van, "--as", "csv")
    assert ended.code == 2
    assert 'the calendar report is not made as "csv"' in ended.err


def test_a_screenshot_is_drawn_without_a_terminal(tmp_path: Path) -> None:
    path = tmp_path / "day.svg"
    ended = process("screenshot", SAMPLE, "--out", path, "--at", "2026-05-02T10:40")
    assert ended.returncode == 0, ended.stderr
    assert path.read_text(encoding="utf-8").startswith("<svg")
