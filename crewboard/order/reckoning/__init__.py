"""What the plan, the logbook and the shop's air say of a reckoning, before anybody types."""
