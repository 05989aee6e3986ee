"""The folder as files: safely read, written whole or not at all, locked, copied, watched."""
