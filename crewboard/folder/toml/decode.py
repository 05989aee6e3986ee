"""From a file's bytes to plain values, or to one sentence that says what is wrong and where."""

from typing import Any

from crewboard.folder.toml.text import DEEPEST, BrokenText, text_of, toml_values


def parse_toml(data: bytes) -> dict[str, Any] | BrokenText:
    """The values of a TOML file, or what is wrong with it. Never raises for any bytes.

    A byte-order mark is passed over. tomli also takes TOML 1.1 (newlines in inline tables).
    """
    text = text_of(data)
    if isinstance(text, BrokenText):
        return text
    return parse_text(text.removeprefix("\ufeff"))


def parse_text(text: str) -> dict[str, Any] | BrokenText:
    """The values of a TOML text without byte-order mark, or what is wrong with it."""
    try:
        data = toml_values(text)
        # Counting first is many times faster than walking, and clears nearly every file.
        nested = text.count("[") + text.count("{") + text.count(".") >= DEEPEST
        if nested and _deeper(data, DEEPEST):
            raise RecursionError
        return data
    except (ValueError, RecursionError) as error:
        from crewboard.folder.toml.explain import explained

        return explained(text, error)


def _deeper(data: dict[str, Any], levels: int) -> bool:
    level: list[Any] = [data]
    for _ in range(levels):
        level = [
            below
            for value in level
            for below in (value.values() if isinstance(value, dict) else value)
            if isinstance(below, dict | list)
        ]
        if not level:
            return False
    return True
