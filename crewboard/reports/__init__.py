"""Reports made from a board or a logbook: lines of text, pages, tables. No reading of files."""
