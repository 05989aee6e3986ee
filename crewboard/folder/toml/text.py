"""The bytes of a file as text, or why they are none."""

from typing import Any, NamedTuple

try:
    import tomli as _toml
except ModuleNotFoundError:
    import tomllib as _toml  # type: ignore[no-redef]

# A crew's whole year is well below 1 MB; far above that a file is not one of ours, and reading it
# could take more memory than an old laptop has.
MOST_BYTES = 8_000_000

# Levels of tables and lists within one another; more are a slip or an attack, and whatever walks
# the values (even printing them) would overrun Python's stack at some hundreds.
DEEPEST = 100


class BrokenText(NamedTuple):
    """Why a file cannot be read: place (from 1, in characters), what is wrong, how to mend it."""

    line: int
    column: int
    sentence: str
    hint: str


def text_of(data: bytes) -> str | BrokenText:
    """The bytes as text, line ends and byte-order mark as they stand, or why they are none."""
    if len(data) > MOST_BYTES:
        size = f"{len(data) / 1_000_000:.0f} MB"
        return BrokenText(
            1,
            1,
            f"the file is {size} long, more than the {MOST_BYTES // 1_000_000} MB that are read",
            "Look whether it is a TOML file at all, or divide it.",
        )
    if b"\0" in data:
        return _zero_bytes(data)
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        return _not_utf8(data, error.start)


def toml_values(text: str) -> dict[str, Any]:
    """The values of a text without byte-order mark. Raises ValueError and RecursionError."""
    values: dict[str, Any] = _toml.loads(text)
    return values


def string_value(written: str) -> str:
    """What a string or quoted key as written in a file stands for. Raises ValueError."""
    value = toml_values(f"value = {written}")["value"]
    if not isinstance(value, str):
        raise ValueError(f"not a string: {written}")
    return value


def _zero_bytes(data: bytes) -> BrokenText:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or data[1:2] == b"\0":
        return BrokenText(
            1, 1, "the file is saved as UTF-16, not as UTF-8", "Save it as UTF-8 in the editor."
        )
    line, column = _place(data, data.index(b"\0"))
    return BrokenText(
        line,
        column,
        "the file holds zero bytes, as after a power cut or a faulty drive",
        "Bring the file back from a daily copy, or remove the zero bytes in an editor.",
    )


def _not_utf8(data: bytes, at: int) -> BrokenText:
    line, column = _place(data, at)
    return BrokenText(
        line,
        column,
        f"the byte 0x{data[at]:02X} is not UTF-8 text",
        "Save the file as UTF-8 in the editor, and look at the letters with accents.",
    )


def _place(data: bytes, at: int) -> tuple[int, int]:
    line_start = data.rfind(b"\n", 0, at) + 1
    before = data[line_start:at].decode("utf-8", "replace").removeprefix("\ufeff")
    return data.count(b"\n", 0, at) + 1, len(before) + 1
