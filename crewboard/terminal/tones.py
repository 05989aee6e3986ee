"""Colours as on safety signs (ISO 3864), each always beside its word.

Red forbids or warns of danger, orange warns, yellow asks for caution, blue says what must be done,
green is safe. The tones are lighter than paint so that they read on a dark ground.
"""

from __future__ import annotations

from textual.theme import Theme

from crewboard.telling.line import Tone

# tone -> its colour on a dark ground (contrast of at least 4.5 : 1)
COLOURS: dict[Tone, str] = {
    "danger": "#ff7a6b",
    "warning": "#ff9d42",
    "caution": "#f2c94c",
    "must": "#78b4ff",
    "safe": "#6fcf97",
    "faint": "#9aa3a8",
    "strong": "#ffffff",
    "plain": "#d8dcd8",
}

SHOP = Theme(
    name="shop",
    primary="#c9a66b",
    secondary="#8a6d3b",
    accent="#c9a66b",
    warning=COLOURS["warning"],
    error=COLOURS["danger"],
    success=COLOURS["safe"],
    foreground=COLOURS["plain"],
    background="#16191a",
    surface="#1d2122",
    panel="#272c2d",
    dark=True,
    variables={f"tone-{name}": colour for name, colour in COLOURS.items()},
)
