"""Forms: what is typed or picked, and kept in the folder at once or not at all."""
