"""The fields of the hold that follows a task."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.plan.hold import Conditions, Hold
from crewboard.plan.units import as_kept, bare, unit_here
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.picked import OneOf
from crewboard.terminal.forms.reading import Wrong, span, typed_number
from crewboard.terminal.planning.choices import RELEASES, kind_choices

_CONDITIONS = (
    Choice("shop", "the shop's", "as the vehicle's file says for the whole shop"),
    Choice("own", "its own", "as written in the two lines below"),
)


def hold_fields(hold: Hold | None, written: dict[str, Any], units: str) -> list[Field]:
    """`written` is the hold's table as it stands in the file; degrees are in the crew's units."""
    shops = written.get("conditions") == "shop"
    limits = hold.conditions if hold is not None and not shops else Conditions()
    conditions = "shop" if shops else "own" if limits else ""
    lasts = str(written.get("lasts", ""))
    release = str(written.get("release", ""))
    return [
        OneOf(("hold", "kind"), "kind", hold.kind if hold else "", kind_choices),
        Typed(("hold", "lasts"), "lasts", lasts, span, "36 hours, 2 days, 1 month"),
        OneOf(("hold", "release"), "ends", release, lambda: RELEASES),
        YesNo(("hold", "leave_alone"), "leave alone", bool(hold and hold.leave_alone)),
        OneOf(("hold", "conditions"), "counts only in", conditions, lambda: _CONDITIONS),
        degrees_range(("hold", "c"), "  {} from-to", limits[:2], units),
        Typed(
            ("hold", "humidity"), "  humidity %", typed_range(limits[2:]), read_range, "-85, 30-70"
        ),
        Typed(("hold", "note"), "note", hold.note if hold else ""),
        Typed(
            ("hold", "source"),
            "source of time",
            hold.source if hold else "",
            hint="the label, the book, the shop's own practice",
        ),
    ]


def hold_answered(fields: Sequence[Field]) -> dict[str, Any] | None:
    """The whole hold as its fields say it now; None: no hold follows. Raises Wrong."""
    answers = {field.key[1]: field.answer() for field in fields}
    if not answers["kind"]:
        return None
    warm, damp = answers.pop("c"), answers.pop("humidity")
    if answers["conditions"] == "own" or (warm + damp).count(None) < 4:
        answers["conditions"] = Conditions(*warm, *damp) or None
    return {key: value for key, value in answers.items() if value is not None}


def read_range(typed: str) -> tuple[float | None, float | None]:
    """ "10-25", "10-", "-25", "10 to 25"; below nought as "−5-10" or "-5 to 10"."""
    if not typed.strip():
        return None, None
    number = r"([-−]?\d+(?:[.,]\d+)?)"
    words = re.fullmatch(rf"\s*{number}\s+to\s+{number}\s*", typed)
    match = words or re.fullmatch(
        r"\s*([−]?\d+(?:[.,]\d+)?)?\s*[-–]\s*([−]?\d+(?:[.,]\d+)?)?\s*", typed
    )
    if match is None or not any(match.groups()):
        raise Wrong(f'"{typed}": write from-to, such as 10-25, 10- or -25')
    low, high = (
        float(limit.replace("−", "-").replace(",", ".")) if limit else None
        for limit in match.groups()
    )
    return low, high


def degrees_range(key: Key, label: str, limits: Sequence[float | None], units: str) -> Typed:
    """The field of two temperatures, shown and typed in the crew's units, kept in °C."""
    shown = typed_range([_typed_degrees(limit, units) for limit in limits])

    def read(typed: str) -> tuple[float | None, float | None]:
        if typed == shown:  # not typed: not rounded either
            return limits[0], limits[1]
        low, high = (
            None if limit is None else as_kept(typed_number(limit), "°C", units)
            for limit in read_range(typed)
        )
        return low, high

    hint = "50-77, 50-, -77" if units == "imperial" else "10-25, 10-, -25"
    return Typed(key, label.format(unit_here("°C", units)), shown, read, hint)


def _typed_degrees(celsius: float | None, units: str) -> float | None:
    return None if celsius is None else float(bare(celsius, "°C", units))


def typed_range(limits: Sequence[float | None]) -> str:
    """Two limits as `read_range` reads them."""
    if limits[0] is None and limits[1] is None:
        return ""
    low, high = (typed_number(limit).replace("-", "−") for limit in limits)
    return f"{low}-{high}"
