"""A plan for the day: who does what and when, for the people who are here."""
