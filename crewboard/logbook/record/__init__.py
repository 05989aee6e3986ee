"""Entries of the record: what was seen, what was done to a piece, what bears it out.

They say nothing of where the work stands: of them `crewboard.fabric` makes the record.
"""
