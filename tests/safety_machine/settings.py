"""How many days are played: few at the door, `CREWBOARD_FOLDERS` or 400 with CREWBOARD_LONG=1."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, Phase, settings

from tests.long_form import LONG

DAYS = int(os.environ.get("CREWBOARD_FOLDERS", "400")) if LONG else 8
STEPS = 40 if LONG else 20
PLAYED = settings(
    max_examples=DAYS,
    stateful_step_count=STEPS,
    deadline=None,
    derandomize=not LONG,
    database=None,
    phases=(Phase.generate, Phase.shrink) if LONG else (Phase.generate,),
    suppress_health_check=list(HealthCheck),
)
