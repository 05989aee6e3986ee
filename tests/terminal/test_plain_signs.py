"""The tool's own signs in ASCII: as wide as before, and what people wrote stays."""

from __future__ import annotations

import pytest

from crewboard.terminal.plain_signs import in_ascii


@pytest.mark.parametrize(
    ("shown", "plain"),
    [
        ("14.1 °C, 71 % humidity", "14.1 C, 71 % humidity "),
        ("under 593 °C (1100 °F)", "under 593 C (1100 F)  "),
        ("at 10 °C  │", "at 10 C   │"),  # columns keep their place
        ("2 × 45° … 3", "2 x 45° ~ 3"),  # an angle is what somebody wrote
        ("°Cold", "°Cold"),
        ("━ only what is ours: –—·", "━ only what is ours: ---"),
        ("plain", "plain"),
    ],
)
def test_a_degree_goes_before_its_unit_and_nothing_moves(shown: str, plain: str) -> None:
    assert in_ascii(shown) == plain
    assert len(in_ascii(shown)) == len(shown)
