"""Why a change of the plan is not made."""

from __future__ import annotations

from crewboard.order.refusal import Refusal


class CannotChange(ValueError):
    """The change is refused, with its reasons; nothing was written."""

    def __init__(self, *refusals: Refusal) -> None:
        super().__init__("; ".join(map(str, refusals)))
        self.refusals = refusals


def cannot(code: str, says: str, mend: str = "") -> CannotChange:
    """One reason, ready to be raised."""
    return CannotChange(Refusal(code, says, mend))
