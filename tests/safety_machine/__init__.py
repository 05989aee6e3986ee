"""A second reading of what was let in, and days of every kind played at the workbench."""
