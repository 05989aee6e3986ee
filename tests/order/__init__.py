"""The order of work and its rules."""
