"""From the files to the plan and the logbook, with every mistake told."""
