"""One act said of several tasks or pieces: an entry for each, hours divided equally."""

from collections.abc import Sequence
from typing import Any

from crewboard.logbook.acts import Act
from crewboard.logbook.fields import fields_of

_HUNDREDTHS = 100


def on_tasks(act: Act, tasks: Sequence[str]) -> list[Act]:
    """The act on each of these tasks. Person-hours that were said of all of them together are
    divided equally, so that the sum is what was said."""
    several: Any = act
    each = [several._replace(task=task) for task in tasks]
    hours = [field.name for field in fields_of(type(act)) if field.kind == "hours"]
    for name in hours:
        parts = shares(getattr(act, name), len(tasks))
        each = [one._replace(**{name: part}) for one, part in zip(each, parts, strict=True)]
    return each


def on_pieces(act: Act, pieces: Sequence[str]) -> list[Act]:
    """The act on each of these pieces; as it is where none is named."""
    several: Any = act
    return [several._replace(piece=piece) for piece in pieces] or [act]


def shares(hours: float, count: int) -> list[float]:
    """Hours in equal parts, to the hundredth where that goes: 5 h over three are 1.67, 1.67 and
    1.66."""
    whole = round(hours * _HUNDREDTHS)
    if abs(whole - hours * _HUNDREDTHS) > 1e-6 or whole < count:
        return [hours / count] * count
    part, over = divmod(whole, count)
    return [(part + (number < over)) / _HUNDREDTHS for number in range(count)]
