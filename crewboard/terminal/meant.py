"""The tasks that a key was pressed for."""

from typing import NamedTuple


class Meant(NamedTuple):
    """None, where the cursor is on no task; several, where they are `marked` or where it is on the
    folded row of a series: which of its pieces are meant is then still to be asked."""

    tasks: tuple[str, ...] = ()
    marked: bool = False
