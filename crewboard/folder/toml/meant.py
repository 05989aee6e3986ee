"""The value that an edit means, in plain Python: what the new text must decode to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from crewboard.folder.cannot import NoSuchPlace
from crewboard.folder.toml.scan import KeyPath


def value_at(data: Any, path: KeyPath) -> Any:
    """What stands at the path. Raises `NoSuchPlace`."""
    for key in path:
        if not _holds(data, key):
            raise NoSuchPlace(path)
        data = data[key]
    return data


def exists(data: Any, path: KeyPath) -> bool:
    """Whether anything stands at the path."""
    try:
        value_at(data, path)
    except NoSuchPlace:
        return False
    return True


def with_value(data: Any, path: KeyPath, value: Any) -> Any:
    """The data with `value` at the path; missing tables are made. Raises `NoSuchPlace`."""
    if not path:
        return value
    key, rest = path[0], path[1:]
    if isinstance(data, list) and isinstance(key, int) and 0 <= key <= len(data):
        below = data[key] if key < len(data) else {}
        return [*data[:key], with_value(below, rest, value), *data[key + 1 :]]
    if isinstance(data, dict) and isinstance(key, str):
        below = data.get(key, {} if not rest or isinstance(rest[0], str) else [])
        return {**data, key: with_value(below, rest, value)}
    raise NoSuchPlace(path)


def without(data: Any, path: KeyPath) -> Any:
    """The data without what stands at the path. Raises `NoSuchPlace`."""
    key, rest = path[0], path[1:]
    if not _holds(data, key):
        raise NoSuchPlace(path)
    if rest:
        return with_value(data, (key,), without(data[key], rest))
    if isinstance(data, list):
        at = int(key)
        return data[:at] + data[at + 1 :]
    return {name: below for name, below in data.items() if name != key}


def prunings(data: Any, path: KeyPath) -> Iterator[Any]:
    """The data, then without the empty table at `path`, then also without the one around it...

    A table that only dotted keys or headers below it had made is gone when they are gone.
    """
    yield data
    while path and exists(data, path) and value_at(data, path) in ({}, []):
        data = without(data, path)
        path = path[:-1]
        yield data


def renamed(data: Any, old: KeyPath, name: str) -> Any:
    """The data with the key at `old` called `name`, in the same order. Raises `NoSuchPlace`."""
    parent = value_at(data, old[:-1])
    if not isinstance(parent, dict) or old[-1] not in parent:
        raise NoSuchPlace(old)
    pairs = {(name if key == old[-1] else key): below for key, below in parent.items()}
    return with_value(data, old[:-1], pairs)


def same(one: Any, other: Any) -> bool:
    """Whether two decoded values are alike in kind too: 1, 1.0 and true are three values."""
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, (list, tuple)) and isinstance(other, (list, tuple)):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return repr(one) == repr(other)  # nan is nan, and -0.0 is not 0.0
    if type(one) is not type(other):
        return False
    if hasattr(one, "utcoffset") and one.utcoffset() != other.utcoffset():
        return False
    return bool(one == other)


def _holds(data: Any, key: str | int) -> bool:
    if isinstance(data, list):
        return isinstance(key, int) and 0 <= key < len(data)
    return isinstance(data, dict) and key in data
