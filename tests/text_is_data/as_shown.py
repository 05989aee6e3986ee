"""What no text may do, and how one that was shown is compared with the one typed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest

from tests.command.calling import Ended
from tests.long_form import LONG
from tests.naughty import CLASSES

AT = ("--at", "2026-05-02T16:00")
# What a terminal obeys, or what hides text from who reads it. Joined emoji and script joiners are
# marked too: a terminal would not draw them the same as the next one.
STEERS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u00ad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff"
    "\U000e0000-\U000e007f]"
)
# For what takes seconds: one class of each way to steer, all of them in the long form.
SOME = (
    "action link",
    "script",
    "hyperlink code",
    "C1 controls",
    "right to left override",
    "new lines",
)
slow = pytest.mark.parametrize("text", CLASSES if LONG else SOME, indirect=True)


def squeezed(text: str) -> str:
    """Without blanks, so that wrapped lines compare."""
    return "".join(text.split())


def is_harmless(ended: Ended) -> None:
    for said in (ended.out.replace("\r\n", "\n"), ended.err):
        assert not STEERS.search(said), said
    assert "Traceback" not in ended.err


def texts_in(form: Any) -> Iterator[str]:
    if isinstance(form, dict):
        for value in form.values():
            yield from texts_in(value)
    elif isinstance(form, list):
        for value in form:
            yield from texts_in(value)
    elif isinstance(form, str):
        yield form
