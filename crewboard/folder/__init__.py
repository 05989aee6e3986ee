"""The TOML folder: read fast, edited with every comment kept, written so that nothing is lost."""
