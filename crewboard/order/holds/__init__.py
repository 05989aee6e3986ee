"""Holds that run: when they end, what the shop's air does to their clocks, and how that is said."""
