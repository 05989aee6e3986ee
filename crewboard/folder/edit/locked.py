"""Doing something under the folder's lock; what hinders the writing becomes a refusal."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import TypeVar

from crewboard.folder.disk.lock import folder_lock
from crewboard.folder.disk.notkept import ChangedMeanwhile, NotKept, not_kept
from crewboard.folder.edit.keep import CannotKeep
from crewboard.folder.toml.append import CannotAppend
from crewboard.folder.toml.values import CannotSpell
from crewboard.order.refusal import Refusal

Result = TypeVar("Result")


def locked(root: str | os.PathLike[str], act: Callable[[], Result]) -> Result | Refusal:
    """What `act` gives, done while nobody else writes in the folder."""
    try:
        with folder_lock(root):
            return act()
    except NotKept as error:
        return _of_the_disk(error, root)
    except OSError as error:  # a file could not be read that was to be written
        return _of_the_disk(not_kept(error.filename or root, error), root)
    except ChangedMeanwhile as error:
        where = os.path.relpath(error.path, root)
        return Refusal("changed", f"{where} is being changed by another program", "try again")
    except (CannotKeep, CannotAppend, CannotSpell) as error:
        return Refusal("cannot-keep", str(error))


def _of_the_disk(error: NotKept, root: str | os.PathLike[str]) -> Refusal:
    path = os.path.relpath(error.path, root)
    where = f" ({path})" if path != "." else ""
    if error.doubtful:
        says = f"it is not sure whether it was kept: {error.sentence}{where}"
        return Refusal("disk", says, "look at the folder before you try again: it may be there")
    return Refusal("disk", f"nothing was kept: {error.sentence}{where}", error.hint)
