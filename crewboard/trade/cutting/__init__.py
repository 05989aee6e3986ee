"""Lengths cut from stock: which pieces from which board, and how sure it is that none is wasted."""
