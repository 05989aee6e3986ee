"""Whatever is typed into a text field shows as typed and does nothing, in every place it goes.

Every class of text (`naughty.CLASSES`) stands in every text field of the plan and the logbook, and
goes through every command, sheet, table, calendar and picture. Each form is read back by the
standard library's reader of it, the calendar by a reader of its own made after RFC 5545.
"""
