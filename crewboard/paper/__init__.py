"""Paper and other programs: pages, tables, spreadsheets, calendars, drawings."""
