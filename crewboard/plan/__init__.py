"""The plan's own types: what the vehicle is and what has to be done. Pure values, no files."""
