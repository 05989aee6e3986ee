"""Why something could not be kept on the disk, in one sentence a person can act on."""

from __future__ import annotations

import errno
import os

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.read import TooLarge
from crewboard.legible import legible

_ELSEWHERE = "Try again, or save it elsewhere and copy it into the folder later."
_NO_LOCKS = (
    "this drive cannot lock files, so two people's writing could collide",
    "Keep the folder on a drive or share that can lock files.",
)
_MEANINGS = {
    errno.ENOLCK: _NO_LOCKS,
    errno.ENOSYS: _NO_LOCKS,
    errno.ENOSPC: ("the disk is full", "Make room on the drive, then try again."),
    errno.EDQUOT: ("your share of the disk is full", "Make room on the drive, then try again."),
    errno.EFBIG: ("the file would be too large for this drive", _ELSEWHERE),
    errno.EROFS: (
        "the drive is read-only",
        "Look at the stick's or card's write-protect switch; a faulty drive turns read-only too.",
    ),
    errno.EACCES: ("you may not write here", "Ask whoever looks after the folder for the right."),
    errno.EPERM: ("you may not write here", "Ask whoever looks after the folder for the right."),
    errno.EIO: (
        "the drive reports a fault",
        "Save to another drive now, and copy the folder away from this one.",
    ),
    errno.ENOENT: ("the folder is gone", "Plug the drive in again, then try again."),
    errno.ENODEV: ("the drive is gone", "Plug the drive in again, then try again."),
    errno.ENXIO: ("the drive is gone", "Plug the drive in again, then try again."),
    errno.ESTALE: ("the shared drive is gone", "Connect it again, then try again."),
    errno.ENOTDIR: ("a part of the path is a file, not a folder", "Rename that file."),
    errno.EISDIR: ("a folder has the file's name", "Rename that folder."),
    errno.ELOOP: ("links in the path lead in a circle", "Remove the links."),
    errno.ENAMETOOLONG: ("the name is too long for this drive", "Choose a shorter name."),
    errno.EMFILE: ("too many files are open", "Close other programs, then try again."),
    errno.ENFILE: ("too many files are open", "Close other programs, then try again."),
}


def not_kept(path: str | os.PathLike[str], error: OSError, *, doubtful: bool = False) -> NotKept:
    """The operating system's error as a `NotKept` with a sentence.

    Where somebody's rights stand in the way it names the file, whose it is and who can mend that.
    """
    if isinstance(error, TooLarge):
        name = legible(os.path.basename(error.filename or path))
        hint = "Look whether it is the right file at all, or move it out of the folder."
        return NotKept(path, f"{name} cannot be read: {error.strerror}", hint)
    if error.errno in (errno.EACCES, errno.EPERM) and not doubtful:
        from crewboard.folder.disk.whose import barrier_to_writing

        if barrier := barrier_to_writing(path):
            return NotKept(barrier.path, barrier.sentence, barrier.hint)
    sentence, hint = _MEANINGS.get(
        error.errno or 0, (f"it cannot be written ({error.strerror or error})", _ELSEWHERE)
    )
    full = error.errno in (errno.ENOSPC, errno.EDQUOT)
    return NotKept(path, sentence, hint, doubtful=doubtful, full=full)
