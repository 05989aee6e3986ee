"""A disk that fails, or a process that dies, at one chosen file-system call."""

from __future__ import annotations

import os
import signal
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

# All that the writing code asks of the operating system, `os.path` included (it asks `os`).
CALLS = (
    "open",
    "close",
    "read",
    "write",
    "fsync",
    "fstat",
    "stat",
    "lstat",
    "access",
    "link",
    "unlink",
    "replace",
    "rename",
    "mkdir",
    "fchmod",
    "fchown",
    "scandir",
    "listdir",
)


class Disk:
    """Counts the calls; at call number `at` (from 1) does what was asked, before or after it."""

    def __init__(self, at: int = 0, happen: Callable[[str], None] | None = None) -> None:
        self.calls = list[str]()
        self.at = at
        self.happen = happen
        self.late = False
        self.no_links = False
        self.for_good = False  # every call from `at` on fails

    def wrapped(self, name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def call(*args: Any, **options: Any) -> Any:
            if name == "link" and self.no_links:
                raise PermissionError(1, "no hard links here")
            self.calls.append(name)
            now = len(self.calls)
            here = now == self.at or (self.for_good and 0 < self.at < now)
            here = here and self.happen is not None
            if here and not self.late:
                self.half(name, real, args)
                assert self.happen is not None
                self.happen(name)
            try:
                if name == "fsync":  # what a real disk then does takes long and cannot be seen
                    return None
                return real(*args, **options)
            finally:
                if here and self.late:
                    assert self.happen is not None
                    self.happen(name)

        return call

    def half(self, name: str, real: Callable[..., Any], args: tuple[Any, ...]) -> None:
        """A write that fails has often written a part before."""
        if name == "write":
            real(args[0], bytes(args[1])[: len(args[1]) // 2])


@contextmanager
def failing(disk: Disk) -> Iterator[Disk]:
    """The disk in the place of the real one."""
    real = {name: getattr(os, name) for name in CALLS}
    for name in CALLS:
        setattr(os, name, disk.wrapped(name, real[name]))
    try:
        yield disk
    finally:
        for name, function in real.items():
            setattr(os, name, function)


def dies(_: str) -> None:
    """What a power button does to a process."""
    os.kill(os.getpid(), signal.SIGKILL)


def raises(number: int) -> Callable[[str], None]:
    """The disk's error of that number."""

    def happen(name: str) -> None:
        raise OSError(number, os.strerror(number))

    return happen


def in_a_child(act: Callable[[], None]) -> bool:
    """Run it in a process of its own; whether it lived to its end."""
    child = os.fork()
    if child == 0:
        code = 1
        try:
            act()
            code = 0
        except BaseException:
            traceback.print_exc()
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        assert os.WTERMSIG(status) == signal.SIGKILL
        return False
    assert os.WEXITSTATUS(status) == 0
    return True
