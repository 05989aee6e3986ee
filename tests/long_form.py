"""How many random cases a property is tried on: few in the normal run, thousands when asked."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

LONG = bool(os.environ.get("CREWBOARD_LONG"))


def cases(short: int, long: int) -> settings:
    """`short` random cases, or `long` where the environment says CREWBOARD_LONG=1."""
    return settings(
        max_examples=long if LONG else short,
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )
