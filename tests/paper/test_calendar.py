"""The calendar file against RFC 5545, rule by rule."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.read.folder import Folder
from crewboard.legible import legible
from crewboard.order.assess import assess
from crewboard.paper.calendar import calendar_file, escaped, folded, report
from crewboard.telling.report import Request
from tests.command.calling import DONE, Shell
from tests.folder.a_vehicle import FILES, make
from tests.long_form import cases
from tests.terminal.shop import make_shop

AT = datetime(2026, 5, 2, 15, 30)


@pytest.fixture
def shell(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


def unfolded(text: str) -> list[str]:
    """Content lines, as section 3.1 has them put together again."""
    assert text.endswith("\r\n")
    return text.replace("\r\n ", "").split("\r\n")[:-1]


def properties(lines: list[str]) -> list[dict[str, str]]:
    """The events, each as its properties."""
    events: list[dict[str, str]] = []
    for line in lines:
        name, _, value = line.partition(":")
        if line == "BEGIN:VEVENT":
            events.append({})
        elif events and name not in ("END",):
            events[-1].setdefault(name.partition(";")[0], value)
    return events


def van(tmp_path: Path, timezone: bool = True) -> str:
    files = {path: text.encode() for path, text in FILES.items()}
    if not timezone:
        files["vehicle.toml"] = FILES["vehicle.toml"].replace('timezone = "CET"', "").encode()
    folder = Folder(make(tmp_path, files))
    return calendar_file(report(Request(assess(folder.plan, folder.logbook, AT))))


def test_every_line_is_at_most_75_octets_and_ends_in_cr_lf(tmp_path: Path) -> None:
    text = van(tmp_path)
    assert "\n" not in text.replace("\r\n", "")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    lines = unfolded(text)
    assert lines[:2] == ["BEGIN:VCALENDAR", "VERSION:2.0"]
    assert lines[-1] == "END:VCALENDAR"
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") > 20


def test_each_event_has_what_the_standard_asks_for_once(tmp_path: Path) -> None:
    """3.6.1: UID and DTSTAMP are required, and a UID is nobody else's."""
    events = properties(unfolded(van(tmp_path)))
    uids = [event["UID"] for event in events]
    assert len(set(uids)) == len(uids)
    for event in events:
        assert re.fullmatch(r"\d{8}T\d{6}Z", event["DTSTAMP"])
        assert re.fullmatch(r"\d{8}(T\d{6}Z)?", event["DTSTART"])
        assert event["SUMMARY"]


def test_a_work_day_stands_in_utc_where_the_shop_has_a_zone(tmp_path: Path) -> None:
    events = {event["UID"]: event for event in properties(unfolded(van(tmp_path)))}
    day = events["2026-05-09-work-day@crewboard.invalid"]
    opens = datetime(2026, 5, 9, 9, tzinfo=ZoneInfo("CET")).astimezone(ZoneInfo("UTC"))
    assert day["DTSTART"] == f"{opens:%Y%m%dT%H%M%SZ}" == "20260509T070000Z"
    assert day["DTEND"] == "20260509T140000Z"
    floating = properties(unfolded(van(tmp_path / "b", timezone=False)))
    assert floating[0]["DTSTART"] == "20260502T090000"


def test_a_hold_and_a_delivery_stand_at_their_end(tmp_path: Path) -> None:
    events = {event["UID"]: event for event in properties(unfolded(van(tmp_path)))}
    hold = events["k7f3q2mn-hold@crewboard.invalid"]
    ends = AT.replace(hour=15, minute=0) + timedelta(hours=36, days=1)  # extended by a day
    assert hold["DTSTART"] == f"{ends - timedelta(hours=2):%Y%m%dT%H%M%SZ}"
    assert hold["SUMMARY"] == 'Due for a look: "Prime the sills"'
    oak = events["oak-delivery@crewboard.invalid"]
    assert (oak["DTSTART"], oak["DTEND"]) == ("20260520", "20260521")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("a;b,c\\d", "a\\;b\\,c\\\\d"),
        ("two\nlines", "two\\nlines"),
        ("two\r\nlines", "two\\nlines"),
        ("END:VCALENDAR", "END:VCALENDAR"),
        ("x\r\nATTACH:evil", "x\\nATTACH:evil"),
        ("\x1b[31m", "␛[31m"),
    ],
)
def test_a_text_is_escaped_as_the_standard_says(text: str, value: str) -> None:
    """3.3.11; a line break in a name begins no new property."""
    assert escaped(text) == value


