"""Holds of which nobody knows when they end: what may have made them longer cannot be read."""

from collections.abc import Iterable, Iterator

from crewboard.order.holds.running import StandingHold
from crewboard.order.unreadable import Unreadable


def in_doubt(
    holds: Iterable[StandingHold], unreadable: Iterable[Unreadable]
) -> Iterator[StandingHold]:
    """Those of the holds that may run on, as they then stand: running, without a known end.

    One that somebody released stays so. What a file said when it was last read is still counted, so
    nothing of it is in doubt while that is remembered.
    """
    unknown = [unread for unread in unreadable if not unread.remembered]
    for hold in holds:
        causes = [unread for unread in unknown if _may_lengthen(unread, hold)]
        if causes and hold.released_at is None:
            yield hold._replace(
                stage="running",
                until=None,
                not_before=hold.until,
                unread=f"{causes[0].name} cannot be read",
            )


def _may_lengthen(unread: Unreadable, hold: StandingHold) -> bool:
    """Whether it may say that the hold lasts longer, or that hours of it do not count."""
    match unread.kind:
        case "vehicle" | "folder":
            return True
        case "day":
            since = hold.since.date()
            return bool(hold.conditions) or unread.day is None or unread.day >= since
        case "readings":
            return bool(hold.conditions)
        case "task":
            return hold.task == unread.about or hold.task.startswith(f"{unread.about}/")
    return False
