"""Lines of the record that are read when somebody asks say what they say when read at once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.read.day_file import decode_day, entry_fields
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.usual_day import usual_day
from crewboard.folder.toml.append import entry_line
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.text import BrokenText
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.waiting import files_waiting
from tests.folder.a_vehicle import make
from tests.long_form import cases

DAY = date(2026, 5, 2)
AT = "2026-05-02T09:00:00"
IDS = ["aaa", "bbb", "ccc", "ddd"]
_WORDS = st.text(st.sampled_from("ab ,={}[]#'é\u202e"), max_size=6)
_TEXTS = st.one_of(
    _WORDS, _WORDS, st.sampled_from(["", " ", '\\"', "\\u0041", "\t", "\x7f", ", seen = ", *IDS])
).map(lambda text: f'"{text}"')
_VALUES = st.one_of(
    _TEXTS,
    _TEXTS,
    st.lists(_TEXTS, max_size=3).map(lambda texts: f"[{', '.join(texts)}]"),
    st.sampled_from(
        ['"spliced"', '"made up"', '"discarded"', '"2 m"', '"1 3"', "true", "80", "180"]
    ),
    st.sampled_from(
        ["2026-05-02T10:15:00", "2026-02-30T10:15:00", "2026-05-02T24:00:00", "0206-05-02T10:00:00"]
    ),
)
KINDS = [kind for kind in KINDS_OF_ENTRY.values() if kind.of_record]
_KEYS = sorted({field.name for kind in KINDS for field in kind.fields})
_AT = [AT, AT, "2026-05-03T09:00:00", "2026-05-02T25:00:00"]


@st.composite
def _lines_of_record(draw: st.DrawFn) -> str:
    kind = draw(st.sampled_from(KINDS))
    likely = [field.name for field in kind.fields]
    keys = [field.name for field in kind.fields if field.needed]
    keys += draw(st.lists(st.sampled_from([*likely, *likely, *likely, *_KEYS]), max_size=3))
    pairs = [("kind", f'"{kind.word}"')] + [(key, draw(_VALUES)) for key in keys]
    pairs += draw(
        st.lists(st.tuples(st.just("written"), st.just("2026-05-03T20:00:00")), max_size=1)
    )
    pairs += draw(
        st.lists(
            st.tuples(st.sampled_from(["replaces", "despite", "by", "at"]), _TEXTS), max_size=1
        )
    )
    return ", ".join(f"{key} = {value}" for key, value in pairs)


_OF_WORK = st.sampled_from(IDS).flatmap(
    lambda named: st.sampled_from(
        [
            f'kind = "taken back", entry = "{named}"',
            f'kind = "note", text = "x", replaces = "{named}"',
            f'kind = "found", seen = "y", replaces = "{named}"',
            'kind = "note", text = "z", task = "frame/a"',
            'kind = "found", seen = "w", component = "deck"',
        ]
    )
)
_DAYS = st.lists(
    st.tuples(
        st.sampled_from([*IDS, *IDS, "A.b"]),
        st.sampled_from(_AT),
        st.one_of(_lines_of_record(), _OF_WORK),
    ),
    max_size=4,
    unique_by=lambda line: line[0],
)


def as_text(lines: list[tuple[str, str, str]]) -> str:
    written = (f"{entry_id} = {{ at = {at}, {rest} }}\n" for entry_id, at, rest in lines)
    return f"date = {DAY}\n\n[entries]\n" + "".join(written)


def asked(day: Day, what: str) -> object:
    value = getattr(day, what)
    return value() if callable(value) else value


def read_at_once(text: str) -> Day:
    values = parse_text(text)
    assert not isinstance(values, BrokenText), text
    day, misfits = decode_day(DAY, values)
    assert misfits == [], text
    assert day is not None
    return day


@given(_DAYS, st.permutations(["counting", "record", "all_counting", "ids", "named", "fate"]))
@cases(150, 40_000)
def test_a_day_says_the_same_whether_its_record_was_put_off_or_read_at_once(
    lines: list[tuple[str, str, str]], order: list[str]
) -> None:
    text = as_text(lines)
    day = usual_day(DAY, text.encode())
    if day is None:
        return
    at_once = read_at_once(text)
    for what in order:  # whatever is asked for first
        assert asked(day, what) == asked(at_once, what)
    assert day.entries == at_once.entries
    assert day == at_once


_FILES = st.sampled_from(['"pictures/a.jpg"', '"pictures/b.jpg"'])
_OF_FILES = st.one_of(
    _FILES.map(lambda file: f'kind = "taken in", file = {file}'),
    _FILES.map(lambda file: f'kind = "picture", file = {file}'),
    _FILES.map(lambda file: f'kind = "found", seen = "x", pictures = ["pictures/c.jpg", {file}]'),
    _OF_WORK,
)


@given(st.lists(st.tuples(st.sampled_from(_AT), _OF_FILES), max_size=4))
@cases(100, 10_000)
def test_the_same_files_wait_whether_the_record_was_put_off_or_read_at_once(
    lines: list[tuple[str, str]],
) -> None:
    text = as_text([(name, *line) for name, line in zip(IDS, lines, strict=False)])
    if usual_day(DAY, text.encode()) is None:
        return
    at_once = Logbook({DAY: read_at_once(text)})
    for at in ("2026-05-01T12:00", "2026-05-02T08:00", "2026-05-02T12:00", "2026-05-04T12:00"):
        moment, day = datetime.fromisoformat(at), usual_day(DAY, text.encode())
        assert day is not None
        assert files_waiting(Logbook({DAY: day}), moment) == files_waiting(at_once, moment)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.word.replace(" ", "-"))
def test_a_wrong_line_of_a_form_that_is_known_is_found_out_at_once(kind: KindOfEntry) -> None:
    right = written_out(kind)
    put_off(right)  # at the latest now its form is known
    assert put_off(right) == read_at_once(as_text([("aaa", AT, right)]))
    for wrong in wrongs(right):
        text = as_text([("aaa", AT, wrong)])
        values = parse_text(text)
        day = usual_day(DAY, text.encode())
        if isinstance(values, BrokenText) or decode_day(DAY, values)[1]:
            assert day is None, wrong
        elif day is not None:
            assert day == decode_day(DAY, values)[0]


def written_out(kind: KindOfEntry) -> str:
    """A line of the kind with something in each of its fields."""
    filled = {"flag": True, "number": 80.0, "moment": datetime(2026, 5, 1, 12)}
    fields = {
        field.name: field.words[0]  # type: ignore[index]
        if field.kind == "one of"
        else filled.get(field.kind, ("one", "two") if field.many else "2 m")
        for field in kind.fields
    }
    entry = Entry(
        "aaa", datetime(2026, 5, 2, 9), kind.act(**fields), "ada", datetime(2026, 5, 3, 20)
    )
    return entry_line("aaa", entry_fields(entry)).partition(f"at = {AT}, ")[2].removesuffix(" }")


def wrongs(right: str) -> Iterator[str]:
    """The line with one thing changed: each text, each key, each sign of it."""
    for text in set(re.findall(r'"[^"]*"', right)):
        for other in ('""', '" "', '"nonsense"', "true", "1", "[1]", '"\\\\"', '"\x07"', '"a" "b"'):
            yield right.replace(text, other, 1)
            yield other.join(right.rsplit(text, 1))
    for pair in re.findall(r"[a-z_]+ = [^ ]+", right):
        key = pair.partition(" ")[0]
        yield f"{right}, {pair.rstrip(',')}"
        yield right.replace(f"{key} =", f"{key}x =", 1)
        yield right.replace(f"{key} =", "at =", 1)
    for moment in ("2026-05-03T24:00:00", "2026-02-30T20:00:00", "0206-05-03T20:00:00"):
        yield right.replace("2026-05-03T20:00:00", moment)
    for place in range(len(right)):
        yield right[:place] + right[place + 1 :]


def put_off(rest: str) -> Day | None:
    """The day of this line where the line is put off, None where it is read at once."""
    day = usual_day(DAY, as_text([("aaa", AT, rest)]).encode())
    assert day is not None
    return day if day.put_off is not None else None


def test_a_finding_that_corrects_a_note_takes_its_place_also_where_its_form_is_known() -> None:
    note = ("aaa", AT, 'kind = "note", text = "soft at the foot"')
    finding = ("bbb", AT, 'kind = "found", seen = "soft at the foot", replaces = "aaa"')
    for _ in range(2):
        day = usual_day(DAY, as_text([note, finding]).encode())
        assert day is not None
        assert day.counting == ()
        assert [entry.id for entry in day.record] == ["aaa"]


def test_a_finding_that_was_put_off_can_be_corrected_and_taken_back() -> None:
    finding = ("aaa", AT, 'kind = "found", seen = "soft at the foot"')
    another = ("bbb", AT, 'kind = "found", seen = "hard at the head"')
    corrected = ("ccc", AT, 'kind = "found", seen = "sound at the foot", replaces = "aaa"')
    taken_back = ("ddd", AT, 'kind = "taken back", entry = "bbb"')
    for _ in range(2):
        day = usual_day(DAY, as_text([finding, another, corrected, taken_back]).encode())
        assert day is not None
        assert day.counting == ()
        assert [entry.id for entry in day.record] == ["aaa"]
        assert day.fate() == {"aaa": "ccc", "bbb": "ddd"}


def test_a_day_that_only_the_work_is_asked_of_never_reads_its_record() -> None:
    lines = [("aaa", AT, 'kind = "found", seen = "soft", component = "deck"')]
    lines += [("bbb", AT, 'kind = "note", text = "x", task = "frame/a"')]
    usual_day(DAY, as_text(lines).encode())
    day = usual_day(DAY, as_text(lines).encode())
    assert day is not None
    assert [entry.id for entry in (*day.counting, *day.events)] == ["bbb", "bbb"]
    assert day.named == {"deck", "frame/a"}
    assert day.ids == {"aaa", "bbb"}
    assert day.put_off is not None
    assert len(day.entries) == 2


def test_a_finding_that_cannot_be_read_holds_no_work_back(tmp_path: Path) -> None:
    root = make(tmp_path / "van")
    with (root / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        day.write(f'zzwrong2 = {{ at = {AT}, kind = "found", seen = true }}\n')
    folder = Folder(root)
    assert [fault.code for fault in folder.faults] == ["wrong-type"]
    assert folder.unreadable == ()
