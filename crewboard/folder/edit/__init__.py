"""Changes of the plan and lines of the logbook: from what is meant to what the files will say."""
