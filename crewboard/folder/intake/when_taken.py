"""When a picture, sound or film was taken: as it says itself, else by its name, else by its file's
time; and by which of these that is known."""

import re
from collections.abc import Callable
from datetime import datetime
from typing import NamedTuple

from crewboard.folder.intake.exif import taken_at
from crewboard.logbook.record.seen import TAKEN_BY
from crewboard.plan.clock import year_amiss

_BY_NAME, _BY_FILE = TAKEN_BY
# "IMG_20260502_101500", "2026-05-02 10.15.00", "VID-20260502-0003": a date, and mostly a time.
_IN_NAME = re.compile(
    r"(?<!\d)(?P<year>1[89]\d\d|2[01]\d\d)(?P<sign>[-_. ]?)(?P<month>\d\d)(?P=sign)(?P<day>\d\d)"
    r"(?:(?: at |[-_T. ])?(?P<hour>[0-2]\d)[-_.: h]?(?P<minute>[0-5]\d)"
    r"(?:[-_.: m]?(?P<second>[0-5]\d)|(?<=[-_.: h]\d\d))|(?!\d))"
)


class WhenTaken(NamedTuple):
    """When; `by` is empty where the picture itself says so, `at` None where nothing does."""

    at: datetime | None = None
    by: str = ""


def when_taken(
    front: bytes,
    name: str,
    mtime: float,
    local: Callable[[float], datetime],
    recorded: float | None = None,
) -> WhenTaken:
    """`front` are the file's first bytes, `mtime` its time in seconds of the epoch, which `local`
    turns into the shop's own; `recorded` is what a film itself says, in the same seconds."""
    own = _sensible(taken_at(front)) or _in_shop(recorded, local)
    if own is not None:
        return WhenTaken(own)
    if (named := _sensible(_in_name(name))) is not None:
        return WhenTaken(named, _BY_NAME)
    by_file = _in_shop(mtime, local)
    return WhenTaken(by_file, _BY_FILE) if by_file is not None else WhenTaken()


def _in_shop(seconds: float | None, local: Callable[[float], datetime]) -> datetime | None:
    """Seconds of the epoch as a moment of the shop's clock, where that makes sense."""
    try:
        return None if seconds is None else _sensible(local(seconds).replace(microsecond=0))
    except (OverflowError, ValueError, OSError):
        return None


def _in_name(name: str) -> datetime | None:
    for match in _IN_NAME.finditer(name):
        day = [int(match[part]) for part in ("year", "month", "day")]
        time = [int(match[part] or 0) for part in ("hour", "minute", "second")]
        for numbers in ([*day, *time], day):
            try:
                return datetime(*numbers)  # type: ignore[arg-type]
            except ValueError:
                continue
    return None


def _sensible(moment: datetime | None) -> datetime | None:
    """The moment, where a crew can have lived in its year: a camera's clock may have stood."""
    return None if moment is None or year_amiss(moment)[0] else moment
