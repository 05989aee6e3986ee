"""Person-hours: worked, by the logbook, and still to do."""
