"""How often the logbook names something of the plan: what it names keeps its name."""

from __future__ import annotations

from crewboard.logbook.acts import Act
from crewboard.logbook.logbook import Logbook

# The fields of an act that hold ids, for each thing of the plan.
_FIELDS = {
    "component": ("component", "task"),
    "part": ("component",),
    "task": ("task",),
    "person": ("who", "crew", "seen_by"),
    "supply": ("supply",),
}


def times_named(logbook: Logbook, thing: str, some_id: str) -> int:
    """The lines of all days that name it; of a component, those that name its tasks as well."""
    inside = f"{some_id}/" if thing == "component" else None
    return sum(
        (thing == "person" and entry.by == some_id)
        or any(
            name == some_id or (inside is not None and name.startswith(inside))
            for name in _names(entry.act, _FIELDS[thing])
        )
        for day in logbook.days.values()
        for entry in day.entries
    )


def _names(act: Act, fields: tuple[str, ...]) -> list[str]:
    found: list[str] = []
    for field in fields:
        value = getattr(act, field, "")
        found += [value] if isinstance(value, str) else list(value)
    return found
