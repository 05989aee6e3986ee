"""What must be done ahead of the rest: times over work days and holds, and what goes first."""
