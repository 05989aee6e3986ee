"""From a board to words: what the screens colour, the reports print and the commands wrap."""
