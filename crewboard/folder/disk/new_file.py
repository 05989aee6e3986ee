"""A file of a name that the person gave: a report, a picture, entries to be folded in later."""

from __future__ import annotations

import os
from contextlib import suppress


def write_new(path: str, text: str) -> None:
    """Write the text as UTF-8 into a new file, whole or not at all; line ends stay as they are.

    Raises FileExistsError where there is one already, and OSError with the path, or ValueError,
    where the disk will not have it; then there is no file of the name.
    """
    file = open(path, "xb")  # noqa: SIM115  (it is closed before it is taken away)
    try:
        with file:
            file.write(text.encode("utf-8", "backslashreplace"))
    except BaseException as error:
        with suppress(OSError):
            os.unlink(path)
        if isinstance(error, OSError):
            raise OSError(error.errno, error.strerror, path) from error
        raise
