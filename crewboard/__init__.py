"""Crewboard: a restoration crew's work day over plain TOML files."""

from __future__ import annotations

__version__ = "0.1.0"
