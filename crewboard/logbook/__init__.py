"""The logbook's own types: what happened, dated. Pure values, no files."""
