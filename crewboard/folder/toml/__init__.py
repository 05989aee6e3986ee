"""TOML text: to values with every mistake placed, and edited with its comments kept."""
