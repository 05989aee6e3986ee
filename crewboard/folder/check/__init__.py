"""Every mistake in the folder, and what is worth a question."""
