"""What is said when the screens end without having been left: by a fault of their own, or because
something outside ended them."""

from __future__ import annotations

import signal
import tempfile
import traceback
from collections.abc import Sequence

from textual.worker import WorkerFailed

from crewboard.legible import legible


def broken_off(fault: BaseException, unkept: Sequence[str] = (), *, changed: bool = False) -> str:
    """One sentence; how it came about goes into a file beside other passing ones, unless the
    program was `changed` while the screens were open: then it comes from that."""
    if changed:
        again = (
            "the screens broke off, since Crewboard was changed while it was open: open it again"
        )
        return f"crewboard: {again}; what was written before is saved{_typed(unkept)}"
    cause = fault.error if isinstance(fault, WorkerFailed) else fault
    what = legible(f"{type(cause).__name__}: {cause}".removesuffix(": "))
    path = _passing("fault", "".join(traceback.format_exception(cause)))
    where = f"; for whoever mends it, the fault stands in {path}" if path else ""
    kept = "what was written before is saved, and the commands go on working"
    return f"crewboard: the screens broke off ({what}): {kept}{where}{_typed(unkept)}"


def ended_from_outside(number: int, unkept: Sequence[str]) -> str:
    """One sentence on a signal that ended the screens."""
    name = signal.Signals(number).name
    return f"crewboard: ended from outside ({name}); what was written is saved{_typed(unkept)}"


def _typed(unkept: Sequence[str]) -> str:
    """Where to find what was typed and is not written yet; empty where nothing was."""
    if not unkept:
        return ""
    path = _passing("typed", "".join(f"{line}\n" for line in unkept))
    return f"; what was typed and not saved yet stands in {path}" if path else ""


def _passing(what: str, text: str) -> str:
    """The path of a new file that holds the text; empty where the disk will not take it."""
    try:
        with tempfile.NamedTemporaryFile(
            "w",
            prefix=f"crewboard-{what}-",
            suffix=".txt",
            encoding="utf-8",
            errors="backslashreplace",
            delete=False,
        ) as file:
            file.write(text)
    except OSError:
        return ""
    return file.name
