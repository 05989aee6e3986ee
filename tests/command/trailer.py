"""An invented trailer with a crew and one component, to call commands on."""

from __future__ import annotations

from pathlib import Path

VEHICLE = """\
format = 1
name = "The goods trailer"

[work_days]
every = ["first saturday"]
opens = 09:00:00
closes = 16:00:00
"""


def make_trailer(root: Path, crew: str, body: str, more: str = "") -> Path:
    """The folder: work days are first Saturdays, nine to four."""
    (root / "components").mkdir()
    (root / "vehicle.toml").write_text(VEHICLE + more)
    (root / "crew.toml").write_text(crew)
    (root / "components" / "body.toml").write_text(body)
    return root
