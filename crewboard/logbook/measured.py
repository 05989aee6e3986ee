"""A length and how exactly it is known, typed in two fields or in one, each with its unit."""

from typing import Any

from crewboard.logbook.acts import Act
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.plan.length import give_or_take, length


def as_typed(field: EntryField, typed: str, units: str) -> str:
    """What was typed for a field that is a length, as it is kept. Raises Unread. Where another is
    read together with it, the unit may still be missing: `with_units` puts it there."""
    if not field.beside:
        return length(typed, units).text
    give_or_take(typed, "", units)
    return typed.strip()


def with_units(act: Act, units: str) -> Act:
    """The entry with the unit of each length that is read together with how exactly it is known.
    Raises Unread."""
    for field in fields_of(type(act)):
        if field.beside and field.needed:
            said = getattr(act, field.beside)
            measured, exactly = give_or_take(getattr(act, field.name), said, units)
            texts: dict[str, Any] = {
                field.name: measured.text,
                field.beside: exactly.text if exactly else "",
            }
            act = act._replace(**texts)
    return act
