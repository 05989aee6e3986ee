"""What may be written into the logbook, what is refused, and what is asked about before."""