@given(st.text())
@cases(200, 5_000)
def test_any_text_comes_back_from_the_file_as_it_is_shown(text: str) -> None:
    line = folded(f"SUMMARY:{escaped(text)}")
    assert all(len(each.encode()) <= 75 for each in line.split("\r\n"))
    back = line.replace("\r\n ", "").removeprefix("SUMMARY:")
    plain = re.sub(r"\\(.)", lambda m: {"n": "\n"}.get(m[1], m[1]), back, flags=re.DOTALL)
    shown = legible(text.replace("\r\n", "\n"), lines=True).replace("\t", " ")
    assert plain == shown


def shop(root: Path, timezone: str, lasts: str) -> Path:
    """A shop where a coat dries, on a task whose title has a colon in it."""
    frame = (
        'name = "Frame"\n\n[tasks.coat]\ntitle = "Second coat: sills, posts"\n'
        f'hold = {{ kind = "dry", lasts = "{lasts}" }}\n\n'
        '[tasks.next]\ntitle = "Rub down"\nafter = ["coat"]\n'
    )
    make_shop(root, components={"frame": frame})
    vehicle = root / "vehicle.toml"
    vehicle.write_text(f'timezone = "{timezone}"\n' + vehicle.read_text())
    return root


def of_hold(shell: Shell, root: Path, at: str) -> dict[str, str]:
    printed = shell("report", "calendar", root, "--at", at).out.replace("\r\n", "\n")
    lines = unfolded(printed.replace("\n", "\r\n"))
    (hold,) = [event for event in properties(lines) if "-hold@" in event["UID"]]
    return hold


def test_a_title_with_a_colon_stands_whole_in_the_calendar(tmp_path: Path, shell: Shell) -> None:
    root = shop(tmp_path / "van", "UTC", "2 days")
    shell("finish", root, "coat", *DONE, "--at", "2026-05-02T10:00", "--by", "ada")
    summary = of_hold(shell, root, "2026-05-02T11:00")["SUMMARY"]
    assert summary == 'Hold ends: "Second coat: sills\\, posts"'


def test_of_an_hour_that_comes_twice_the_calendar_takes_the_later_as_the_board_does(
    tmp_path: Path, shell: Shell
) -> None:
    """The clocks go back on 25 October 2026: 02:30 comes twice, and the hold runs to the second."""
    root = shop(tmp_path / "van", "Europe/Vienna", "1 day")
    shell("finish", root, "coat", *DONE, "--at", "2026-10-24T02:30", "--by", "ada")
    (hold,) = shell("holds", root, "--at", "2026-10-24T09:00", "--json").form["holds"]
    assert hold["until"] == "2026-10-25T02:30:00"
    assert of_hold(shell, root, "2026-10-24T09:00")["DTSTART"] == "20261025T013000Z"


def test_a_hold_whose_clock_stands_still_says_so_in_the_calendar(
    tmp_path: Path, shell: Shell
) -> None:
    root = shop(tmp_path / "van", "UTC", "4 days")
    frame = root / "components" / "frame.toml"
    warm = frame.read_text().replace('"4 days" }', '"4 days", conditions = { at_least_c = 10 } }')
    frame.write_text(warm)
    at = "2026-05-02T12:00"
    shell("finish", root, "coat", *DONE, "--at", "2026-05-02T10:00", "--by", "ada")
    shell("reading", root, "--celsius", "4", "--at", at)
    (hold,) = shell("holds", root, "--at", at, "--json").form["holds"]
    event = of_hold(shell, root, at)
    assert event["SUMMARY"].startswith(
        'Hold ends at the earliest (stopped: too cold): "Second coat'
    )
    assert event["DTSTART"] == f"{datetime.fromisoformat(hold['until']):%Y%m%dT%H%M%SZ}"
    assert "stopped: too cold" in event["DESCRIPTION"]
