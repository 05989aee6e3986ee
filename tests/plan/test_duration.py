"""How long a hold lasts, as people write it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.plan.duration import Duration, NotADuration, parse_duration, spoken
from tests.long_form import cases

A_HUNDRED_YEARS = 1200  # months; what a hold may last at most
durations = st.builds(
    Duration,
    st.integers(0, A_HUNDRED_YEARS),
    st.integers(0, 5000),
    st.integers(0, 500_000),
).filter(lambda span: span != Duration())


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("1 month", Duration(months=1)),
        ("36 hours", Duration(minutes=36 * 60)),
        ("90 min", Duration(minutes=90)),
        ("2 days", Duration(days=2)),
        ("1 week 2 days", Duration(days=9)),
        ("1.5 hours", Duration(minutes=90)),
        ("1 year, 2 months and 3 days", Duration(months=14, days=3)),
        ("6 WEEKS", Duration(days=42)),
        ("8h", Duration(minutes=480)),
        ("20 mins.", Duration(minutes=20)),
        ("2d", Duration(days=2)),
        ("1mo", Duration(months=1)),
        ("6 wks", Duration(days=42)),
    ],
)
def test_a_time_span_reads_as_people_write_it(written: str, meant: Duration) -> None:
    assert parse_duration(written) == meant


@pytest.mark.parametrize(
    "written",
    ["", "soon", "0 days", "-2 days", "1.5 days", "0.5 months", "3 fortnights", "36", "2 days!",
     "1201 months", "99999 weeks", "1 day 0.5 weeks", "3 m", "٣ days", "1e3 hours"],
)  # fmt: skip
def test_what_is_no_time_span_is_refused_with_a_sentence(written: str) -> None:
    with pytest.raises(NotADuration) as refused:
        parse_duration(written)
    assert len(str(refused.value)) > 20


@cases(150, 20_000)
@given(durations)
def test_what_is_spoken_reads_back_to_the_same_span(span: Duration) -> None:
    assert parse_duration(spoken(span)) == span
    assert spoken(parse_duration(spoken(span))) == spoken(span)


@cases(150, 20_000)
@given(st.text(max_size=40))
def test_no_text_whatever_breaks_the_reading(text: str) -> None:
    try:
        span = parse_duration(text)
    except NotADuration:
        return
    assert span != Duration()
    assert min(span) >= 0
