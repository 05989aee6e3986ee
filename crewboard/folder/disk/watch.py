"""What changed on the disk since it was last looked at: names, times, sizes and inodes."""

import errno
import os
from collections.abc import Mapping
from typing import NamedTuple


class Trace(NamedTuple):
    """What changes when a file does: nanoseconds of its last change, bytes, inode."""

    mtime_ns: int
    size: int
    inode: int


class Changes(NamedTuple):
    """Paths, each sorted, relative to the folder and with `/`."""

    added: tuple[str, ...]
    changed: tuple[str, ...]
    gone: tuple[str, ...]

    def __bool__(self) -> bool:
        return bool(self.added or self.changed or self.gone)


def fingerprint(
    root: str | os.PathLike[str], unread: dict[str, OSError] | None = None
) -> dict[str, Trace]:
    """The traces of all TOML files below `root` and of a data logger's rows, by path relative to
    it, with `/`.

    Folders whose names start with a dot are passed over, and links to folders are not followed.
    What the drive does not give counts as gone; `unread` takes the reasons, by file or by folder
    (with its last `/`, "" for the root), of what may be there all the same. So it does for a folder
    of ours that is none: a file or a link of that name.
    """
    traces = dict[str, Trace]()
    unread = {} if unread is None else unread
    ahead = [(os.fspath(root), "")]  # no recursion: folders may lie deeper than Python can go
    while ahead:
        folder, prefix = ahead.pop()
        try:
            with os.scandir(folder) as entries:
                for entry in entries:
                    name = entry.name
                    if name.startswith("."):
                        continue
                    if (
                        name.endswith(".toml")
                        or (prefix.startswith("days/") and _is_copy(entry))
                        or (prefix == "readings/" and name.endswith(".csv"))
                    ):
                        try:
                            seen = entry.stat()
                        except FileNotFoundError:  # gone between listing and looking
                            if entry.is_symlink():
                                nowhere = OSError(errno.ENOENT, "it is a link that leads nowhere")
                                unread[prefix + name] = nowhere
                            continue
                        except OSError as error:
                            unread[prefix + name] = error
                            continue
                        traces[prefix + name] = Trace(seen.st_mtime_ns, seen.st_size, seen.st_ino)
                    elif (why := _no_folder_of_ours(entry, prefix)) is not None:
                        unread[f"{prefix}{name}/"] = why
                    elif entry.is_dir(follow_symlinks=False):
                        ahead.append((entry.path, f"{prefix}{name}/"))
        except OSError as error:
            if not (prefix and isinstance(error, FileNotFoundError)):
                unread[prefix] = error
    return traces


_OURS = ("components", "days", "readings")


def _no_folder_of_ours(entry: os.DirEntry[str], prefix: str) -> OSError | None:
    """Why what is called like one of our folders is none of them; None of anything else."""
    name = entry.name
    ours = not prefix and name.lower() in _OURS
    if not ours and not (prefix == "days/" and len(name) == 4 and name.isdigit()):
        return None
    if entry.is_symlink():
        leads = "to another place" if os.path.exists(entry.path) else "nowhere"
        return OSError(errno.ENOTDIR, f"it is a link that leads {leads}, not the folder itself")
    if not entry.is_dir(follow_symlinks=False):
        return OSError(errno.ENOTDIR, "a folder has to be here, and it is none")
    if ours and name not in _OURS:
        return OSError(errno.ENOTDIR, f'the folder is called "{name.lower()}", in small letters')
    return None


def _is_copy(entry: os.DirEntry[str]) -> bool:
    """A day file's name with more behind it, as some sync tools and editors leave their copies. One
    that an editor put aside (`~`) says nothing new while the file itself is there."""
    name = entry.name
    put_aside = name.endswith("~") and os.path.lexists(entry.path[:-1])
    return ".toml" in name.lower() and not put_aside


def changes(old: Mapping[str, Trace], new: Mapping[str, Trace]) -> Changes:
    """What came, changed and went between two fingerprints."""
    return Changes(
        tuple(sorted(new.keys() - old.keys())),
        tuple(sorted(path for path in new.keys() & old.keys() if new[path] != old[path])),
        tuple(sorted(old.keys() - new.keys())),
    )
