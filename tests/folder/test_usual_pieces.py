"""The quick way of reading a table of one piece says what the long one says."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.read import piece_tables
from crewboard.folder.read.component_file import decode_component
from crewboard.plan.piece import Piece
from tests.long_form import cases

_TABLES = st.dictionaries(
    st.sampled_from([*Piece._fields, "count", "spares", "part", "x", "2"]),
    st.one_of(
        st.sampled_from(["", " ", "pine", "original", "2.4 m", "0 m2", "1 3", "2,400 m", "٣ m"]),
        st.booleans(),
        st.integers(-1, 3),
        st.just(["a.jpg"]),
        st.just({"keep": True}),
    ),
    max_size=4,
)


@given(st.dictionaries(st.sampled_from(["rib", "a b", "rib.x", "9"]), _TABLES, max_size=2))
@cases(150, 20_000)
def test_a_usual_piece_is_taken_as_the_long_way_takes_it(tables: dict[str, object]) -> None:
    values = {"name": "Frame", "pieces": tables}
    quick = decode_component("frame", values)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(piece_tables, "_usual", lambda *_: None)
        assert quick == decode_component("frame", values)


@given(st.one_of(st.text(st.sampled_from("0123.,/ mc²³2"), max_size=8), st.text(max_size=4)))
@cases(200, 20_000)
def test_an_extent_is_known_without_reckoning_only_where_it_is_one(written: str) -> None:
    from crewboard.plan.as_typed import Unread
    from crewboard.plan.extent import extent

    try:
        extent(written)
    except Unread:
        assert not piece_tables.is_extent(written)
    else:
        assert piece_tables.is_extent(written)
