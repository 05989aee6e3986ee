"""What the short names of components, tasks and people may look like."""

from __future__ import annotations

import re

_ID = re.compile(r"\w[\w-]*")
HINT = "use letters, digits and hyphens, such as body-frame"


def is_id(text: str) -> bool:
    """Letters, digits, hyphens and underscores, beginning with a letter or digit."""
    return _ID.fullmatch(text) is not None
