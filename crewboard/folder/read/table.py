"""Typed reading of a TOML table that collects every mistake instead of stopping at the first.

A value of the wrong type is told and replaced by the default, so that the rest of the file still
counts. A key that nobody asked for is told with the nearest right name.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime, time
from typing import Any

from crewboard.folder.read.fault import KeyPath, Misfit, nearest
from crewboard.folder.read.files import HINT, is_id
from crewboard.plan.clock import year_amiss
from crewboard.plan.duration import Duration, NotADuration, parse_duration

_NEAREST = 200  # unknown keys of a table for which the nearest right one is looked for

_SPOKEN: dict[type, str] = {
    str: "a text",
    bool: "true or false",
    int: "a number",
    float: "a number",
    list: "a list",
    dict: "a table",
    date: "a date",
    time: "a time",
    datetime: "a date and time",
}


def spoken_type(value: object) -> str:
    """What a TOML value is, in plain words."""
    return _SPOKEN.get(type(value), "a value")


class Table:
    """One table of a file. Each reading method takes the key out; `done()` tells what is left."""

    __slots__ = ("_asked", "misfits", "path", "values")

    def __init__(self, values: Mapping[str, Any], path: KeyPath, misfits: list[Misfit]) -> None:
        self.values = values
        self.path = path
        self.misfits = misfits
        self._asked: list[str] = []

    def __contains__(self, key: str) -> bool:
        return key in self.values

    def tell(self, key: str | int | None, code: str, sentence: str, hint: str = "") -> None:
        """Note a mistake at the key, or at the table itself."""
        path = self.path if key is None else (*self.path, key)
        self.misfits.append(Misfit(path, code, sentence, hint))

    def well_named(self) -> bool:
        """Whether the table's own name may be a short name; where it may not, that is told."""
        name = str(self.path[-1])
        if is_id(name):
            return True
        self.tell(None, "bad-id", f'"{name}" cannot be a short name', HINT)
        return False

    def _take(self, key: str) -> Any:
        self._asked.append(key)
        return self.values.get(key)

    def _wrong(self, key: str, value: object, wanted: str) -> None:
        self.tell(key, "wrong-type", f'"{key}" is {spoken_type(value)}', f"write {wanted}")

    def text(self, key: str, default: str = "", *, needed: bool = False) -> str:
        value = self._take(key)
        if isinstance(value, str):
            if needed and not value.strip():
                self.tell(key, "empty", f'"{key}" is empty', "write a name")
            return value
        if value is not None:
            self._wrong(key, value, f'a text in quotes, such as {key} = "..."')
        elif needed:
            self.tell(None, "missing", f'"{key}" is missing here', f'add {key} = "..."')
        return default

    def flag(self, key: str, default: bool = False) -> bool:
        value = self._take(key)
        if isinstance(value, bool):
            return value
        if value is not None:
            self._wrong(key, value, "true or false, without quotes")
        return default

    def number(
        self, key: str, *, least: float | None = None, most: float | None = None
    ) -> float | None:
        value = self._take(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int | float):
            self._wrong(key, value, "a number without quotes")
            return None
        # TOML knows nan and inf, and whole numbers of any length.
        if value != value or abs(value) > 1e300:
            self.tell(key, "not-a-number", f'"{key}" is no finite number', "write a number")
            return None
        if (least is not None and value < least) or (most is not None and value > most):
            span = f"at least {least:g}" if most is None else f"from {least or 0:g} to {most:g}"
            self.tell(key, "out-of-range", f'"{key}" is {value:g}', f"write a number {span}")
            return None
        return float(value)

    def whole(self, key: str, default: int, *, least: int = 0, most: int = 1_000_000) -> int:
        value = self._take(key)
        if value is None:
            return default
        if isinstance(value, bool) or not isinstance(value, int):
            self._wrong(key, value, "a whole number without quotes")
        elif not least <= value <= most:
            hint = f"write a whole number from {least} to {most}"
            self.tell(key, "out-of-range", f'"{key}" is {value}', hint)
        else:
            return value
        return default

    def day(self, key: str) -> date | None:
        return self._day(key, self._take(key))

    def _day(self, key: str, value: object) -> date | None:
        if isinstance(value, date) and not isinstance(value, datetime):
            return value if self._in_our_time(key, value) else None
        if value is not None:
            self._wrong(key, value, "a date without quotes, such as 2026-05-02")
        return None

    def moment(self, key: str, *, needed: bool = False) -> datetime | None:
        value = self._take(key)
        if isinstance(value, datetime):
            if value.tzinfo is None:
                return value if self._in_our_time(key, value) else None
            self.tell(
                key,
                "offset",
                f'"{key}" has an offset from UTC',
                "write the time as the shop's clock shows it, such as 2026-05-02T09:10:00",
            )
        elif value is not None:
            self._wrong(key, value, "a date and time without quotes, such as 2026-05-02T09:10:00")
        elif needed:
            hint = f"add {key} = 2026-05-02T09:10:00"
            self.tell(None, "missing", f'"{key}" is missing here', hint)
        return None

    def _in_our_time(self, key: str, value: date) -> bool:
        """A year mistyped as 0206 or 20226 must not set a clock that no calendar can reckon."""
        amiss, hint = year_amiss(value)
        if amiss:
            self.tell(key, "out-of-range", f'"{key}" is {amiss}', hint)
        return not amiss

    def clock(self, key: str) -> time | None:
        value = self._take(key)
        if isinstance(value, time):
            return value
        if value is not None:
            self._wrong(key, value, "a time without quotes, such as 09:00:00")
        return None

    def span(self, key: str) -> Duration | None:
        value = self._take(key)
        if value is None:
            return None
        if not isinstance(value, str):
            self._wrong(key, value, 'a time span in quotes, such as "36 hours" or "1 month"')
            return None
        try:
            return parse_duration(value)
        except NotADuration as error:
            sentence, _, hint = str(error).partition(": ")
            self.tell(key, "not-a-duration", sentence, hint)
            return None

    def names(self, key: str) -> tuple[str, ...]:
        """A list of texts; a single text counts as a list of one."""
        value = self._take(key)
        if isinstance(value, str):
            return (value,)
        if isinstance(value, list):
            kept = [name for name in value if isinstance(name, str)]
            for place, name in enumerate(value):
                if not isinstance(name, str):
                    self.misfits.append(
                        Misfit(
                            (*self.path, key, place),
                            "wrong-type",
                            f'"{key}" holds {spoken_type(name)}',
                            "write each name in quotes",
                        )
                    )
            return tuple(dict.fromkeys(kept))
        if value is not None:
            self._wrong(key, value, f'a list of texts, such as {key} = ["..."]')
        return ()

    def one_of(self, key: str, allowed: Iterable[str], default: str = "") -> str:
        value = self.text(key, default)
        known = tuple(allowed)
        if value != default and value not in known:
            self.tell(key, "unknown-word", f'"{value}" is no {key}', nearest(value, known))
            return default
        return value

    def any(self, key: str) -> Any:
        """The value as it stands; the caller sees to its type."""
        return self._take(key)

    def table(self, key: str) -> Table | None:
        value = self._take(key)
        if isinstance(value, dict):
            return Table(value, (*self.path, key), self.misfits)
        if value is not None:
            self._wrong(key, value, f"a table, such as [{key}]")
        return None

    def tables(self, key: str) -> Iterator[tuple[str, Table]]:
        """The named tables inside a table: [tasks.prime], [tasks.paint]."""
        outer = self.table(key)
        if outer is None:
            return
        for name, value in outer.values.items():
            if isinstance(value, dict):
                yield name, Table(value, (*outer.path, name), self.misfits)
            else:
                outer.tell(
                    name,
                    "wrong-type",
                    f'"{name}" under "{key}" is {spoken_type(value)}',
                    f"write a table [{key}.{name}]",
                )

    def done(self) -> None:
        """Tell every key that nobody asked for."""
        odd = [key for key in self.values if key not in self._asked]
        for number, key in enumerate(odd):
            near = nearest(key, self._asked) if number < _NEAREST and len(key) < 100 else ""
            self.tell(key, "unknown-key", f'"{key}" is not known here', near)
