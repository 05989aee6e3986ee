"""Why a task stands where it stands, what it waits for, and what its finish frees."""
