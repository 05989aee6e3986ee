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
from crewboard.paper.calendar import calendar, escaped, folded
from tests.folder.a_vehicle import FILES, make
from tests.long_form import cases

AT = datetime(2026, 5, 2, 15, 30)


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
    return calendar(assess(folder.plan, folder.logbook, AT))


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
    assert hold["SUMMARY"] == "Hold ends: Prime the sills"
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
