"""Colours as on safety signs (ISO 3864), each always beside its word.

Red forbids or warns of danger, orange warns, yellow asks for caution, blue says what must be done,
green is safe. There are two sets of tints: lighter than paint for a dark ground, darker for a light
one in a bright shop. `tests/terminal/test_contrast.py` measures each on every ground it stands on.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from textual.app import App
from textual.theme import Theme

from crewboard.telling.line import Tone

_ON_DARK: dict[Tone, str] = {
    "danger": "#ff8a78",
    "warning": "#f5a24e",
    "caution": "#e8c02a",
    "must": "#8fc1f7",
    "safe": "#60ca90",
    "faint": "#a7b0ab",
    "strong": "#fbfaf4",
    "plain": "#dcdfd6",
}
_ON_LIGHT: dict[Tone, str] = {
    "danger": "#a31515",
    "warning": "#8a4300",
    "caution": "#6b5200",
    "must": "#0b4f94",
    "safe": "#0d6038",
    "faint": "#4f574f",
    "strong": "#000000",
    "plain": "#22261f",
}


def _theme(name: str, tones: Mapping[Tone, str], *, dark: bool, **grounds: str) -> Theme:
    brass = grounds["brass"]
    return Theme(
        name=name,
        primary=brass,
        secondary=grounds["edge"],
        accent=brass,
        warning=tones["warning"],
        error=tones["danger"],
        success=tones["safe"],
        foreground=tones["plain"],
        background=grounds["background"],
        surface=grounds["surface"],
        panel=grounds["panel"],
        dark=dark,
        variables={
            **_variables(tones),
            "row": grounds["row"],
            "row-resting": grounds["row_resting"],
            "input-cursor-background": tones["plain"],
            "input-cursor-foreground": grounds["background"],
            "input-selection-background": f"{brass} 35%",
        },
    )


def _variables(tones: Mapping[Tone, str]) -> dict[str, str]:
    return {f"tone-{tone}": colour for tone, colour in tones.items()}


EVENING = _theme(
    "evening",
    _ON_DARK,
    dark=True,
    brass="#b8975a",
    edge="#8b7448",
    background="#14181a",
    surface="#1b2022",
    panel="#2a3133",
    row="#3c3320",
    row_resting="#25251f",
)
DAYLIGHT = _theme(
    "daylight",
    _ON_LIGHT,
    dark=False,
    brass="#7c5f24",
    edge="#94824f",
    background="#f6f5ee",
    surface="#fffffb",
    panel="#e6e4d6",
    row="#f0deb0",
    row_resting="#ece7d6",
)
THEMES = {EVENING.name: EVENING, DAYLIGHT.name: DAYLIGHT}
_TONES = {EVENING.name: _ON_DARK, DAYLIGHT.name: _ON_LIGHT}


def tones_of(app: App[Any]) -> Mapping[Tone, str]:
    """The colour of each tone on the ground that the app stands on."""
    return _TONES.get(app.theme, _ON_DARK)


def variables_of(app: App[Any]) -> dict[str, str]:
    """The tones and grounds as the stylesheets name them: `$tone-danger`, `$row`."""
    return dict(THEMES.get(app.theme, EVENING).variables)
