"""Each gate of the program by name, and how a test switches it off in one place."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from crewboard.order.may import ask, moment, party
from crewboard.order.safety import closing, rests_on_it, signatures, signing

# Good practice asks, and no danger comes of it: the air, the room of a place, what is temporary.
PRACTICE = ("_air", "_room", "_temporary")
RULES = tuple(r.__name__ for r in moment.RULES if r.__name__ not in PRACTICE)
ASKED = (
    "unsigned", "not_opened", "ends_late", "too_young", "of_unknown_age", "without_certificate",
    "not_here", "left_by", "unnamed",
)  # fmt: skip
PARTY = ("_too_few", "_nobody_watches", "_no_adult_beside")
CLOSING = ("close_refusals", "_who_stays", "leave_refusals")
SIGNING = ("may_answer_for", "signed_for_themselves", "is_waived")
GATES = (*RULES, *ASKED, *PARTY, *CLOSING, *SIGNING, "undermined")


def nothing(*_: Any, **__: Any) -> Iterator[Any]:
    return iter(())


def switch_off(gate: str, patch: pytest.MonkeyPatch) -> None:
    """Take the gate out of the program."""
    if gate in RULES:
        patch.setattr(moment, "RULES", [r for r in moment.RULES if r.__name__ != gate])
    elif gate in ASKED:
        patch.setattr(ask, gate, nothing)
    elif gate in PARTY:
        patch.setattr(party, gate, nothing)
    elif gate in CLOSING:
        patch.setattr(closing, gate, lambda *_, **__: [])
    elif gate == "undermined":
        patch.setattr(rests_on_it, gate, lambda *_: [])
    else:
        answer = gate != "signed_for_themselves"
        patch.setattr(signatures, gate, lambda *_, **__: answer)
        patch.setattr(signing, "sign_refusals", lambda *_: [])
