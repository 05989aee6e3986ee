"""Days played at random: nothing dangerous goes on that the second reading would not have let in.

The short form plays a few; CREWBOARD_LONG=1 many hundreds. `CREWBOARD_FOLDERS` sets how many.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import run_state_machine_as_test

from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from tests.safety_machine.machine import Days, drawn_act
from tests.safety_machine.settings import PLAYED


def test_no_days_of_any_kind_let_dangerous_work_go_on() -> None:
    run_state_machine_as_test(Days, settings=PLAYED)


@pytest.mark.parametrize("kind", KINDS_OF_ENTRY.values(), ids=lambda kind: kind.word)
@settings(max_examples=1, database=None)
@given(data=st.data())
def test_every_kind_of_entry_is_among_what_is_played(
    kind: KindOfEntry, data: st.DataObject
) -> None:
    assert isinstance(drawn_act(kind, data, []), kind.act)
