"""What is said when the screens break off by a fault of their own."""

from __future__ import annotations

import tempfile
import traceback

from textual.worker import WorkerFailed

from crewboard.legible import legible


def broken_off(fault: BaseException) -> str:
    """One sentence; how it came about goes into a file beside other passing ones."""
    cause = fault.error if isinstance(fault, WorkerFailed) else fault
    what = legible(f"{type(cause).__name__}: {cause}".removesuffix(": "))
    path = _kept(cause)
    where = f"; for whoever mends it, the fault stands in {path}" if path else ""
    kept = "what was written before is kept, and the commands go on working"
    return f"crewboard: the screens broke off ({what}): {kept}{where}"


def _kept(cause: BaseException) -> str:
    """The path of a new file that holds the whole of it; empty where the disk will not take it."""
    whole = "".join(traceback.format_exception(cause))
    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="crewboard-fault-", suffix=".txt", encoding="utf-8", delete=False
        ) as file:
            file.write(whole)
    except OSError:
        return ""
    return file.name
