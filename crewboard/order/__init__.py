"""The order of work: what may be done now, what must wait, and why. Pure functions."""
