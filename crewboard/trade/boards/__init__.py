"""Boards of mixed widths that add up to a width: all ways that do, ranked, laid out and drawn."""
