"""The quick ways of reading a day's file say what the slow ones say."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.read.day_file import decode_day, entry_of, usual_entry
from crewboard.folder.read.table import Table
from crewboard.folder.read.usual_day import usual_day
from crewboard.folder.toml.day import plain_day
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.text import BrokenText
from tests.long_form import cases

_WORDS = st.text(st.sampled_from('abz 09-_=,{}[]"\\#\n\té\u202e'), max_size=8)


_SPELLED = st.one_of(
    _WORDS.map(lambda text: f'"{text}"'),
    st.sampled_from(["true", "false", "0", "007", "3.50", "-1", "1e3", "1_000", "inf", "'x'"]),
    st.sampled_from(["2026-05-02T09:00:00", "2026-02-30", "2026-05-02", "09:00:00", "٣"]),
    st.lists(_WORDS.map(lambda text: f'"{text}"'), max_size=3).map(lambda t: f"[{', '.join(t)}]"),
)


_KEYS = st.sampled_from(["at", "by", "kind", "who", "hours", "task", "note", "crew", "x"])


_LINES = st.tuples(
    st.sampled_from(["k7f3q2mh", "abc", "entries", "k.x", '"q"', "9"]),
    st.lists(st.tuples(_KEYS, _SPELLED), min_size=0, max_size=5),
).map(lambda line: f"{line[0]} = {{ {', '.join(f'{k} = {v}' for k, v in line[1])} }}")


@given(st.lists(st.one_of(_LINES, st.sampled_from(["", "# a", "[x]", "y = 1", " "])), max_size=4))
@cases(300, 20_000)
def test_a_plain_day_reads_as_the_toml_reader_reads_it(lines: list[str]) -> None:
    text = "date = 2026-05-02\n\n[entries]\n" + "".join(line + "\n" for line in lines)
    plain = plain_day(text)
    assert plain is None or plain == parse_text(text)


_DATED = st.tuples(
    st.sampled_from(["k7f3q2mh", "abc", "9"]),
    st.sampled_from(["2026-05-02T09:00:00", "0206-05-02T09:00:00", "2026-02-30T09:00:00"]),
    st.sampled_from(["sign-in", "hours", "note", "begin", "nonsense"]),
    st.lists(st.tuples(_KEYS, _SPELLED), max_size=3),
).map(
    lambda line: (
        f'{line[0]} = {{ at = {line[1]}, kind = "{line[2]}"'
        + "".join(f", {key} = {value}" for key, value in line[3])
        + " }"
    )
)


@given(st.lists(st.one_of(_DATED, _DATED, _LINES, st.just("# a")), max_size=3))
@cases(300, 20_000)
def test_a_day_without_mistakes_reads_as_it_does_line_by_line(lines: list[str]) -> None:
    text = "date = 2026-05-02\n\n[entries]\n" + "".join(line + "\n" for line in lines)
    usual = usual_day(date(2026, 5, 2), text.encode())
    if usual is not None:
        values = parse_text(text)
        assert not isinstance(values, BrokenText)
        assert decode_day(date(2026, 5, 2), values) == (usual, [])
    assert usual_day(date(2026, 5, 3), text.encode()) is None


def test_most_days_of_the_sample_are_read_the_quick_way() -> None:
    days = sorted((Path(__file__).parents[2] / "sample_project/days").rglob("*.toml"))
    usual = 0
    for path in days:
        text, day = path.read_text(encoding="utf-8"), date.fromisoformat(path.stem)
        values = parse_text(text)
        assert not isinstance(values, BrokenText)
        if (read := usual_day(day, text.encode())) is not None:
            usual += 1
            assert decode_day(day, values) == (read, [])
    assert usual > 0.8 * len(days)


def test_the_days_of_the_sample_are_plain() -> None:
    days = sorted((Path(__file__).parents[2] / "sample_project/days").rglob("*.toml"))
    plain = [plain_day(path.read_text(encoding="utf-8")) for path in days]
    assert sum(each is not None for each in plain) > 0.8 * len(days)
    for path, each in zip(days, plain, strict=True):
        assert each is None or each == parse_text(path.read_text(encoding="utf-8"))


_VALUES = st.one_of(
    st.sampled_from(["", " ", "ada", "hours", "sign-in", "check", "finished", "expected"]),
    st.booleans(),
    st.integers(-5, 20_000),
    st.floats(),
    st.datetimes(),
    st.lists(st.just("ada"), max_size=2),
)


@given(st.dictionaries(_KEYS, _VALUES), st.sampled_from(["hours", "sign-in", "check", "finished"]))
@cases(300, 20_000)
def test_a_usual_line_is_taken_as_the_long_way_takes_it(
    values: dict[str, object], kind: str
) -> None:
    values = {"at": datetime(2026, 5, 2, 9), **values, "kind": kind}
    quick = usual_entry("k7f3q2mh", values)
    misfits: list[object] = []
    slow = entry_of("k7f3q2mh", Table(values, (), misfits))  # type: ignore[arg-type]
    if quick is not None:
        assert misfits == []
        assert quick == slow
    day, told = decode_day(datetime(2026, 5, 2).date(), {"entries": {"k7f3q2mh": values}})
    assert day is not None
    assert len(day.entries) == (0 if told else 1)
